package book

import (
	"encoding/json"
	"strconv"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/job"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/problem"
	"kerfside/calc/sheet"
	"kerfside/calc/unit"
)

// cutFields are the fields of a row of a cut list, which are the columns of its file.
func cutFields() []form.Field {
	for _, f := range job.JobPlan.Calculator().Fields {
		if f.Key == "cuts" {
			return f.Takes.List.Row.Fields
		}
	}
	return nil
}

// cutRows are the rows of a job's list as they were typed.
func cutRows(v fold.JobView) []map[string]string {
	var rows []map[string]string
	for _, c := range v.Cuts {
		if row := typedRow(c.Row); !c.Removed && row != nil {
			rows = append(rows, row)
		}
	}
	return rows
}

// typedRow is a row of a cut list as text by its fields, nil if it is none.
func typedRow(raw json.RawMessage) map[string]string {
	var typed map[string]any
	if json.Unmarshal(raw, &typed) != nil || typed == nil {
		return nil
	}
	row := map[string]string{}
	for _, f := range cutFields() {
		text := ""
		switch t := typed[f.Key].(type) {
		case string:
			text = strings.TrimSpace(t)
		case float64:
			text = strconv.FormatFloat(t, 'f', -1, 64)
		case bool:
			text = map[bool]string{true: "yes", false: "no"}[t]
		}
		if text != "" {
			row[f.Key] = text
		}
	}
	return row
}

// usualCuts are the columns that a table of cuts always has.
var usualCuts = map[string]bool{"metal": true, "thickness": true, "length": true, "count": true}

// listed is the job of a cut list; one that nothing is kept of yet is empty.
func (b *book) listed() (fold.JobView, error) {
	v, err := b.fold.Job(b.ID)
	if err != nil && problem.From(err).Kind == problem.NotFound && b.ID != "" {
		return fold.JobView{Job: fold.Job{ID: b.ID}}, nil
	}
	return v, err
}

// cuts reports the cut list of a job as a table, and reads one.
func (b *book) cuts() (Report, error) {
	v, err := b.listed()
	if err != nil {
		return Report{}, err
	}
	rows := cutRows(v)
	r := Report{Title: "Cut list", Says: []string{capital(jobNames([]string{v.Name})) + " has " + unit.Count(len(rows), "row", "rows") + "."}}
	if v.Name == "" {
		r.Says = []string{"This job has " + unit.Count(len(rows), "row", "rows") + "."}
	}
	r.Actions = []Action{{Label: "Read rows (CSV)", Act: "cuts-read", File: ".csv"}, {Label: "To the job", Href: "/job/" + v.ID}}
	if len(rows) > 0 {
		t := tableOfCuts(rows)
		r.Sections = append(r.Sections, Section{Table: &t})
	}
	r.Sections = append(r.Sections, cutsSchema())
	return r, nil
}

func tableOfCuts(rows []map[string]string) Table {
	var t Table
	for _, f := range cutFields() {
		used := usualCuts[f.Key]
		for _, row := range rows {
			used = used || row[f.Key] != ""
		}
		if used {
			t.Columns = append(t.Columns, Column{Key: f.Key, Title: f.Label})
		}
	}
	for _, row := range rows {
		var cells []Cell
		for _, c := range t.Columns {
			cells = append(cells, Cell{Text: row[c.Key]})
		}
		t.Rows = append(t.Rows, cells)
	}
	return t
}

// cutsSchema says what a file of cuts looks like.
func cutsSchema() Section {
	var keys []string
	for _, f := range cutFields() {
		keys = append(keys, f.Key)
	}
	return Section{Title: "How such a file looks", Says: []string{
		"The first line names the columns, in any order: " + strings.Join(keys, ", ") + ".",
		"Metal and thickness have to be there. A length is written with its unit, as 6mm or 1/4in, or the column has it: Length (mm).",
		"A row that stands on the list already is not entered twice."}}
}

// cutChange is a row that a file adds.
type cutChange struct {
	line int
	row  map[string]string
}

