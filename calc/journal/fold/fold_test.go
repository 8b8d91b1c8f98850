package fold

import (
	"reflect"
	"slices"
	"strings"
	"testing"
)

// The expected values of this file are worked by hand from the rules of the
// package comment; rigs, parts and times are invented.

func TestArcs(t *testing.T) {
	start := func(s *script) *script {
		return s.Add("open", 0, "session.opened", `{'rig':'rig-1'}`, about("s1"))
	}
	for _, c := range []struct {
		name       string
		script     func(*script) *script
		ms, starts int64
		arcs       int
	}{
		{"start and stop", func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1")).
				Add("b", 90_000, "arc.stopped", `{'of':'`+id("a")+`','starts':3}`, in("s1"))
		}, 90_000, 3, 1},
		{"the stop arrives first", func(s *script) *script {
			return s.Add("b", 90_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1")).
				Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1"))
		}, 90_000, 1, 1},
		{"running counts no time yet", func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1"))
		}, 0, 1, 1},
		{"two phones time one arc", func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1")).
				Add("b", 60_000, "arc.stopped", `{'of':'`+id("a")+`','starts':2}`, in("s1")).
				Add("c", 2_000, "arc.started", `{'rig':'rig-1'}`, in("s1"), device("phone-b")).
				Add("d", 65_000, "arc.stopped", `{'of':'`+id("c")+`','starts':1}`, in("s1"), device("phone-b"))
		}, 65_000, 2, 1},
		{"two rigs at once both count", func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", run(0, 60_000, "rig-1"), in("s1")).
				Add("b", 60_000, "arc.run", run(0, 60_000, "rig-2"), in("s1"))
		}, 120_000, 2, 2},
		{"one after the other", func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", run(0, 20_000, "rig-1"), in("s1")).
				Add("b", 60_000, "arc.run", run(20_000, 50_000, "rig-1"), in("s1"))
		}, 50_000, 2, 2},
		{"of two stops the first counts", func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1")).
				Add("b", 50_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1")).
				Add("c", 55_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1"))
		}, 50_000, 1, 1},
		{"the first stop removed, the second counts", func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1")).
				Add("b", 50_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1")).
				Add("c", 55_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1")).
				Add("v", 56_000, "void", `{'of':'`+id("b")+`','on':true}`, in("s1"))
		}, 55_000, 1, 1},
		{"a removed arc counts nothing", func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", run(0, 20_000, "rig-1"), in("s1")).
				Add("v", 61_000, "void", `{'of':'`+id("a")+`','on':true}`, in("s1"))
		}, 0, 0, 0},
		{"and brought back it does again", func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", run(0, 20_000, "rig-1"), in("s1")).
				Add("v", 61_000, "void", `{'of':'`+id("a")+`','on':true}`, in("s1")).
				Add("w", 62_000, "void", `{'of':'`+id("a")+`','on':false}`, in("s1"))
		}, 20_000, 1, 1},
		{"amended stop", func(s *script) *script {
			return s.Add("m", 61_000, "amend", `{'of':'`+id("a")+`','set':{'stop':1760731156544},'why':'ran on'}`, in("s1")).
				Add("a", 60_000, "arc.run", run(0, 20_000, "rig-1"), in("s1"))
		}, 40_000, 1, 1},
		{"by the phone's own clock where it was a day off", func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1"), wall(86_400_000)).
				Add("b", 0, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1"), wall(86_445_000))
		}, 45_000, 1, 1},
		{"the clock was set in between: by the stamps", func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1"), wall(86_400_000)).
				Add("b", 30_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1"), wall(30_000))
		}, 30_000, 1, 1},
		{"a stop before its start", func(s *script) *script {
			return s.Add("a", 60_000, "arc.started", `{'rig':'rig-1'}`, in("s1")).
				Add("b", 30_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1"), device("phone-b"))
		}, 0, 1, 1},
		{"entered later", func(s *script) *script {
			return s.Add("a", 60*minute, "arc.started", `{'rig':'rig-1'}`, in("s1"), at(minute)).
				Add("b", 61*minute, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1"), at(3*minute))
		}, 2 * minute, 1, 1},
		{"a run that ends before it begins is odd", func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", run(20_000, 10_000, "rig-1"), in("s1"))
		}, 0, 0, 0},
		{"no rig named: the session's", func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", `{'start':1760731116544,'stop':1760731126544}`, in("s1"))
		}, 10_000, 1, 1},
	} {
		s := c.script(start(&script{T: t}))
		if v := sessionOf(s, "s1"); v.Ms != c.ms || v.Starts != c.starts || v.Arcs != c.arcs {
			t.Errorf("%s: %d ms, %d starts, %d arcs, want %d, %d, %d", c.name, v.Ms, v.Starts, v.Arcs, c.ms, c.starts, c.arcs)
		}
	}
}

