package sheet

import (
	"strconv"
	"strings"

	"kerfside/calc/problem"
)

// header is what the first line of a file says of those below.
type header struct {
	lines   scanner // that goes on behind it
	places  []int   // for each field, the column that it is of, -1 for none
	units   map[string]string
	unknown []string
	twice   string // title of a column that stands there twice
}

// readHeader finds the separator and the columns. The separator is the one by which the
// most columns are found.
func readHeader(file string, columns []Column) (header, error) {
	var best header
	for _, separator := range []byte(",;\t") {
		h := header{lines: scanner{text: file, separator: separator, number: 1}, units: map[string]string{}}
		first, ok := h.lines.next()
		for ok && isBlank(strings.Join(first.fields, "")) {
			first, ok = h.lines.next()
		}
		h.take(first.fields[:min(len(first.fields), MaxColumns+1)], columns)
		if best.units == nil || len(h.units) > len(best.units) {
			best = h
		}
	}
	if len(best.places) > MaxColumns {
		return header{}, problem.New(problem.TooLarge, "", "the table has more than "+strconv.Itoa(MaxColumns)+" columns", "Take out those that are not wanted.")
	}
	if best.twice != "" {
		return header{}, problem.New(problem.Conflict, "", best.twice+" stands twice in the header", "Take one of the two columns out.")
	}
	var missing []string
	for _, c := range columns {
		if _, ok := best.units[c.Key]; c.Need && !ok {
			missing = append(missing, c.Title)
		}
	}
	if len(missing) > 0 {
		return header{}, problem.New(problem.Missing, "", "the header lacks "+strings.Join(missing, ", "),
			"Name each column in the first line, as in a file that was saved here.")
	}
	return best, nil
}

// take finds the columns of the fields.
func (h *header) take(fields []string, columns []Column) {
	for _, field := range fields {
		field = unguard(field)
		at, unit := find(field, columns)
		h.places = append(h.places, at)
		if at < 0 {
			if !isBlank(field) {
				h.unknown = append(h.unknown, field)
			}
			continue
		}
		key := columns[at].Key
		if _, ok := h.units[key]; ok {
			h.twice = columns[at].Title
		}
		h.units[key] = unit
	}
}

// find returns the column that a header means, -1 for none, and the unit in it.
func find(field string, columns []Column) (at int, unit string) {
	whole, name := plain(field), ""
	if open := strings.LastIndex(field, "("); open >= 0 && strings.HasSuffix(whole, ")") {
		name = plain(field[:open])
		inside := field[open+1:]
		unit = strings.Trim(inside[:strings.LastIndex(inside, ")")], blanks)
	}
	for i, c := range columns {
		switch {
		case c.isNamed(whole):
			return i, ""
		case c.isNamed(name):
			return i, unit
		}
	}
	return -1, ""
}

// isNamed reports whether a plain name is the column's title or key.
func (c Column) isNamed(name string) bool {
	return name != "" && (name == plain(c.Title) || name == plain(c.Key))
}

// plain returns a name as it is compared: small, without blanks.
func plain(name string) string {
	return strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(name, byteOrderMark, "")), ""))
}
