package book

import (
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/journaltest"

	"pgregory.net/rapid"
)

// aGateDone is the gate's job as it was done: two hours and a half on one day, 30 pieces of
// arc in three cuts, with a tip and an electrode, a stop that was cleared, and a watch.
func aGateDone(t *testing.T) *journaltest.Script {
	s := aGate(t)
	in, rig := journaltest.In("s"), `{'rig':'rig-1'}`
	s.Add("rates", 1, "setting.set", `{'labour':'60','overhead':'15','set_price':'12.50'}`, journaltest.About(prices)).
		Add("bought", 2, "job.set", `{'material':'7.35','number':'2025-004'}`, journaltest.About("gate")).
		Add("line", 3, "line.set", `{'name':'Cups','slot':'cup','price':410}`, journaltest.About("cups")).
		Add("open", 10*minute, "session.opened", `{'rig':'rig-1','job':'gate'}`, journaltest.About("s")).
		Add("stop", 12*minute, "check.answered", `{'guide':'may-i-cut','step':'wall','result':'fail','says':'a wall that may burn','by':'you and the owner'}`, in).
		Add("clear", 20*minute, "check.cleared", `{'of':'`+journaltest.ID("stop")+`','why':'wetted down'}`, in)
	cut := func(name, key string, from, long int64) {
		at := journaltest.T0 + from*minute
		s.Add(name, (from+long)*minute, "arc.run", `{'rig':'rig-1','cut':'`+key+`','start':`+itoa(at)+`,'stop':`+itoa(at+long*minute)+`}`, in).
			Add("done-"+name, (from+long)*minute+1, "cut.done", `{'cut':'`+key+`'}`, journaltest.About("gate"), in)
	}
	cut("arc-1", "a", 30, 2)
	cut("arc-2", "a", 60, 3)
	s.Add("tip", 70*minute, "part.fitted", `{'slot':'tip','rig':'rig-1'}`, journaltest.About("tip-1"), in).
		Add("rod", 70*minute, "part.fitted", `{'slot':'electrode','rig':'rig-1'}`, journaltest.About("rod-1"), in).
		Add("cup", 70*minute, "part.fitted", `{'slot':'cup','rig':'rig-1','line':'cups'}`, journaltest.About("cup-1"), in).
		Add("drain", 72*minute, "trap.drained", rig, in)
	cut("arc-3", "b", 90, 2)
	return s.Add("watch", 92*minute+2, "watch.started", `{'ms':1800000,'rig':'rig-1'}`, in).
		Add("over", 122*minute, "watch.ended", `{'of':'`+journaltest.ID("watch")+`'}`, in).
		Add("close", 130*minute, "session.closed", `{}`, journaltest.About("s"))
}

// TestSheet: what was done stands there in words.
func TestSheet(t *testing.T) {
	look := onGate("sheet", 200)
	look.Device, look.Watcher = "phone-a", "Sam"
	r, err := Make(foldOf(aGateDone(t)), look)
	if err != nil {
		t.Fatal(err)
	}
	if r.Title != "Job sheet 2025-004" || !r.Paper || r.Says[0] != "Osier Ford Repair" {
		t.Errorf("head: %q %q", r.Title, r.Says)
	}
	if got, want := figures(r.Sections[0]), "Job: Gate hinges; Place: Heron Croft"; got != want {
		t.Errorf("head %q, want %q", got, want)
	}
	if got, want := figures(sectionOf(t, r, "Work")), "At work, to the last cut: 82 min; Arc time: 7 min; Starts: 3; Trap drained: 1 time"; got != want {
		t.Errorf("work %q, want %q", got, want)
	}
	for title, want := range map[string][]string{
		"Work":         {"17 Oct 2025, 20:08 to 22:08, Truck 1."},
		"What was cut": {"1. Hinge · 3 × 400 mm · 6 mm mild steel: 2 of 3 done", "2. 1 × 2 ft · 1/4 in stainless: done"},
		"Parts used":   {"1 cutting tip, 1 electrode, 1 shield cup."},
		"Fire watch":   {"17 Oct 2025, 21:30 to 22:00, by Sam."},
		"Checks":       {"May I cut, 20:10: 1 stop.", "A wall that may burn, for the crew and the owner to clear: cleared 20:18, wetted down."},
	} {
		var got []string
		for _, said := range sectionOf(t, r, title).Says {
			got = append(got, strings.ReplaceAll(said, "\u00a0", " "))
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s:\n%q, want\n%q", title, got, want)
		}
	}
	for _, s := range r.Sections {
		if strings.Contains(s.Title, "Cost") || strings.Contains(s.Title, "Notes") {
			t.Errorf("the customer's copy has %q", s.Title)
		}
	}
	look.Device = "phone-b"
	r, _ = Make(foldOf(aGateDone(t)), look)
	if s := sectionOf(t, r, "Fire watch"); strings.Contains(s.Says[0], "Sam") || !slices.Equal(s.Sign, []string{"Who watched the fire"}) {
		t.Errorf("on another phone: %+v", s)
	}
}