// run is the body of an arc.run from t0+from to t0+to.
func run(from, to int64, rig string) string {
	b, _ := jsonOf(map[string]any{"rig": rig, "start": t0 + from, "stop": t0 + to})
	return b
}

func TestRunningArcs(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1'}`, about("s1")).
		Add("a", minute, "arc.started", `{'rig':'rig-1'}`, in("s1")).
		Add("b", minute+5000, "arc.started", `{'rig':'rig-1'}`, in("s1"), device("phone-b"))
	f := foldOf(s)
	if got := f.Arcs("phone-a")["rig-1"]; got != (RunningArc{id("a"), t0 + minute, "s1"}) {
		t.Errorf("phone-a's arc = %+v, want its own", got)
	}
	if got := f.Arcs("phone-b")["rig-1"].ID; got != id("b") {
		t.Errorf("phone-b's arc = %s, want its own", got)
	}
	f = foldOf(s.Add("close", 2*minute, "session.closed", `{}`, about("s1")))
	if v := f.Now(); len(f.Arcs("phone-a")) != 0 || v.Session != nil {
		t.Errorf("after closing: arcs %v, session %v", f.Arcs("phone-a"), v.Session)
	}
}

func TestPartsGetTheArcTimeOfTheirPlace(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1'}`, about("s1")).
		Add("f1", 0, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'line-tip'}`, about("tip-1"), in("s1")).
		Add("r1", 10*minute, "arc.run", run(minute, 3*minute, "rig-1"), in("s1")).
		Add("m1", 11*minute, "part.reading", `{'dmin':1380}`, about("tip-1"), in("s1")).
		Add("r2", 20*minute, "arc.run", run(12*minute, 15*minute, "rig-1"), in("s1"))
	now := foldOf(s).Now()
	if p := now.Rigs[0].Parts[0]; p.Ms != 5*minute || p.Starts != 2 || p.ReadMs != 2*minute || string(p.Reading) != `{"dmin":1380}` || p.Line != "line-tip" {
		t.Errorf("tip-1 = %+v", p)
	}
	// A change of the tip that was entered in the evening takes the second arc over.
	s.Add("p1", 600*minute, "part.pulled", `{'why':'oval'}`, about("tip-1"), in("s1"), at(11*minute+1)).
		Add("f2", 600*minute+1, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'line-tip'}`, about("tip-2"), in("s1"), at(11*minute+2))
	f := foldOf(s)
	if p := f.Now().Rigs[0].Parts; len(p) != 1 || p[0].Part != "tip-2" || p[0].Ms != 3*minute || len(p[0].Check) != 0 {
		t.Errorf("fitted = %+v", p)
	}
	if p, err := f.Part("tip-1"); err != nil || p.Ms != 2*minute || p.Fits[0].Why != "oval" || p.Fits[0].To != t0+11*minute+1 {
		t.Errorf("tip-1 = %+v, %v", p, err)
	}
	if n := f.Stocks().Lines[0].N; n != -2 {
		t.Errorf("stock = %d, want -2: two taken, none counted", n)
	}
}

