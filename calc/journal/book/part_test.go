package book

import (
	"math"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/journal/journaltest"
)

// aTip is a rig whose tip of 1 mm was read twice: 20 µm over new after 10 min of arc, 60
// after 20; and one before it that came out worn.
func aTip(t *testing.T) *journaltest.Script {
	s := (&journaltest.Script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1','tips':'45A:1mm','fitted':'45A'}`, journaltest.About("rig-1")).
		Add("s", 0, "session.opened", `{'rig':'rig-1'}`, journaltest.About("s")).
		Add("old", 1000, "part.fitted", `{'slot':'tip','rig':'rig-1'}`, journaltest.About("p-old"))
	arcs(s, "a0", 5, 30)
	s.Add("read-old", 40*minute, "part.reading", `{'dmax':1140}`, journaltest.About("p-old")).
		Add("out-old", 41*minute, "part.pulled", `{'why':'worn','rig':'rig-1'}`, journaltest.About("p-old")).
		Add("fit", 42*minute, "part.fitted", `{'slot':'tip','rig':'rig-1'}`, journaltest.About("p"))
	arcs(s, "a1", 50, 10)
	s.Add("read-1", 65*minute, "part.reading", `{'dmax':1020}`, journaltest.About("p"))
	arcs(s, "a2", 70, 10)
	return s.Add("read-2", 85*minute, "part.reading", `{'dmax':1060,'dmin':1050}`, journaltest.About("p"))
}

// TestPart: what stands of a part follows from its readings: how much of its limit is
// used, what a look alone tells, what it did and why it came out.
func TestPart(t *testing.T) {
	s := aTip(t)
	look := lookAt(s, "part", 100)
	look.ID = "p"
	r := reportOf(t, s, look)
	if r.Title != "Cutting tip" || !strings.HasPrefix(r.Says[0], "By its wear it has ") || !strings.HasSuffix(r.Says[0], " of arc left. Nicks and ovals: only a look tells.") || r.Says[1] != "In Truck 1 since today." {
		t.Errorf("says %q", r.Says)
	}
	if f := r.Sections[0].Figures; f[0].Text != "20 min" || f[1].Text != "2" {
		t.Errorf("figures %+v", f)
	}
	read := r.Sections[1]
	if read.Says[0] != "Read today: largest 1.06 mm, smallest 1.05 mm, 6 % over new." || len(read.Pictures) != 1 {
		t.Errorf("readings %+v", read)
	}
	series := read.Pictures[0].Params["series"].([]form.Series)
	i := slices.IndexFunc(series, func(s form.Series) bool { return s.Dots })
	if got := series[i].Points; len(got) != 2 || got[0][0] != 10 || math.Abs(got[0][1]-2) > 1e-9 || got[1][0] != 20 || math.Abs(got[1][1]-6) > 1e-9 {
		t.Errorf("dots %v", got)
	}
	if len(r.Actions) != 2 || r.Actions[0].Label != "Fitted a new one" || len(r.Actions[0].Ask) != 1 {
		t.Errorf("actions %+v", r.Actions)
	}

	look.ID = "p-old"
	r = reportOf(t, s, look)
	if r.Says[0] != "93 % of its limit was used." || r.Says[1] != "Came out of Truck 1 today: worn." || len(r.Actions) != 0 {
		t.Errorf("old: %q, %d buttons", r.Says, len(r.Actions))
	}
	history := r.Sections[len(r.Sections)-1]
	if history.Title != "History" || history.Rows[0].Title != "Taken out: worn" || history.Rows[1].Title != "Read: largest 1.14 mm" || history.Rows[2].Title != "Fitted to Truck 1" {
		t.Errorf("history %+v", history.Rows)
	}
}

// TestPartAtItsLimit, and what is said where nothing was read or the bore of a new one is
// not known.
func TestPartSayings(t *testing.T) {
	for name, test := range map[string]struct {
		more  func(*journaltest.Script)
		leads string
	}{
		"at its limit": {more: func(s *journaltest.Script) {
			s.Add("r3", 90*minute, "part.reading", `{'dmax':1150}`, journaltest.About("p"))
		}, leads: "Its last reading is at the limit: change it."},
		"of no new one": {more: func(s *journaltest.Script) {
			s.Add("rig2", 90*minute, "rig.set", `{'tips':null}`, journaltest.About("rig-1"))
		}, leads: "The rig does not say how wide its tip is when new: enter its tips to see how the bore goes on."},
		"not read": {more: func(s *journaltest.Script) {
			for _, id := range []string{"read-1", "read-2"} {
				s.Add("v"+id, 90*minute, "void", `{'of':'`+journaltest.ID(id)+`','on':true}`)
			}
		}, leads: "Nobody has read it yet."},
	} {
		s := aTip(t)
		test.more(s)
		look := lookAt(s, "part", 100)
		look.ID = "p"
		if r := reportOf(t, s, look); r.Says[0] != test.leads {
			t.Errorf("%s: %q", name, r.Says)
		}
	}
}

// TestNewPart: the old part comes out for the reason that was told, the new one goes in.
func TestNewPart(t *testing.T) {
	s := aTip(t)
	d, err := Do(foldOf(s), Act{Look: lookAt(s, "part", 100), Act: "new-part", With: map[string]string{"rig": "rig-1", "slot": "tip"}, Answers: map[string]string{"why": "damaged"}})
	if err != nil || len(d.Entries) != 2 || d.Said != "New cutting tip fitted." {
		t.Fatalf("%+v, %v", d, err)
	}
	if out, in := d.Entries[0], d.Entries[1]; out.Kind != "part.pulled" || out.About != "p" || out.Body["why"] != "damaged" || in.Kind != "part.fitted" || in.About != NewThing || in.Body["slot"] != "tip" {
		t.Errorf("%+v", d.Entries)
	}
	enter(t, s, 101, d)
	r := reportOf(t, s, lookAt(s, "parts", 110))
	if row := rowOfReport(t, r, "Cutting tip"); !strings.HasPrefix(row.Says[0], "0 s of arc · 0 starts") {
		t.Errorf("%+v", row)
	}
}
