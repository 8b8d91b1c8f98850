package book

import (
	"strings"
	"testing"

	"kerfside/calc/journal/journaltest"
)

// TestCalendar: what has a date is in the file under a name that stays, what has none is
// counted. calc/ics holds the file's form to RFC 5545.
func TestCalendar(t *testing.T) {
	s := (&journaltest.Script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1','upkeep.oil':{'hours':360000000}}`, journaltest.About("rig-1")).
		Add("s", 0, "session.opened", `{'rig':'rig-1'}`, journaltest.About("s")).
		Add("f", 1, "filter.changed", `{'rig':'rig-1'}`).Add("o", 2, "upkeep.done", `{'rig':'rig-1','task':'oil'}`).
		Add("w", 3, "watch.started", `{'ms':3600000,'rig':'rig-1'}`, journaltest.In("s"))
	d, err := Do(foldOf(s), Act{Look: lookAt(s, "upkeep", 10), Act: "calendar"})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"UID:upkeep.rig-1.filter@kerfside\r\n", "DTSTART;VALUE=DATE:20260115\r\nSUMMARY:Air filter\\, Truck 1: due\r\n",
		"UID:upkeep.rig-1.drain@kerfside\r\n", "DTSTART:20251017T170000\r\n", "RRULE:FREQ=DAILY;INTERVAL=1\r\n",
		"SUMMARY:Fire watch\\, Truck 1\r\n", "DTSTART:20251017T195836Z\r\n", "DURATION:PT1H\r\n",
	} {
		if !strings.Contains(d.Text, want) {
			t.Errorf("no %q in\n%s", want, d.Text)
		}
	}
	if strings.Contains(d.Text, "oil") || d.Said != "Saved. 4 tasks have no date yet." {
		t.Errorf("said %q", d.Said)
	}
}