func TestImpossibleMovesAreWarnings(t *testing.T) {
	what := func(s *script) []string {
		var list []string
		for _, w := range foldOf(s).Now().Check {
			list = append(list, w.What)
		}
		p, _ := foldOf(s).Part("tip-1")
		for _, w := range p.Check {
			list = append(list, w.What)
		}
		slices.Sort(list)
		return slices.Compact(list)
	}
	fit := func(s *script, name string, ms int64, part, rig string) *script {
		return s.Add(name, ms, "part.fitted", `{'slot':'tip','rig':'`+rig+`'}`, about(part))
	}
	if got := what(fit(fit(&script{T: t}, "a", 0, "tip-1", "rig-1"), "b", 1, "tip-2", "rig-1")); !slices.Equal(got, []string{"slot-shared"}) {
		t.Errorf("two tips in one slot: %v", got)
	}
	if got := what(fit(fit(&script{T: t}, "a", 0, "tip-1", "rig-1"), "b", 1, "tip-1", "rig-2")); !slices.Equal(got, []string{"fitted-twice"}) {
		t.Errorf("one tip in two rigs: %v", got)
	}
	if got := what((&script{T: t}).Add("a", 0, "part.pulled", `{'why':'worn'}`, about("tip-1"))); !slices.Equal(got, []string{"not-fitted"}) {
		t.Errorf("pulled unfitted: %v", got)
	}
}

func TestDrain(t *testing.T) {
	s := (&script{T: t}).
		Add("rig", 0, "rig.set", `{'name':'North truck'}`, about("rig-1")).
		Add("r1", minute, "arc.run", run(0, minute, "rig-1")).
		Add("d1", 2*minute, "trap.drained", `{'rig':'rig-1'}`).
		Add("r2", 30*minute, "arc.run", run(3*minute, 10*minute, "rig-1"))
	got := foldOf(s).Now().Rigs[0]
	if want := (DrainNow{Every: 20 * minute, Ms: 7 * minute, At: t0 + 2*minute, Due: 13 * minute}); got.Drain != want {
		t.Errorf("drain = %+v, want %+v", got.Drain, want)
	}
	if got.Name != "North truck" || got.LastArc != t0+10*minute || got.Ms != 8*minute || got.Filter.Ms != 8*minute {
		t.Errorf("rig = %+v", got)
	}
	for body, want := range map[string]int64{`{'drainEvery':1800000}`: 30 * minute, `{'drainEvery':60000}`: 20 * minute, `{'drainEvery':'soon'}`: 20 * minute} {
		s := (&script{T: t}).Add("rig", 0, "rig.set", body, about("rig-1"))
		if got := foldOf(s).Now().Rigs[0].Drain.Every; got != want {
			t.Errorf("%s: every %d ms, want %d", body, got, want)
		}
	}
}

func TestStock(t *testing.T) {
	s := (&script{T: t}).
		Add("l", 0, "line.set", `{'name':'Tip 40 A'}`, about("tips")).
		Add("c1", minute, "stock.counted", `{'n':10}`, about("tips")).
		Add("m1", 2*minute, "stock.moved", `{'n':-3}`, about("tips")).
		Add("m2", 2*minute, "stock.moved", `{'n':-3}`, about("tips"), device("phone-b")).
		Add("c2", 9*minute, "stock.counted", `{'n':5}`, about("tips")).
		Add("m3", 9*minute+1, "stock.moved", `{'n':-6}`, about("tips"))
	got := foldOf(s).Stocks().Lines[0]
	if got.N != -1 || !got.Again || got.Counted != t0+9*minute || got.Differs != 1 {
		t.Errorf("stock = %+v, want -1, counted again, differing by 1", got)
	}
	// A movement from before the count that arrives now changes what was
	// expected, not what is there.
	got = foldOf(s.Add("m0", 20*minute, "stock.moved", `{'n':-1}`, about("tips"), at(3*minute))).Stocks().Lines[0]
	if got.N != -1 || got.Differs != 2 {
		t.Errorf("with a late movement: %+v, want still -1, differing by 2", got)
	}
	if got = foldOf((&script{T: t}).Add("m", 0, "stock.moved", `{'n':1000000000}`, about("tips")).Add("n", 0, "stock.moved", `{'n':2.5}`, about("tips")).
		Add("o", 0, "stock.moved", `{'n':4}`, about("tips"))).Stocks().Lines[0]; got.N != 4 {
		t.Errorf("with slips: %+v, want 4", got)
	}
}

