package form

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"kerfside/calc/order"
)

// maxList bounds the text of a list.
const maxList = 200_000

// cells are what was entered in one row, by key: text, a JSON number, a boolean.
type cells map[string]any

// split reads a list as its text has it.
func (l *Listing) split(text string) ([]cells, error) {
	if strings.HasPrefix(text, "[") || strings.HasPrefix(text, "{") {
		var rows []cells
		d := json.NewDecoder(strings.NewReader(text))
		d.UseNumber()
		if err := d.Decode(&rows); err != nil || strings.TrimSpace(text[d.InputOffset():]) != "" {
			return nil, fmt.Errorf("this is not a JSON list of rows")
		}
		return rows, nil
	}
	var rows []cells
	for rest := text; rest != ""; {
		var row cells
		var err error
		if row, rest, err = l.cutRow(rest); err != nil {
			return nil, fmt.Errorf("%s %d: %w", l.Name, len(rows)+1, err)
		}
		if len(row) > 0 {
			rows = append(rows, row)
		}
	}
	return rows, nil
}

// cutRow takes the first row off a text of the command line.
func (l *Listing) cutRow(text string) (row cells, rest string, err error) {
	row = cells{}
	for {
		text = strings.TrimLeft(text, " \t\r")
		if text == "" || text[0] == ';' || text[0] == '\n' {
			return row, strings.TrimLeft(text, ";\n"), nil
		}
		key, rest, keyed := cutKey(text)
		value, rest, err := cutValue(rest)
		if err != nil {
			return nil, "", err
		}
		if !keyed {
			if key = l.bareKey(row, value); key == "" {
				return nil, "", fmt.Errorf("%q has no key", value)
			}
		}
		text = rest
		if _, twice := row[key]; twice {
			return nil, "", fmt.Errorf("%s is given twice", key)
		}
		row[key] = value
	}
}

// bareKey is the field that a value without a key is meant for: the first that is not
// filled yet, or "". A number passes by a choice that may be left out.
func (l *Listing) bareKey(row cells, value string) string {
	for _, key := range l.Bare {
		f := l.Row.mustField(key)
		_, isWord := f.Takes.Word(value)
		passed := f.Takes.Kind == KindChoice && (f.Default != "" || f.Optional) && !isWord && strings.IndexAny(value, "0123456789.") == 0
		if row[key] == nil && !passed {
			return key
		}
	}
	return ""
}

// cutKey takes "key=" off a text that begins with it.
func cutKey(text string) (key, rest string, ok bool) {
	end := strings.IndexFunc(text, func(r rune) bool {
		return !(r == '_' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9')
	})
	if end < 1 || text[end] != '=' {
		return "", text, false
	}
	return text[:end], text[end+1:], true
}

// cutValue takes a value off a text: up to a space or the end of the row, or what
// stands in quotes. An inch sign inside a value opens none, and a quote that ends one
// has the end of the value behind it.
func cutValue(text string) (value, rest string, err error) {
	if text != "" && (text[0] == '"' || text[0] == '\'') {
		for i := 1; i < len(text); i++ {
			if text[i] == text[0] && (i+1 == len(text) || strings.IndexByte(" \t\r\n;", text[i+1]) >= 0) {
				return text[1:i], text[i+1:], nil
			}
		}
		return "", "", fmt.Errorf("a quote is not closed")
	}
	end := strings.IndexAny(text, " \t\r\n;")
	if end < 0 {
		end = len(text)
	}
	return text[:end], text[end:], nil
}

// write is the one way in which a list is written as text: JSON, the fields in the
// order of their declaration, what belongs to the sender behind them.
func (l *Listing) write(rows []map[string]string) string {
	var b strings.Builder
	parted := func(i int) {
		if i > 0 {
			b.WriteByte(',')
		}
	}
	b.WriteByte('[')
	for i, row := range rows {
		parted(i)
		b.WriteByte('{')
		sent := slices.DeleteFunc(order.Keys(row), func(key string) bool { return !strings.HasPrefix(key, "_") })
		written := slices.DeleteFunc(slices.Concat(l.Row.keys(), sent), func(key string) bool { return row[key] == "" })
		for j, key := range written {
			parted(j)
			b.Write(quoted(key))
			b.WriteByte(':')
			b.Write(quoted(row[key]))
		}
		b.WriteByte('}')
	}
	b.WriteByte(']')
	return b.String()
}

// canonical is a text as write would write it; one that cannot be read stays.
func (l *Listing) canonical(text string) string {
	entered, err := l.split(text)
	if text == "" || err != nil {
		return text
	}
	rows := make([]map[string]string, len(entered))
	for i, row := range entered {
		rows[i] = map[string]string{}
		for key, v := range row {
			if cell, err := asText(v); err == nil {
				rows[i][key] = cell
			}
		}
	}
	return l.write(rows)
}

// written says how a list is written on the command line.
func (l *Listing) written() string {
	keyed := len(l.Row.Fields) - len(l.Bare)
	s := "Rows parted by semicolons; in each "
	switch {
	case len(l.Bare) == 0:
		s += "key=value"
	case keyed == 0:
		s += strings.Join(l.Bare, ", ")
	default:
		s += strings.Join(l.Bare, ", ") + ", then all else as key=value"
	}
	return s + ". Or a JSON list of objects."
}

func quoted(text string) []byte {
	b, err := json.Marshal(strings.ToValidUTF8(text, "\ufffd"))
	if err != nil {
		panic(err) // every text has one
	}
	return b
}

// listText is what was entered in a list field, as text; "" for an empty list.
func listText(v any) (string, error) {
	switch list := v.(type) {
	case []any, []map[string]any:
		b, err := json.Marshal(list)
		if err != nil {
			return "", err
		}
		v = string(b)
	}
	text, ok := v.(string)
	if !ok {
		return asText(v)
	}
	text = strings.TrimSpace(text)
	if len(text) > maxList {
		return "", fmt.Errorf("the list is longer than %d characters", maxList)
	}
	if text == "[]" {
		text = ""
	}
	return text, nil
}
