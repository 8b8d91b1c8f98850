package book

import (
	"testing"

	"kerfside/calc/journal/journaltest"
)

// TestMonths: an arc belongs to the month that the phone's calendar shows when it began,
// and the sums are those of the entries. 31 October 2025 23:30 UTC is November in Vienna.
func TestMonths(t *testing.T) {
	const end = 14*aDay + 3*60 + 31 // 31 October 2025 23:29:36 UTC
	s := (&journaltest.Script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1'}`, journaltest.About("rig-1")).
		Add("s", 0, "session.opened", `{'rig':'rig-1'}`, journaltest.About("s"))
	arcs(s, "a", 10, 5)
	arcs(s, "b", end+2, 3)
	s.Add("fit", 20*minute, "part.fitted", `{'slot':'tip','rig':'rig-1'}`, journaltest.About("p")).Add("out", 30*minute, "part.pulled", `{'why':'worn','rig':'rig-1'}`, journaltest.About("p")).
		Add("cut", 40*minute, "cut.tried", `{'rig':'rig-1','verdict':'good'}`, journaltest.In("s")).Add("cut2", 41*minute, "cut.tried", `{'rig':'rig-1','verdict':'too-fast'}`, journaltest.In("s"))
	for name, test := range map[string]struct {
		zone Zone
		rows [][2]string // month, arc
		says string
	}{
		"UTC":    {zone: utc, rows: [][2]string{{"Oct 2025", "8 min"}}, says: "Nothing was done this month yet."},
		"Vienna": {zone: Zone{{From: 0, Minutes: 120}, {From: journaltest.T0 + 8*aDay*minute, Minutes: 60}}, rows: [][2]string{{"Nov 2025", "3 min"}, {"Oct 2025", "5 min"}}, says: "This month: 3 min of arc in 0 sessions."},
	} {
		look := lookAt(s, "months", 20*aDay)
		look.Zone = test.zone
		r := reportOf(t, s, look)
		var table *Table
		for _, one := range r.Sections {
			if one.Table != nil {
				table = one.Table
			}
		}
		if r.Says[0] != test.says || table == nil || len(table.Rows) != len(test.rows) {
			t.Errorf("%s: %q, %+v", name, r.Says, table)
			continue
		}
		for i, want := range test.rows {
			if got := table.Rows[i]; got[0].Text != want[0] || got[4].Text != want[1] {
				t.Errorf("%s: row %d is %+v, want %v", name, i, got, want)
			}
		}
		last := table.Rows[len(table.Rows)-1]
		if last[6].Text != "1 cutting tip" || last[7].Text != "1 cutting tip" || last[8].Text != "1 of 2" || last[0].Plain != "2025-10" {
			t.Errorf("%s: %+v", name, last)
		}
	}
}