func TestAFailSticksUntilItIsClearedByName(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1'}`, about("s1")).
		Add("g", 0, "guide.opened", `{'guide':'bring-up'}`, in("s1")).
		Add("f1", 1, "check.answered", `{'guide':'bring-up','step':'clamp','result':'fail','slot':'clamp'}`, in("s1")).
		Add("ok", 2, "check.answered", `{'guide':'bring-up','step':'clamp','result':'good'}`, in("s1"), device("phone-b"))
	f := foldOf(s)
	p := f.Guides(10).Progress[0]
	if p.Steps["clamp"].Result != "good" || !slices.Equal(p.Fails, []string{id("f1")}) {
		t.Errorf("progress = %+v", p)
	}
	if now := f.Now(); len(now.Fails) != 1 || now.Fails[0].ID != id("f1") || now.Session.Fails != 1 {
		t.Errorf("fails = %+v", now.Fails)
	}
	s.Add("c", 3, "check.cleared", `{'of':'`+id("ok")+`'}`, in("s1"))
	if len(foldOf(s).Now().Fails) != 1 {
		t.Error("clearing another answer cleared the fail")
	}
	s.Add("d", 4, "check.cleared", `{'of':'`+id("f1")+`','why':'cleaned to bright metal'}`, in("s1"))
	if v := sessionOf(s, "s1"); v.Fails != 0 || entryOf(t, v, "f1").Cleared != id("d") {
		t.Errorf("after clearing: %+v", v.Session)
	}
	s.Add("v", 5, "void", `{'of':'`+id("d")+`','on':true}`, in("s1"))
	if len(foldOf(s).Now().Fails) != 1 {
		t.Error("the clearing was removed, and the fail did not come back")
	}
}

func TestRegisters(t *testing.T) {
	s := (&script{T: t}).
		Add("a", 0, "rig.set", `{'name':'North','amps':40}`, about("rig-1")).
		Add("b", 5, "rig.set", `{'name':'North truck'}`, about("rig-1"), device("phone-b")).
		Add("c", 6, "rig.set", `{'amps':45}`, about("rig-1"), device("phone-b"), over(id("a")))
	got := foldOf(s).Things().Rigs[0]
	if string(got.Fields.Fields["name"]) != `"North truck"` || string(got.Fields.Fields["amps"]) != `45` || got.By["amps"] != id("c") {
		t.Errorf("fields = %+v", got.Fields)
	}
	if len(got.Also) != 1 || got.Also[0].Field != "name" {
		t.Errorf("also = %+v, want the name alone: c named the amps of a as replaced", got.Also)
	}
	s = (&script{T: t}).
		Add("a", 0, "rig.set", `{'name':'North'}`, about("rig-1")).
		Add("b", 5, "rig.set", `{'name':'North truck'}`, about("rig-1"), device("phone-b"))
	if got := foldOf(s).Things().Rigs[0]; len(got.Also) != 1 || got.Also[0].ID != id("a") || string(got.Also[0].Value) != `"North"` {
		t.Errorf("also = %+v, want the value that b had not seen", got.Also)
	}
	s.Add("d", 9, "rig.set", `{'name':null}`, about("rig-1"), over(id("b")))
	if got := foldOf(s).Things().Rigs[0]; got.Fields.Fields["name"] != nil || got.By["name"] != id("d") {
		t.Errorf("after null: %+v", got.Fields)
	}
}

