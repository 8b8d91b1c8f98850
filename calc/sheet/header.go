package sheet

import (
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
func readHeader(file string, columns []Column) (*header, error) {
	var best *header
	for _, separator := range []byte(",;\t") {
		h := &header{lines: scanner{text: file, separator: separator, number: 1}, units: map[string]string{}}
		first, ok := h.lines.next()
		for ok && isBlank(strings.Join(first.fields, "")) {
			first, ok = h.lines.next()
		}
		h.take(first.fields[:min(len(first.fields), MaxColumns+1)], columns)
		if best == nil || len(h.units) > len(best.units) {
			best = h
		}
	}
	missing := ""
	for i := range columns {
		c := &columns[i]
		if _, ok := best.units[c.Key]; c.Need && !ok {
			missing += ", " + c.Title
		}
	}
	var p *problem.Error
	switch {
	case len(best.places) > MaxColumns:
		p = problem.New(problem.TooLarge, "", "the table has more than 200 columns", "Take out those that are not wanted.")
	case best.twice != "":
		p = problem.New(problem.Conflict, "", best.twice+" stands twice in the header", "Take one of the two columns out.")
	case missing != "":
		p = problem.New(problem.Missing, "", "the header lacks "+missing[2:], "Name each column in the first line, as in a file that was saved here.")
	default:
		return best, nil
	}
	return nil, p
}

// take finds the columns of the fields.
func (h *header) take(fields []string, columns []Column) {
	for _, field := range fields {
		field = unguard(field)
		at, unit := -1, ""
		if !isBlank(field) {
			if at, unit = find(field, columns); at < 0 {
				h.unknown = append(h.unknown, field)
			}
		}
		h.places = append(h.places, at)
		if at < 0 {
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
	if open := strings.LastIndexByte(field, '('); open >= 0 && strings.HasSuffix(whole, ")") {
		name = plain(field[:open])
		unit, _, _ = strings.Cut(field[open+1:], ")")
		unit = strings.Trim(unit, blanks)
	}
	for i := range columns {
		title, key := plain(columns[i].Title), plain(columns[i].Key)
		switch {
		case whole == title || whole == key:
			return i, ""
		case name != "" && (name == title || name == key):
			return i, unit
		}
	}
	return -1, ""
}

// plain returns a name as it is compared: small, without blanks.
func plain(name string) string {
	return strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(name, byteOrderMark, "")), ""))
}
