package book

import (
	"cmp"
	"strconv"

	"kerfside/calc/problem"
	"kerfside/calc/sheet"
)

// withFiles puts a button below each table of a report that saves it as a file.
func (r Report) withFiles() Report {
	for i := range r.Sections {
		if s := &r.Sections[i]; s.Table != nil && len(s.Table.Rows) > 0 {
			s.Actions = append(s.Actions, Action{Label: "Save as a table (CSV)", Act: "csv", With: map[string]string{"table": strconv.Itoa(i)}})
		}
	}
	return r
}

// saveTable answers that a table be saved: the report is made anew and the table of that
// section written.
func (b *book) saveTable(in Act) (Done, error) {
	report, ok := reports[b.Report]
	at, err := strconv.Atoi(in.of("table"))
	if !ok || err != nil {
		return Done{}, problem.New(problem.Unknown, "table", "there is no such table", "Update the app.")
	}
	r, err := report(b)
	if err != nil {
		return Done{}, err
	}
	if at < 0 || at >= len(r.Sections) || r.Sections[at].Table == nil {
		return Done{}, problem.New(problem.NotFound, "table", "that table is not there any more", "Look at the report again.")
	}
	table := r.Sections[at].Table.sheet()
	return Done{Name: "kerfside-" + b.Report + "-" + b.stamp(b.Now)[:len("2026-11-30")] + ".csv", Type: "text/csv", Text: table.CSV()}, nil
}

// sheet is the table as it goes into a file: without what is private.
func (t Table) sheet() sheet.Table {
	v := sheet.Table{Rows: make([][]sheet.Cell, len(t.Rows))}
	for i, c := range t.Columns {
		if c.Private {
			continue
		}
		v.Columns = append(v.Columns, sheet.Column{Key: c.Key, Title: c.Title, Unit: c.Unit})
		for j, row := range t.Rows {
			v.Rows[j] = append(v.Rows[j], row[i].sheet(c.Number))
		}
	}
	return v
}

// sheet is what stands in a file for a cell: in a column of numbers a number or a time
// where it is one.
func (c Cell) sheet(isNumber bool) sheet.Cell {
	text := cmp.Or(c.Plain, c.Text)
	if !isNumber {
		return sheet.OfText(text)
	}
	if _, err := strconv.ParseInt(text, 10, 64); err == nil {
		return sheet.Cell{Type: sheet.Integer, Text: text}
	}
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return sheet.Cell{Type: sheet.Decimal, Text: text}
	}
	return sheet.OfTime(text)
}

// cautionsOf are what was passed over in a file, and its bad lines, in words.
func cautionsOf(s *sheet.Sheet) []string {
	says := troublesOf(&s.Troubles)
	if passed := s.Warning(); passed != "" {
		says = append([]string{passed}, says...)
	}
	return says
}

// troublesOf are the bad lines of a file, in words.
func troublesOf(t *sheet.Troubles) []string {
	err := t.Err()
	if err == nil {
		return nil
	}
	p := problem.From(err)
	var says []string
	for _, one := range append([]*problem.Error{p}, p.Also...) {
		said := one.Msg + "."
		if one.Hint != "" {
			said += " " + one.Hint
		}
		says = append(says, said)
	}
	return says
}
