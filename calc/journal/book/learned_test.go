package book

import (
	"strings"
	"testing"

	"kerfside/calc/journal/journaltest"
)

// TestLearned: what is told of the crew's own work rests on what was entered, and says on
// how much. The calibration itself is held to its sources in calc/cutting.
func TestLearned(t *testing.T) {
	s := (&journaltest.Script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1','max_current':'45A','tips':'45A:1.05mm'}`, journaltest.About("rig-1")).
		Add("s", 0, "session.opened", `{'rig':'rig-1'}`, journaltest.About("s"))
	if r := reportOf(t, s, lookAt(s, "learned", 5)); r.Says[0] != "Nothing yet: judge a cut, read a part, say what a fault was." || r.Sections[0].Says[0] != "No cut was judged yet. After a cut say on Cut how it came out." {
		t.Errorf("nothing: %q, %q", r.Says, r.Sections[0].Says)
	}
	for i := range int64(3) {
		s.Add("cut-"+itoa(i), (i+1)*minute, "cut.tried", `{'rig':'rig-1','metal':'mild-steel','thickness':6000,'amps':45,'speed':15000,'verdict':'good'}`, journaltest.In("s"))
	}
	s.Add("vague", 9*minute, "cut.tried", `{'rig':'rig-1','metal':'mild-steel','verdict':'good'}`, journaltest.In("s")).
		Add("seen", 10*minute, "fault.seen", `{'symptom':'wide-cut','rig':'rig-1'}`, journaltest.About("f")).Add("found", 11*minute, "fault.found", `{'cause':'tip-worn'}`, journaltest.About("f"))
	r := reportOf(t, s, lookAt(s, "learned", 20))
	if r.Says[0] != "From 3 judged cuts and 1 confirmed fault." {
		t.Errorf("says %q", r.Says)
	}
	row := r.Sections[0].Table.Rows[0]
	if row[0].Text != "Truck 1" || row[1].Text != "Mild steel" || !strings.HasSuffix(row[2].Text, " × as fast as reckoned") || row[4].Text != "3" {
		t.Errorf("calibration %+v", row)
	}
	if says := r.Sections[0].Says; says[len(says)-1] != "1 judged cut tells no speed, or what the rig's tips cannot: not counted." {
		t.Errorf("left out: %q", says)
	}
	bars := r.Sections[2].Pictures[0].Params["bars"]
	if got, _ := jsonOf(bars); got != `[{"label":"Tip worn or oval","value":1,"text":"1 ×"}]` {
		t.Errorf("faults %s", got)
	}
}

// TestLives: before anything wore out it is said that all is assumed.
func TestLives(t *testing.T) {
	s := (&journaltest.Script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1'}`, journaltest.About("rig-1"))
	if r := reportOf(t, s, lookAt(s, "lives", 5)); r.Says[0] != "None of your parts wore out yet: what is drawn is assumed." || len(r.Sections) != 2 {
		t.Errorf("%q", r.Says)
	}
	r := reportOf(t, aTip(t), lookAt(s, "lives", 100))
	if !strings.HasPrefix(r.Says[0], "Half of your cutting tips are gone by about ") {
		t.Errorf("%q", r.Says)
	}
}

// TestFront: each line is what its report leads with, and marks what wants doing.
func TestFront(t *testing.T) {
	s := aTip(t)
	for name, test := range map[string]struct {
		more func(*journaltest.Script)
		row  int
		says string
		tag  string
	}{
		"worn": {more: func(*journaltest.Script) {}, row: 0, says: "None read past half"},
		"past half": {more: func(s *journaltest.Script) {
			s.Add("r", 90*minute, "part.reading", `{'dmax':1100}`, journaltest.About("p"))
		}, row: 0, says: "Most worn: cutting tip, Truck 1"},
		"change": {more: func(s *journaltest.Script) {
			s.Add("r", 90*minute, "part.reading", `{'dmax':1160}`, journaltest.About("p"))
		}, row: 0, says: "Change: cutting tip, Truck 1", tag: "due"},
		"upkeep":   {more: func(*journaltest.Script) {}, row: 2, says: "Due: water trap.", tag: "due"},
		"no stock": {more: func(*journaltest.Script) {}, row: 1, says: "Nothing is counted yet"},
	} {
		s := &journaltest.Script{T: t, Events: s.Events[:len(s.Events):len(s.Events)]}
		test.more(s)
		row := reportOf(t, s, lookAt(s, "front", 100)).Sections[0].Rows[test.row]
		if row.Says[0] != test.says || row.Tag != test.tag {
			t.Errorf("%s: %q, %q", name, row.Says, row.Tag)
		}
	}
}

// TestUnfinished: while entries are still on their way nothing is concluded in a line, and
// a report says that it is not the whole.
func TestUnfinished(t *testing.T) {
	s := aTip(t)
	for _, name := range []string{"front", "due", "parts", "months"} {
		look := lookAt(s, name, 100)
		look.Coming = 12
		r := reportOf(t, s, look)
		switch name {
		case "front":
			for _, row := range r.Sections[0].Rows {
				if row.Says[0] != "Older entries are still coming" || row.Tag != "" {
					t.Errorf("%+v", row)
				}
			}
		case "due":
			if r.Says[0] != "Older entries are still coming" {
				t.Errorf("due: %q", r.Says)
			}
		default:
			if r.Cautions[0] != "Older entries are still on their way to this phone: not all is counted yet." {
				t.Errorf("%s: %q", name, r.Cautions)
			}
		}
	}
}