func TestSame(t *testing.T) {
	s := (&script{T: t}).
		Add("a", 0, "rig.set", `{'name':'North'}`, about("rig-b")).
		Add("b", 5, "rig.set", `{'amps':40}`, about("rig-a")).
		Add("r1", minute, "arc.run", run(0, minute, "rig-a")).
		Add("r2", minute, "arc.run", run(0, minute, "rig-b")).
		Add("same", 10, "same", `{'as':'rig-a'}`, about("rig-b")).
		Add("round", 11, "same", `{'as':'rig-b'}`, about("rig-a"))
	v := foldOf(s).Things().Rigs
	if len(v) != 1 || v[0].ID != "rig-a" || !slices.Equal(v[0].Same, []string{"rig-b"}) || len(v[0].Fields.Fields) != 2 {
		t.Errorf("rigs = %+v", v)
	}
	if r := foldOf(s).Now().Rigs; len(r) != 1 || r[0].Ms != minute {
		t.Errorf("now = %+v, want one rig with its arc once", r)
	}
	s.Add("v1", 20, "void", `{'of':'`+id("same")+`','on':true}`).Add("v2", 20, "void", `{'of':'`+id("round")+`','on':true}`)
	if v := foldOf(s).Things().Rigs; len(v) != 2 {
		t.Errorf("after taking it back: %+v", v)
	}
}

