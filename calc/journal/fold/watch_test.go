package fold

import (
	"slices"
	"strings"
	"testing"
)

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

// TestWatchIsStartedAnew: which arcs move the end of a watch of an hour that was
// begun in session s1 of rig-1 at minute 10. Each case holds for any order.
func TestWatchIsStartedAnew(t *testing.T) {
	burnt := func(from, to int64, rig string) string { return run(from*minute, to*minute, rig) }
	b := device("phone-b")
	for _, c := range []struct {
		name    string
		add     func(s *script)
		ends    int64 // minute; 0 if none is open
		running bool
	}{
		{name: "no arc", add: func(s *script) {}, ends: 70},
		{name: "an arc before it", add: func(s *script) { s.Add("a", 8*minute, "arc.run", burnt(5, 8, "rig-1"), in("s1")) }, ends: 70},
		{name: "an arc of its session", add: func(s *script) { s.Add("a", 30*minute, "arc.run", burnt(25, 30, "rig-1"), in("s1")) }, ends: 90},
		{name: "an arc that was entered late", add: func(s *script) { s.Add("a", 300*minute, "arc.run", burnt(25, 30, "rig-1"), in("s1")) }, ends: 90},
		{name: "an arc of its session when it was over", add: func(s *script) { s.Add("a", 100*minute, "arc.run", burnt(95, 100, "rig-1"), in("s1")) }, ends: 160},
		{name: "another rig in its session", add: func(s *script) { s.Add("a", 30*minute, "arc.run", burnt(25, 30, "rig-2"), in("s1"), b) }, ends: 90},
		{name: "its rig in another session", add: func(s *script) { s.Add("a", 30*minute, "arc.run", burnt(25, 30, "rig-1"), in("s2"), b) }, ends: 90},
		{name: "its rig outside any session", add: func(s *script) { s.Add("a", 30*minute, "arc.run", burnt(25, 30, "rig-1")) }, ends: 90},
		{name: "its rig, one arc after the other", add: func(s *script) {
			s.Add("b", 120*minute, "arc.run", burnt(115, 120, "rig-1"), in("s2")).Add("a", 70*minute, "arc.run", burnt(65, 70, "rig-1"), in("s2"))
		}, ends: 180},
		{name: "its rig when it was over", add: func(s *script) { s.Add("a", 100*minute, "arc.run", burnt(95, 100, "rig-1"), in("s2")) }, ends: 70},
		{name: "another rig elsewhere", add: func(s *script) { s.Add("a", 30*minute, "arc.run", burnt(25, 30, "rig-2"), in("s2")) }, ends: 70},
		{name: "an arc burns", add: func(s *script) { s.Add("a", 30*minute, "arc.started", `{'rig':'rig-1'}`, in("s1")) }, ends: 90, running: true},
		{name: "an arc of its rig burns elsewhere", add: func(s *script) { s.Add("a", 30*minute, "arc.started", `{'rig':'rig-1'}`, b) }, ends: 90, running: true},
		{name: "an arc that was forgotten days before", add: func(s *script) { s.Add("a", -3*24*60*minute, "arc.started", `{'rig':'rig-1'}`, in("s0")) }, ends: 70},
		{name: "an arc of its session that was forgotten days before", add: func(s *script) { s.Add("a", -3*24*60*minute, "arc.started", `{'rig':'rig-1'}`, in("s1")) }, ends: 70},
		{name: "two rigs burn and one goes off", add: func(s *script) {
			s.Add("a", 20*minute, "arc.started", `{'rig':'rig-1'}`, in("s1")).Add("b", 21*minute, "arc.started", `{'rig':'rig-2'}`, in("s1")).Add("c", 30*minute, "arc.stopped", `{'of':'`+id("b")+`'}`)
		}, ends: 90, running: true},
		{name: "an arc that was removed", add: func(s *script) {
			s.Add("a", 30*minute, "arc.run", burnt(25, 30, "rig-1"), in("s1")).Add("v", 31*minute, "void", `{'of':'`+id("a")+`','on':true}`)
		}, ends: 70},
		{name: "two ids of its rig", add: func(s *script) {
			s.Add("a", 30*minute, "arc.run", burnt(25, 30, "rig-9")).Add("same", 0, "same", `{'as':'rig-1'}`, about("rig-9"))
		}, ends: 90},
		{name: "ended", add: func(s *script) { s.Add("e", 40*minute, "watch.ended", `{'of':'`+id("w")+`'}`) }, ends: 0},
		{name: "ended by two phones", add: func(s *script) {
			s.Add("e", 40*minute, "watch.ended", `{'of':'`+id("w")+`'}`).Add("f", 41*minute, "watch.ended", `{'of':'`+id("w")+`'}`, b)
		}, ends: 0},
		{name: "its end was taken back", add: func(s *script) {
			s.Add("e", 40*minute, "watch.ended", `{'of':'`+id("w")+`'}`).Add("v", 41*minute, "void", `{'of':'`+id("e")+`','on':true}`)
		}, ends: 70},
		{name: "one of two ends was taken back", add: func(s *script) {
			s.Add("e", 40*minute, "watch.ended", `{'of':'`+id("w")+`'}`).Add("f", 41*minute, "watch.ended", `{'of':'`+id("w")+`'}`, b).Add("v", 42*minute, "void", `{'of':'`+id("e")+`','on':true}`)
		}, ends: 0},
		{name: "removed", add: func(s *script) { s.Add("v", 11*minute, "void", `{'of':'`+id("w")+`','on':true}`) }, ends: 0},
		{name: "made longer", add: func(s *script) { s.Add("m", 11*minute, "amend", `{'of':'`+id("w")+`','set':{'ms':7200000}}`) }, ends: 130},
		{name: "made longer than any watch", add: func(s *script) { s.Add("m", 11*minute, "amend", `{'of':'`+id("w")+`','set':{'ms':720000000}}`) }, ends: 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := (&script{T: t}).
				Add("o", 0, "session.opened", `{'rig':'rig-1'}`, about("s1")).
				Add("o2", 0, "session.opened", `{'rig':'rig-2'}`, about("s2")).
				Add("w", 10*minute, "watch.started", `{'ms':3600000}`, in("s1"))
			c.add(s)
			for range 2 {
				f := NewFold()
				for _, e := range s.Events {
					f.Add(e, nil, 0)
					f.Now() // computed at each step, so that nothing stale may stay
				}
				watches := f.Now().Watch
				if (len(watches) > 0) != (c.ends > 0) {
					t.Fatalf("%d watches are open", len(watches))
				}
				for _, w := range watches {
					if w.Ends != t0+c.ends*minute || w.Running != c.running || w.Rig != "rig-1" || w.From != w.Ends-w.Ms {
						t.Errorf("ends at minute %d, running %t, rig %q, from minute %d; want minute %d, %t", (w.Ends-t0)/minute, w.Running, w.Rig, (w.From-t0)/minute, c.ends, c.running)
					}
				}
				slices.Reverse(s.Events)
			}
		})
	}
}

// TestLongestWatchFirst: watches of two phones stand side by side, the one that
// ends last first, each with its phone and rig.
func TestLongestWatchFirst(t *testing.T) {
	s := (&script{T: t}).
		Add("o", 0, "session.opened", `{'rig':'rig-1'}`, about("s1")).
		Add("short", 20*minute, "watch.started", `{'ms':1800000}`, in("s1")).
		Add("long", 10*minute, "watch.started", `{'ms':3600000,'rig':'rig-2'}`, device("phone-b")).
		Add("odd", 10*minute, "watch.started", `{'ms':0}`, in("s1"))
	var got []string
	for _, w := range foldOf(s).Now().Watch {
		got = append(got, strings.TrimRight(w.ID, "_")+" "+w.Device+" "+w.Rig)
	}
	if want := []string{"long phone-b rig-2", "short phone-a rig-1"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
