package sheet

import (
	"strings"
	"unicode/utf8"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Sheet is what was read of a file.
type Sheet struct {
	Rows     []Row
	Units    map[string]string // of each column that is there, by key: the unit in its header, "" for none
	Unknown  []string          // headers that name no column, as they are written
	Troubles Troubles          // of the lines that are not among the rows
}

// Row is a line that could be read.
type Row struct {
	Line  int    // in the file, the header being 1
	Cells []Cell // in the order of the columns that were asked for; of those that the file lacks, empty
}

// Warnings says what was passed over.
func (s Sheet) Warnings() []string {
	if len(s.Unknown) == 0 {
		return nil
	}
	list := make([]string, len(s.Unknown))
	for i, header := range s.Unknown {
		list[i] = told(header)
	}
	return []string{unit.Count(len(list), "column is", "columns are") + " not known here, and not read: " + strings.Join(list, ", ") + "."}
}

// Read reads a file with columns of these. An error says why nothing can be read of it.
// Lines that cannot be read are in the sheet's Troubles, and all others in its rows: it
// is the caller who reads all or none.
func Read(file string, columns []Column) (Sheet, error) {
	if len(file) > MaxBytes {
		return Sheet{}, problem.New(problem.TooLarge, "", "the file is larger than 1 MiB", "Save the one table that is wanted, without other sheets.")
	}
	if !utf8.ValidString(file) {
		return Sheet{}, problem.New(problem.Malformed, "", "the file is no text in UTF-8", "Save it as CSV UTF-8 and read it again.")
	}
	file = strings.TrimPrefix(file, byteOrderMark)
	h, err := readHeader(file, columns)
	if err != nil {
		return Sheet{}, err
	}
	s := Sheet{Units: h.units, Unknown: h.unknown}
	comma := h.lines.separator == ';'
	for l, ok := h.lines.next(); ok; l, ok = h.lines.next() {
		if isEmpty(l.fields) && l.amiss == "" {
			continue
		}
		if len(s.Rows) == MaxRows {
			return Sheet{}, problem.New(problem.TooLarge, "", "the table has more than "+unit.Count(MaxRows, "row", "rows"), "Read it in parts.")
		}
		if l.amiss != "" {
			s.Troubles.Add(l.number, problem.New(problem.Malformed, "", l.amiss, "Put the field in quotes, and write each quote in it twice."))
			continue
		}
		if extra := l.fields[min(len(l.fields), len(h.places)):]; !isEmpty(extra) {
			s.Troubles.Add(l.number, problem.New(problem.Malformed, "", "more fields than the header has",
				"Put a text or number that holds the separator in quotes."))
			continue
		}
		if cells, ok := s.row(h, columns, l, comma); ok {
			s.Rows = append(s.Rows, Row{l.number, cells})
		}
	}
	return s, nil
}

// row reads one line into the cells of the columns.
func (s *Sheet) row(h header, columns []Column, l line, comma bool) (cells []Cell, ok bool) {
	cells, ok = make([]Cell, len(columns)), true
	for i, field := range l.fields[:min(len(l.fields), len(h.places))] {
		at := h.places[i]
		if at < 0 {
			continue
		}
		var p *problem.Error
		if cells[at], p = columns[at].cell(field, comma); p != nil {
			s.Troubles.Add(l.number, p)
			ok = false
			cells[at].Text = field // so that it is not told as empty too
		}
	}
	for i, c := range columns {
		if c.Need && isBlank(cells[i].Text) {
			s.Troubles.Add(l.number, problem.New(problem.Missing, c.Key, c.Title+" is empty", "Fill it in, or take the line out."))
			ok = false
		}
	}
	return cells, ok
}

// isEmpty reports whether nothing stands in the fields.
func isEmpty(fields []string) bool { return strings.Join(fields, "") == "" }

// isBlank reports whether nothing can be seen of a text.
func isBlank(text string) bool { return strings.Trim(text, blanks+"\t\r\n") == "" }
