package book

import (
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/journal/journaltest"
	"kerfside/calc/problem"
)

const minute = journaltest.Minute

// utc is a clock that shows UTC.
var utc = Zone{{From: 0, Minutes: 0}}

// lookAt is the look of a person at the report, so many minutes after the script began.
func lookAt(s *journaltest.Script, report string, min int64) Look {
	return Look{Report: report, Now: journaltest.T0 + min*minute, Zone: utc}
}

func foldOf(s *journaltest.Script) *fold.Fold {
	f := fold.NewFold()
	for i, e := range s.Events {
		f.Add(e, nil, int64(i))
	}
	return f
}

func reportOf(t *testing.T, s *journaltest.Script, look Look) Report {
	t.Helper()
	r, err := Make(foldOf(s), look)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func rowOfReport(t *testing.T, r Report, title string) Row {
	t.Helper()
	for _, s := range r.Sections {
		for _, row := range s.Rows {
			if row.Title == title {
				return row
			}
		}
	}
	t.Fatalf("no row %q in %+v", title, r)
	return Row{}
}

// arcs burn so many minutes of arc from a minute on.
func arcs(s *journaltest.Script, name string, from, long int64) {
	at := journaltest.T0 + from*minute
	s.Add(name, (from+long)*minute, "arc.run", `{'rig':'rig-1','start':`+itoa(at)+`,'stop':`+itoa(at+long*minute)+`}`, journaltest.In("s"))
}

const aDay = 24 * 60

// TestUpkeepSentences: what stands there of a task follows from when it was done, how
// often the crew or common practice wants it, and what time it is. T0 is 17 October 2025
// 19:58 UTC.
func TestUpkeepSentences(t *testing.T) {
	for name, test := range map[string]struct {
		done  func(*journaltest.Script)
		now   int64 // min
		task  string
		says  []string
		tag   string
		leads string
	}{
		"never": {done: func(*journaltest.Script) {}, now: aDay, task: "Air filter", says: []string{"Never logged: nobody knows when it is due.", "Every 90 days, common practice."}, leads: "Nothing was ever logged: nobody knows what is due."},
		"done":  {done: func(s *journaltest.Script) { s.Add("f", 0, "filter.changed", `{'rig':'rig-1'}`) }, now: aDay, task: "Air filter", says: []string{"Changed yesterday. Due 15 Jan 2026.", "Every 90 days, common practice."}, leads: "Nothing that is known is due; 5 tasks were never logged."},
		"soon":  {done: func(s *journaltest.Script) { s.Add("f", 0, "filter.changed", `{'rig':'rig-1'}`) }, now: 80 * aDay, task: "Air filter", says: []string{"Changed 17 Oct 2025. Due 15 Jan.", "Every 90 days, common practice."}, tag: "soon", leads: "Soon: air filter."},
		"today": {done: func(s *journaltest.Script) { s.Add("f", 0, "filter.changed", `{'rig':'rig-1'}`) }, now: 90 * aDay, task: "Air filter", says: []string{"Changed 17 Oct 2025. Due today.", "Every 90 days, common practice."}, tag: "due", leads: "Due: air filter."},
		"late":  {done: func(s *journaltest.Script) { s.Add("f", 0, "filter.changed", `{'rig':'rig-1'}`) }, now: 92 * aDay, task: "Air filter", says: []string{"Changed 17 Oct 2025. Due for 2 days.", "Every 90 days, common practice."}, tag: "due", leads: "Due: air filter."},
		"by arc": {done: func(s *journaltest.Script) {
			s.Add("often", 0, "rig.set", `{'upkeep.filter':{'arc':3600000}}`, journaltest.About("rig-1")).Add("f", 0, "filter.changed", `{'rig':'rig-1'}`)
			arcs(s, "a", 5, 40)
		}, now: 60, task: "Air filter", says: []string{"Changed today. 20 min of arc left.", "Every 60 min of arc."}, leads: "Due: water trap."},
		"by arc, due": {done: func(s *journaltest.Script) {
			s.Add("often", 0, "rig.set", `{'upkeep.filter':{'arc':3600000}}`, journaltest.About("rig-1")).Add("f", 0, "filter.changed", `{'rig':'rig-1'}`)
			arcs(s, "a", 5, 61)
		}, now: 80, task: "Air filter", says: []string{"Changed today. Due now.", "Every 60 min of arc."}, tag: "due", leads: "Due: water trap; air filter."},
		"the trap, never drained": {done: func(s *journaltest.Script) { arcs(s, "a", 5, 21) }, now: 60, task: "Water trap", says: []string{"Never logged. 21 min of arc so far.", "Every 20 min of arc, common practice."}, tag: "due", leads: "Due: water trap."},
		"the tag": {done: func(s *journaltest.Script) {
			s.Add("x", 0, "upkeep.done", `{'rig':'rig-1','task':'extinguisher','next':`+itoa(journaltest.T0+5*aDay*minute)+`}`)
		}, now: 6 * aDay, task: "Fire extinguisher", says: []string{"Looked over 17 Oct. Due for 1 day.", "Every 30 days, and by the date on it: 22 Oct 2025."}, tag: "due", leads: "Due: fire extinguisher."},
		"a month": {done: func(s *journaltest.Script) { s.Add("x", 0, "upkeep.done", `{'rig':'rig-1','task':'extinguisher'}`) }, now: 2 * aDay, task: "Fire extinguisher", says: []string{"Looked over 17 Oct. Due 16 Nov.", "Every 30 days, 29 CFR 1910.157(e)(2)."}, leads: "Nothing that is known is due; 5 tasks were never logged."},
	} {
		s := (&journaltest.Script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1'}`, journaltest.About("rig-1")).Add("s", 0, "session.opened", `{'rig':'rig-1'}`, journaltest.About("s"))
		test.done(s)
		r := reportOf(t, s, lookAt(s, "upkeep", test.now))
		row := rowOfReport(t, r, test.task)
		if !slices.Equal(row.Says, test.says) || row.Tag != test.tag {
			t.Errorf("%s: %q, tag %q; want %q, %q", name, row.Says, row.Tag, test.says, test.tag)
		}
		if r.Says[0] != test.leads {
			t.Errorf("%s: leads with %q, want %q", name, r.Says[0], test.leads)
		}
		if test.tag == "due" && !slices.ContainsFunc(r.Sections, func(s Section) bool { return len(s.Rows) > 0 && s.Rows[0].Tag == "due" }) {
			t.Errorf("%s: what is due does not stand first", name)
		}
	}
}

// TestUpkeepDone: what a button enters is taken for that task, and it is due no more.
func TestUpkeepDone(t *testing.T) {
	s := (&journaltest.Script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1'}`, journaltest.About("rig-1"))
	f := foldOf(s)
	look := lookAt(s, "upkeep", 10)
	for word, kind := range map[string]string{"drain": "trap.drained", "filter": "filter.changed", "oil": "upkeep.done", "grease-the-reel": "upkeep.done"} {
		d, err := Do(f, Act{Look: look, Act: "upkeep-done", With: map[string]string{"rig": "rig-1", "task": word}})
		if err != nil || len(d.Entries) != 1 || d.Entries[0].Kind != kind || d.Entries[0].Body["rig"] != "rig-1" {
			t.Errorf("%s: %+v, %v", word, d, err)
		}
	}
	for text, want := range map[string]string{"2027-03": "2027-03-31", "2028-2": "2028-02-29", "2027/04/05": "2027-04-05"} {
		d, err := Do(f, Act{Look: look, Act: "upkeep-done", With: map[string]string{"rig": "rig-1", "task": "extinguisher"}, Answers: map[string]string{"next": text}})
		if err != nil || !strings.HasPrefix(open(f, look).stamp(d.Entries[0].Body["next"].(int64)), want) {
			t.Errorf("%s: %+v, %v", text, d, err)
		}
	}
	for _, text := range []string{"March", "2027-13", "2027-02-30", "03-2027"} {
		_, err := Do(f, Act{Look: look, Act: "upkeep-done", With: map[string]string{"rig": "rig-1", "task": "extinguisher"}, Answers: map[string]string{"next": text}})
		if p := problem.From(err); err == nil || p.Field != "next" || p.Hint == "" {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// TestUpkeepOften: what the crew says of how often stands in the journal as the fold reads
// it, and is told so afterwards.
func TestUpkeepOften(t *testing.T) {
	for _, test := range []struct{ by, n, says string }{
		{by: "days", n: "45", says: "Every 45 days."}, {by: "arc", n: "600", says: "Every 10 h of arc."}, {by: "hours", n: "50", says: "Every 50 h at work."}, {by: "off", n: "", says: ""},
	} {
		s := (&journaltest.Script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1'}`, journaltest.About("rig-1"))
		d, err := Do(foldOf(s), Act{Look: lookAt(s, "upkeep", 0), Act: "upkeep-often", With: map[string]string{"rig": "rig-1"}, Answers: map[string]string{"task": "oil", "by": test.by, "n": test.n}})
		if err != nil {
			t.Fatal(err)
		}
		enter(t, s, 1, d)
		s.Add("oil", 2*minute, "upkeep.done", `{'rig':'rig-1','task':'oil'}`)
		r := reportOf(t, s, lookAt(s, "upkeep", 5))
		if test.by == "off" {
			for _, row := range r.Sections[0].Rows {
				if row.Title == "Compressor oil" {
					t.Errorf("kept all the same: %+v", row)
				}
			}
			continue
		}
		if row := rowOfReport(t, r, "Compressor oil"); row.Says[1] != test.says {
			t.Errorf("%s: %q, want %q", test.by, row.Says[1], test.says)
		}
	}
	s := (&journaltest.Script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1'}`, journaltest.About("rig-1"))
	d, err := Do(foldOf(s), Act{Look: lookAt(s, "upkeep", 0), Act: "upkeep-own", With: map[string]string{"rig": "rig-1"}, Answers: map[string]string{"name": "Grease the reel", "n": "60"}})
	if err != nil {
		t.Fatal(err)
	}
	enter(t, s, 1, d)
	if row := rowOfReport(t, reportOf(t, s, lookAt(s, "upkeep", 5)), "Grease the reel"); row.Says[1] != "Every 60 days." || row.Action.With["task"] != "grease-the-reel" {
		t.Errorf("own task: %+v", row)
	}
	for _, n := range []string{"", "0", "2.5", "x", "99999"} {
		if _, err := Do(foldOf(s), Act{Look: lookAt(s, "upkeep", 0), Act: "upkeep-often", With: map[string]string{"rig": "rig-1"}, Answers: map[string]string{"task": "oil", "by": "days", "n": n}}); err == nil || problem.From(err).Field != "n" {
			t.Errorf("n %q: %v", n, err)
		}
	}
}

// enter has a script enter what a button made, as the phone does.
func enter(t *testing.T, s *journaltest.Script, min int64, d Done) {
	t.Helper()
	for i, e := range d.Entries {
		raw, err := jsonOf(e.Body)
		if err != nil {
			t.Fatal(err)
		}
		var options []journaltest.Option
		switch fresh, ok := strings.CutPrefix(e.About, NewThing); {
		case e.About == "":
		case ok:
			options = append(options, journaltest.About("thing-"+itoa(min)+fresh))
		default:
			options = append(options, journaltest.About(e.About))
		}
		s.Add("entered-"+itoa(min)+"-"+itoa(int64(i)), min*minute+int64(i), e.Kind, strings.ReplaceAll(raw, `"`, `'`), options...)
		if event.KindOf(e.Kind) == nil {
			t.Errorf("the journal knows no %s", e.Kind)
		}
	}
}
