package layout

import (
	"strconv"

	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// addCut hands a cut on: how thick the metal is along the torch, how long the cut is, and
// how many there are. Pierces is "" where it is not known how a cut begins.
func addCut(a *form.Answer, name string, thick, long unit.Length, pierces string, count int) {
	fields := map[string]string{"thickness": asTyped(a, thick, unit.Plate), "length": asTyped(a, long, unit.Marking), "count": strconv.Itoa(count)}
	if pierces != "" {
		fields["pierces"] = pierces
	}
	a.AddCut(form.Onward{Name: name, Fields: fields})
}

// asTyped is a length as a person would enter it.
func asTyped(a *form.Answer, l unit.Length, sort unit.Sort) string {
	return l.Quantity().Say(float64(l), a.Unit("mm", "in"), unit.Doubt{Sort: sort})
}

// markRow is a row of lengths to mark, each under its key, behind a word under the first.
func markRow(a *form.Answer, word string, keys []string, lengths ...unit.Length) *form.Row {
	row, mark := a.NewRow(), form.Number[unit.Length]("mm", "in").As(unit.Marking)
	row.PutWord(keys[0], word)
	for i, l := range lengths {
		form.PutCell(row, keys[i+1], mark, l)
	}
	return row
}

// either is one of two words.
func either(is bool, yes, no string) string {
	if is {
		return yes
	}
	return no
}
