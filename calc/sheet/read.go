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

// Warning says what was passed over, "" if nothing was.
func (s *Sheet) Warning() string {
	if len(s.Unknown) == 0 {
		return ""
	}
	text := unit.Count(len(s.Unknown), "column is", "columns are") + " not known here, and not read:"
	for _, header := range s.Unknown {
		text += " " + told(header)
	}
	return text + "."
}

// Read reads a file with columns of these. An error says why nothing can be read of it.
// Lines that cannot be read are in the sheet's Troubles, and all others in its rows: it
// is the caller who reads all or none.
func Read(file string, columns []Column) (*Sheet, error) {
	if len(file) > MaxBytes {
		return nil, problem.New(problem.TooLarge, "", "the file is larger than 1 MiB", "Save the one table that is wanted, without other sheets.")
	}
	if !utf8.ValidString(file) {
		return nil, problem.New(problem.Malformed, "", "the file is no text in UTF-8", "Save it as CSV UTF-8 and read it again.")
	}
	h, err := readHeader(strings.TrimPrefix(file, byteOrderMark), columns)
	if err != nil {
		return nil, err
	}
	s := &Sheet{Units: h.units, Unknown: h.unknown}
	for {
		l, ok := h.lines.next()
		if !ok {
			return s, nil
		}
		if l.amiss == "" && isEmpty(l.fields) {
			continue
		}
		if len(s.Rows) == MaxRows {
			return nil, problem.New(problem.TooLarge, "", "the table has more than 5000 rows", "Read it in parts.")
		}
		s.take(h, columns, l)
	}
}

// take reads one line into a row, or into the troubles.
func (s *Sheet) take(h *header, columns []Column, l line) {
	isGood := true
	amiss := func(kind problem.Kind, field, what, hint string) {
		s.Troubles.Add(l.number, problem.New(kind, field, what, hint))
		isGood = false
	}
	row := Row{l.number, make([]Cell, len(columns))}
	n := min(len(l.fields), len(h.places))
	if l.amiss != "" {
		amiss(problem.Malformed, "", l.amiss, "Put the field in quotes, and write each quote in it twice.")
		return
	}
	if !isEmpty(l.fields[n:]) {
		amiss(problem.Malformed, "", "more fields than the header has", "Put a text or number that holds the separator in quotes.")
		return
	}
	for i, field := range l.fields[:n] {
		if at := h.places[i]; at >= 0 {
			var wrong *[2]string
			if row.Cells[at], wrong = columns[at].cell(field, h.lines.separator == ';'); wrong != nil {
				amiss(problem.Malformed, columns[at].Key, told(field)+wrong[0], wrong[1])
				row.Cells[at].Text = field // so that it is not told as empty too
			}
		}
	}
	for i := range columns {
		if c := &columns[i]; c.Need && isBlank(row.Cells[i].Text) {
			amiss(problem.Missing, c.Key, c.Title+" is empty", "Fill it in, or take the line out.")
		}
	}
	if isGood {
		s.Rows = append(s.Rows, row)
	}
}

// isEmpty reports whether nothing stands in the fields.
func isEmpty(fields []string) bool { return strings.Join(fields, "") == "" }

// isBlank reports whether nothing can be seen of a text.
func isBlank(text string) bool { return strings.Trim(text, blanks+"\t\r\n") == "" }
