package fold

import "testing"

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
		{name: "start and stop", script: func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1")).
				Add("b", 90_000, "arc.stopped", `{'of':'`+id("a")+`','starts':3}`, in("s1"))
		}, ms: 90_000, starts: 3, arcs: 1},
		{name: "the stop arrives first", script: func(s *script) *script {
			return s.Add("b", 90_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1")).
				Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1"))
		}, ms: 90_000, starts: 1, arcs: 1},
		{name: "running counts no time yet", script: func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1"))
		}, ms: 0, starts: 1, arcs: 1},
		{name: "two phones time one arc", script: func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1")).
				Add("b", 60_000, "arc.stopped", `{'of':'`+id("a")+`','starts':2}`, in("s1")).
				Add("c", 2_000, "arc.started", `{'rig':'rig-1'}`, in("s1"), device("phone-b")).
				Add("d", 65_000, "arc.stopped", `{'of':'`+id("c")+`','starts':1}`, in("s1"), device("phone-b"))
		}, ms: 65_000, starts: 2, arcs: 1},
		{name: "two rigs at once both count", script: func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", run(0, 60_000, "rig-1"), in("s1")).
				Add("b", 60_000, "arc.run", run(0, 60_000, "rig-2"), in("s1"))
		}, ms: 120_000, starts: 2, arcs: 2},
		{name: "one after the other", script: func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", run(0, 20_000, "rig-1"), in("s1")).
				Add("b", 60_000, "arc.run", run(20_000, 50_000, "rig-1"), in("s1"))
		}, ms: 50_000, starts: 2, arcs: 2},
		{name: "of two stops the first counts", script: func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1")).
				Add("b", 50_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1")).
				Add("c", 55_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1"))
		}, ms: 50_000, starts: 1, arcs: 1},
		{name: "the first stop removed, the second counts", script: func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1")).
				Add("b", 50_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1")).
				Add("c", 55_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1")).
				Add("v", 56_000, "void", `{'of':'`+id("b")+`','on':true}`, in("s1"))
		}, ms: 55_000, starts: 1, arcs: 1},
		{name: "a removed arc counts nothing", script: func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", run(0, 20_000, "rig-1"), in("s1")).
				Add("v", 61_000, "void", `{'of':'`+id("a")+`','on':true}`, in("s1"))
		}, ms: 0, starts: 0, arcs: 0},
		{name: "and brought back it does again", script: func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", run(0, 20_000, "rig-1"), in("s1")).
				Add("v", 61_000, "void", `{'of':'`+id("a")+`','on':true}`, in("s1")).
				Add("w", 62_000, "void", `{'of':'`+id("a")+`','on':false}`, in("s1"))
		}, ms: 20_000, starts: 1, arcs: 1},
		{name: "amended stop", script: func(s *script) *script {
			return s.Add("m", 61_000, "amend", `{'of':'`+id("a")+`','set':{'stop':1760731156544},'why':'ran on'}`, in("s1")).
				Add("a", 60_000, "arc.run", run(0, 20_000, "rig-1"), in("s1"))
		}, ms: 40_000, starts: 1, arcs: 1},
		{name: "by the phone's own clock where it was a day off", script: func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1"), wall(86_400_000)).
				Add("b", 0, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1"), wall(86_445_000))
		}, ms: 45_000, starts: 1, arcs: 1},
		{name: "the clock was set in between: by the stamps", script: func(s *script) *script {
			return s.Add("a", 0, "arc.started", `{'rig':'rig-1'}`, in("s1"), wall(86_400_000)).
				Add("b", 30_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1"), wall(30_000))
		}, ms: 30_000, starts: 1, arcs: 1},
		{name: "a stop before its start", script: func(s *script) *script {
			return s.Add("a", 60_000, "arc.started", `{'rig':'rig-1'}`, in("s1")).
				Add("b", 30_000, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1"), device("phone-b"))
		}, ms: 0, starts: 1, arcs: 1},
		{name: "entered later", script: func(s *script) *script {
			return s.Add("a", 60*minute, "arc.started", `{'rig':'rig-1'}`, in("s1"), at(minute)).
				Add("b", 61*minute, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1"), at(3*minute))
		}, ms: 2 * minute, starts: 1, arcs: 1},
		{name: "a run that ends before it begins is odd", script: func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", run(20_000, 10_000, "rig-1"), in("s1"))
		}, ms: 0, starts: 0, arcs: 0},
		{name: "no rig named: the session's", script: func(s *script) *script {
			return s.Add("a", 60_000, "arc.run", `{'start':1760731116544,'stop':1760731126544}`, in("s1"))
		}, ms: 10_000, starts: 1, arcs: 1},
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
	if got := f.Arcs("phone-a")["rig-1"]; got != (RunningArc{ID: id("a"), Start: t0 + minute, In: "s1"}) {
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