// readCuts reads a file of cuts beside the list of a job.
func (b *book) readCuts(text string) (fresh []cutChange, same int, cautions []string, err error) {
	v, err := b.listed()
	if err != nil {
		return nil, 0, nil, err
	}
	fields := cutFields()
	var columns []sheet.Column
	for _, f := range fields {
		columns = append(columns, sheet.Column{Key: f.Key, Title: f.Label, Need: f.Key == "metal" || f.Key == "thickness"})
	}
	s, err := sheet.Read(text, columns)
	if err != nil {
		return nil, 0, nil, err
	}
	there, total := map[string]int{}, 0
	for _, row := range cutRows(v) {
		there[sameCut(row)]++
		total++
	}
	for _, line := range s.Rows {
		row := map[string]string{}
		for i, f := range fields {
			text := strings.TrimSpace(line.Cells[i].Text)
			if u := s.Units[f.Key]; text != "" && u != "" && strings.Trim(text, "0123456789.,/ -") == "" {
				text += u
			}
			if text != "" {
				row[f.Key] = text
			}
		}
		if there[sameCut(row)] > 0 {
			there[sameCut(row)]--
			same++
			continue
		}
		if err := job.CheckRow(row); err != nil {
			for _, p := range append([]*problem.Error{problem.From(err)}, problem.From(err).Also...) {
				own := *p
				own.Msg, own.Also = strings.TrimPrefix(p.Msg, "Cut 1: "), nil
				s.Troubles.Add(line.Line, &own)
			}
			continue
		}
		fresh = append(fresh, cutChange{line: line.Line, row: row})
	}
	if most := job.MostCuts; total+len(fresh) > most {
		return nil, 0, nil, problem.Newf(problem.TooLarge, "", "the list would have %d rows, and takes %d at most", total+len(fresh), most).WithHint("Split the job, or give like ones a count.")
	}
	return fresh, same, cautionsOf(s), nil
}

// sameCut is a row as rows are compared.
func sameCut(row map[string]string) string {
	text, _ := json.Marshal(row) // sorts the keys; texts always can
	return string(text)
}

// cutsRead answers a file of cuts with the rows that it would add.
func (b *book) cutsRead(in Act) (Done, error) {
	fresh, same, cautions, err := b.readCuts(in.of("file"))
	if err != nil {
		return Done{}, err
	}
	said := "Nothing is entered yet: " + unit.Count(len(fresh), "row is new", "rows are new") + ", " + unit.Count(same, "stands", "stand") + " on the list already."
	if len(fresh) == 0 {
		said = "This file adds no row."
	}
	r := Report{Title: "Read cuts", Says: []string{said}, Cautions: cautions, Sections: []Section{cutsSchema()}}
	if len(fresh) > 0 {
		var rows []map[string]string
		for _, c := range fresh {
			rows = append(rows, c.row)
		}
		t := tableOfCuts(rows)
		r.Sections = []Section{{Title: "New rows", Table: &t}, cutsSchema()}
		r.Actions = []Action{{Label: "Enter " + unit.Count(len(fresh), "row", "rows"), Act: "cuts-enter", With: map[string]string{"file": in.of("file")}}}
	}
	return Done{Report: &r}, nil
}

// rowStep is how far the places of two rows are apart that were entered one after the other.
const rowStep = 1000

// cutsEnter answers that the rows of a file be added to the list.
func (b *book) cutsEnter(in Act) (Done, error) {
	fresh, _, _, err := b.readCuts(in.of("file"))
	if err != nil {
		return Done{}, err
	}
	v, err := b.listed()
	if err != nil {
		return Done{}, err
	}
	last := int64(0)
	for _, c := range v.Cuts {
		last = max(last, c.At)
	}
	d := Done{Said: unit.Count(len(fresh), "row", "rows") + " entered.", Href: "/job/" + v.ID}
	for i, c := range fresh { // an entry each: one holds so many bytes only
		row := map[string]any{"at": last + int64(i+1)*rowStep}
		for key, text := range c.row {
			row[key] = text
		}
		key := event.CutField + strconv.FormatInt(b.Now, 36) + "-" + strconv.Itoa(i)
		d.Entries = append(d.Entries, Entry{Kind: "job.set", About: v.ID, Body: map[string]any{key: row}})
	}
	return d, nil
}
