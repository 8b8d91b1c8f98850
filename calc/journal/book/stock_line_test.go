package book

import (
	"slices"
	"testing"

	"kerfside/calc/journal/journaltest"
)

// TestLineReport: what came and went, in words, the newest first.
func TestLineReport(t *testing.T) {
	s := trucks(t)
	aLine(s, "tips", `{'slot':'tip','rating':'45 A','rig':'rig-1','price':310,'least':2}`, 1, "5")
	s.Add("b", 2*minute, "stock.moved", `{'n':4,'why':'bought'}`, journaltest.About("tips")).Add("f", 3*minute, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'tips'}`, journaltest.About("p")).
		Add("g", 4*minute, "stock.moved", `{'n':-2,'why':'given'}`, journaltest.About("tips")).Add("q", 5*minute, "stock.moved", `{'n':-1}`, journaltest.About("tips"))
	look := lookAt(s, "line", 10)
	look.ID = "tips"
	r := reportOf(t, s, look)
	if r.Title != "Cutting tip 45 A" || !slices.Equal(r.Says, []string{"5 left on Truck 1."}) {
		t.Errorf("%q: %q", r.Title, r.Says)
	}
	var titles []string
	for _, row := range r.Sections[1].Rows {
		titles = append(titles, row.Title+", "+row.Says[1])
	}
	if want := []string{"Moved: 1 out, 5 left after it", "Given or sold: 2 out, 6 left after it", "Fitted to Truck 1, 8 left after it", "Bought: 4 in, 9 left after it", "Counted: 5, 5 left after it"}; !slices.Equal(titles, want) {
		t.Errorf("%q, want %q", titles, want)
	}
	if f := r.Sections[0].Figures; len(f) != 3 || f[0].Text != "2" || f[1].Text != "3.10" || f[2].Text != "15.50" {
		t.Errorf("figures %+v", f)
	}
	s.Add("h", 6*minute, "stock.moved", `{'n':-7,'why':'lost'}`, journaltest.About("tips"))
	if r := reportOf(t, s, look); r.Says[0] != "Count again: there should be -2 on Truck 1, so something was not entered." {
		t.Errorf("below zero: %q", r.Says)
	}
}