func TestWatchCountsFromTheLastArc(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1'}`, about("s1")).
		Add("r1", 5*minute, "arc.run", run(0, 4*minute, "rig-1"), in("s1")).
		Add("w", 6*minute, "watch.started", `{'ms':3600000}`, in("s1"))
	if got := foldOf(s).Now().Watch; len(got) != 1 || got[0].From != t0+6*minute || got[0].Ends != t0+66*minute {
		t.Errorf("watch = %+v", got)
	}
	s.Add("a", 20*minute, "arc.started", `{'rig':'rig-1'}`, in("s1"))
	if got := foldOf(s).Now().Watch; !got[0].Running || got[0].Ends != t0+80*minute {
		t.Errorf("with an arc burning: %+v", got)
	}
	s.Add("b", 21*minute, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1")).
		Add("w2", 21*minute, "watch.started", `{'ms':1800000}`, in("s1"), device("phone-b"))
	if got := foldOf(s).Now().Watch; len(got) != 2 || got[0].Ends != t0+81*minute || got[0].Running {
		t.Errorf("after it: %+v, want the longest first", got)
	}
	s.Add("e", 90*minute, "watch.ended", `{'of':'`+id("w")+`'}`, in("s1"))
	if got := foldOf(s).Now().Watch; len(got) != 1 || got[0].ID != id("w2") {
		t.Errorf("after ending one: %+v", got)
	}
}

func TestFaults(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1'}`, about("s1")).
		Add("f", minute, "fault.seen", `{'symptom':'will not transfer','signs':['will not transfer','cuts out']}`, about("fault-1"), in("s1")).
		Add("g", 2*minute, "fault.found", `{'cause':'clamp on paint'}`, about("fault-1"), in("s1"))
	want := OpenFault{ID: "fault-1", Seen: id("f"), Symptom: "will not transfer", Signs: []string{"will not transfer", "cuts out"}, Cause: "clamp on paint", In: "s1", Rig: "rig-1", At: t0 + minute}
	if got := foldOf(s).Now().Faults; len(got) != 1 || !reflect.DeepEqual(got[0], want) {
		t.Errorf("faults = %+v, want %+v", got, want)
	}
	s.Add("n", 2*minute+1, "amend", `{'of':'`+id("f")+`','set':{'symptom':'cuts out','signs':['cuts out']}}`, in("s1"))
	want.Symptom, want.Signs = "cuts out", []string{"cuts out"}
	if got := foldOf(s).Now().Faults; len(got) != 1 || !reflect.DeepEqual(got[0], want) {
		t.Errorf("with its signs amended: %+v, want %+v", got, want)
	}
	if got := foldOf(s.Add("m", 3*minute, "fault.mended", `{}`, about("fault-1"), in("s1"))).Now().Faults; len(got) != 0 {
		t.Errorf("after mending: %+v", got)
	}
}

// TestFaultSigns: an entry that lists no signs, or no texts, has none.
func TestFaultSigns(t *testing.T) {
	for _, signs := range []string{"", `,'signs':null`, `,'signs':'spits'`, `,'signs':[1]`, `,'signs':[]`} {
		s := (&script{T: t}).Add("f", 0, "fault.seen", `{'symptom':'spits'`+signs+`}`, about("fault-1"))
		got := foldOf(s).Now().Faults
		if len(got) != 1 || got[0].Symptom != "spits" || got[0].Signs == nil || len(got[0].Signs) != 0 {
			t.Errorf("with %q: faults = %+v, want one without signs", signs, got)
		}
	}
}

func TestAmendAndVoid(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{}`, about("s1")).
		Add("n", minute, "note.added", `{'text':'tpi changed','mood':1}`, in("s1")).
		Add("m1", 2*minute, "amend", `{'of':'`+id("n")+`','set':{'text':'tip changed'},'why':'slip'}`, in("s1")).
		Add("m2", 3*minute, "amend", `{'of':'`+id("n")+`','set':{'at':1760731117544,'mood':null}}`, in("s1"), device("phone-b"))
	l := entryOf(t, sessionOf(s, "s1"), "n")
	if string(l.Body) != `{"text":"tip changed"}` || l.At != t0+1000 || len(l.History) != 2 || l.History[0].Why != "slip" || l.Void {
		t.Errorf("amended: %+v, body %s", l, l.Body)
	}
	s.Add("v", 4*minute, "void", `{'of':'`+id("m1")+`','on':true}`, in("s1"))
	if l := entryOf(t, sessionOf(s, "s1"), "n"); string(l.Body) != `{"text":"tpi changed"}` {
		t.Errorf("with the amendment removed: %s", l.Body)
	}
	s.Add("w", 5*minute, "void", `{'of':'`+id("n")+`'}`, in("s1"))
	v := sessionOf(s, "s1")
	if l := entryOf(t, v, "n"); !l.Void || v.Entries != 1 {
		t.Errorf("removed: %+v, %d entries, want 1 (the opening)", l, v.Entries)
	}
}

func TestBook(t *testing.T) {
	s := &script{T: t}
	for i := range 130 {
		name := strings.Repeat("s", 1) + string(rune('a'+i/26)) + string(rune('a'+i%26))
		s.Add("open-"+name, int64(i)*minute, "session.opened", `{'rig':'rig-1','title':'Gate'}`, about(name))
		s.Add("cut-"+name, int64(i)*minute+1, "cut.tried", `{'metal':'mild steel','thickness':6000,'verdict':'good'}`, in(name))
	}
	s.Add("gone", 200*minute, "void", `{'of':'`+id("open-sea")+`'}`)
	f := foldOf(s)
	first := f.Book("", 0)
	if len(first.Sessions) != 100 || first.Total != 129 || first.Sessions[0].ID != "sez" || first.Sessions[0].Cuts != 1 || first.Sessions[0].Entries != 2 {
		t.Fatalf("book: %d of %d, first %+v", len(first.Sessions), first.Total, first.Sessions[0])
	}
	rest := f.Book(first.Sessions[99].ID, 50)
	if len(rest.Sessions) != 29 || rest.Sessions[28].ID != "saa" {
		t.Errorf("the rest: %d, last %+v", len(rest.Sessions), rest.Sessions[len(rest.Sessions)-1])
	}
}

// TestUnknownKindsAreListed: an entry of a newer app is shown and counts
// nowhere; so does a newer version of a known kind.
func TestUnknownKindsAreListed(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{}`, about("s1")).
		Add("x", 1, "drone.flown", `{'height':12.5}`, in("s1")).
		Add("y", 2, "stock.moved", `{'n':5}`, about("tips"), in("s1"), func(m map[string]any) { m["v"] = 2 })
	v := sessionOf(s, "s1")
	if len(v.Lines) != 3 || string(entryOf(t, v, "x").Body) != `{"height":12.5}` {
		t.Errorf("lines = %+v", v.Lines)
	}
	if got := foldOf(s).Stocks().Lines; len(got) != 0 {
		t.Errorf("a movement of a newer version was counted: %+v", got)
	}
}