// TestCost: worked by hand. 82 min at 60.00 an hour are 82.00, at 15.00 20.50. The watch of
// 30 min, at both, is 37.50. A set is 12.50, the cup 4.10: 16.60. With 7.35 bought it is
// 163.95; of 480.00 are left 316.05. 19 % of 480.00 are 91.20.
func TestCost(t *testing.T) {
	s := aGateDone(t)
	f := foldOf(s)
	entered(t, f, s, "quote", Act{Look: onGate("quote", 5), Act: "quote", Answers: map[string]string{"price": "480"}})
	look := onGate("sheet", 200)
	look.Query = map[string]string{"copy": "crew"}
	r, err := Make(f, look)
	if err != nil {
		t.Fatal(err)
	}
	got := figures(sectionOf(t, r, "Cost, for the crew alone"))
	want := "Labour, 82 min: €82.00; Overhead, 82 min: €20.50; Fire watch, 30 min: €37.50; Parts: €16.60; Bought for it: €7.35; Cost: €163.95; Quoted: €480.00; Left of it: €316.05; Tax, 19 %: €91.20; To bill: €571.20"
	if got != want {
		t.Errorf("cost\n%s, want\n%s", got, want)
	}
	s.Add("free", 210*minute, "setting.set", `{'labour':null,'set_price':null}`, journaltest.About(prices))
	r, _ = Make(foldOf(s), look)
	says := sectionOf(t, r, "Cost, for the crew alone").Says
	if !slices.Equal(says[:2], []string{"What an hour costs is not said: the job’s page asks for it.", "The price of 2 parts is not said."}) {
		t.Errorf("without prices: %q", says)
	}
}

// TestCostLaw: the lines of a cost, as they stand on the paper, add up to its total.
func TestCostLaw(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		rates := rapid.SliceOfN(rapid.IntRange(1, 99_999), 4, 4).Draw(rt, "rates")
		s := aGateDone(t)
		s.Add("drawn", 300*minute, "setting.set", `{'labour':'`+cents(rates[0])+`','overhead':'`+cents(rates[1])+`','watch_rate':'`+cents(rates[2])+`','set_price':'`+cents(rates[3])+`'}`, journaltest.About(prices))
		b := open(foldOf(s), onGate("sheet", 310))
		view, err := b.fold.Job("gate")
		if err != nil {
			rt.Fatal(err)
		}
		lines, total, _ := b.costs(view)
		sum := int64(0)
		for _, l := range lines {
			sum += l.money
		}
		if sum != total {
			rt.Fatalf("%+v add up to %d, told as %d", lines, sum, total)
		}
	})
}

func cents(n int) string { return inCurrency("", int64(n)) }

// TestBilled: a job that is billed says so, and can be taken back.
func TestBilled(t *testing.T) {
	s := aGateDone(t)
	f := foldOf(s)
	press := func(label string) {
		t.Helper()
		r, err := Make(f, onGate("sheet", 200))
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(r.Sections[0].Actions, func(a Action) bool { return a.Label == label })
		if i < 0 {
			t.Fatalf("no button %q: %+v", label, r.Sections[0].Actions)
		}
		entered(t, f, s, "press"+itoa(int64(len(s.Events))), Act{Look: onGate("sheet", 200+int64(len(s.Events))), Act: r.Sections[0].Actions[i].Act, With: r.Sections[0].Actions[i].With})
	}
	press("Mark as billed")
	press("Not billed after all")
	press("Mark as billed")
}
