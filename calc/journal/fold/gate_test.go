package fold

import (
	"slices"
	"strings"
	"testing"
)

const hour = 60 * minute

// stop is the body of a stop of may-i-cut.
func stop(step, rig string) string {
	return `{'guide':'may-i-cut','step':'` + step + `','result':'fail','says':'` + step + `','by':'you','rig':'` + rig + `','site':'yard'}`
}

func clears(name, how string) string { return `{'of':'` + id(name) + `','why':'` + how + `'}` }

// TestStopsStayUntilCleared: which stops stand, in their order, and what the
// session says of them. Each case holds for any order of its events.
func TestStopsStayUntilCleared(t *testing.T) {
	b := device("phone-b")
	for _, c := range []struct {
		name  string
		add   func(s *script)
		stand string // names of the stops
		asked string // rig and verdict
	}{
		{name: "none", add: func(s *script) {}},
		{name: "one, before any session", add: func(s *script) { s.Add("seal", 0, "check.answered", stop("sealed", "rig-1")) }, stand: "seal", asked: "rig-1 stop"},
		{name: "each for itself", add: func(s *script) {
			s.Add("seal", 0, "check.answered", stop("sealed", "rig-1")).Add("wet", 0, "check.answered", stop("wet", "rig-1")).
				Add("c", 1, "check.cleared", clears("wet", "dried"))
		}, stand: "seal", asked: "rig-1 stop"},
		{name: "two phones", add: func(s *script) {
			s.Add("seal", 0, "check.answered", stop("sealed", "rig-1")).Add("wet", 1, "check.answered", stop("wet", "rig-2"), b).
				Add("c", 2, "check.cleared", clears("seal", "vented"), b)
		}, stand: "wet", asked: "rig-1 stop, rig-2 stop"},
		{name: "cleared before it arrives", add: func(s *script) {
			s.Add("c", 0, "check.cleared", clears("seal", "vented")).Add("seal", 1, "check.answered", stop("sealed", "rig-1"))
		}, asked: "rig-1 stop"},
		{name: "cleared twice, one taken back", add: func(s *script) {
			s.Add("seal", 0, "check.answered", stop("sealed", "rig-1")).Add("c", 1, "check.cleared", clears("seal", "vented")).
				Add("d", 1, "check.cleared", clears("seal", "opened"), b).Add("u", 2, "void", `{'of':'`+id("c")+`','on':true}`)
		}, asked: "rig-1 stop"},
		{name: "the clearing undone", add: func(s *script) {
			s.Add("seal", 0, "check.answered", stop("sealed", "rig-1")).Add("c", 1, "check.cleared", clears("seal", "vented")).Add("u", 2, "void", `{'of':'`+id("c")+`','on':true}`)
		}, stand: "seal", asked: "rig-1 stop"},
		{name: "the stop undone", add: func(s *script) {
			s.Add("seal", 0, "check.answered", stop("sealed", "rig-1")).Add("u", 1, "void", `{'of':'`+id("seal")+`','on':true}`)
		}},
		{name: "undone and brought back", add: func(s *script) {
			s.Add("seal", 0, "check.answered", stop("sealed", "rig-1")).Add("u", 1, "void", `{'of':'`+id("seal")+`','on':true}`).Add("v", 2, "void", `{'of':'`+id("seal")+`','on':false}`)
		}, stand: "seal", asked: "rig-1 stop"},
		{name: "amended to no fail", add: func(s *script) {
			s.Add("seal", 0, "check.answered", stop("sealed", "rig-1")).Add("m", 1, "amend", `{'of':'`+id("seal")+`','set':{'result':'go'}}`)
		}, asked: "rig-1 go"},
		{name: "a good answer later clears nothing", add: func(s *script) {
			s.Add("seal", 0, "check.answered", stop("sealed", "rig-1")).Add("pass", 1, "check.answered", `{'guide':'may-i-cut','step':'asked','result':'go','rig':'rig-1'}`)
		}, stand: "seal", asked: "rig-1 go"},
		{name: "a stop with the same key again", add: func(s *script) {
			s.Add("seal", 0, "check.answered", stop("sealed", "rig-1")).Add("c", 1, "check.cleared", clears("seal", "vented")).Add("again", 2, "check.answered", stop("sealed", "rig-1"))
		}, stand: "again", asked: "rig-1 stop"},
		{name: "two ids of one rig", add: func(s *script) {
			s.Add("seal", 0, "check.answered", stop("sealed", "rig-9")).Add("same", 1, "same", `{'as':'rig-1'}`, about("rig-9"))
		}, stand: "seal", asked: "rig-1 stop"},
		{name: "fields of a newer app, and of another sort", add: func(s *script) {
			s.Add("seal", 0, "check.answered", `{'guide':'may-i-cut','step':'sealed-post','result':'fail','rig':7,'site':['x'],'says':{},'by':null,'valueOf':1,'__proto__':{'result':'go'},'more':[1]}`)
		}, stand: "seal", asked: " stop"},
		{name: "a newer version of the kind", add: func(s *script) {
			s.Add("seal", 0, "check.answered", stop("sealed", "rig-1"), func(m map[string]any) { m["v"] = 2 })
		}},
		{name: "no step", add: func(s *script) {
			s.Add("seal", 0, "check.answered", `{'guide':'may-i-cut','result':'fail'}`)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := &script{T: t}
			c.add(s)
			for range 2 {
				now := foldOf(s).Now()
				var stand, asked []string
				for _, o := range now.Gate.Stops {
					stand = append(stand, strings.TrimRight(o.ID, "_"))
				}
				for _, a := range now.Gate.Asked {
					asked = append(asked, a.Rig+" "+a.Verdict)
				}
				if got := strings.Join(stand, " "); got != c.stand {
					t.Errorf("%q stand, want %q", got, c.stand)
				}
				if got := strings.Join(asked, ", "); got != c.asked {
					t.Errorf("asked %q, want %q", got, c.asked)
				}
				if len(now.Gate.Stops) != len(now.Fails) {
					t.Errorf("%d stops, but %d failed checks", len(now.Gate.Stops), len(now.Fails))
				}
				if p := foldOf(s).Guides(9).Progress; len(p) != 0 {
					t.Errorf("the gate is shown as a guide to go on with: %+v", p)
				}
				slices.Reverse(s.Events)
			}
		})
	}
}

// TestAStopSaysWhatItIs: what the strip says comes from the entry, else from
// the key of the stop.
func TestAStopSaysWhatItIs(t *testing.T) {
	s := (&script{T: t}).Add("a", 0, "check.answered", `{'guide':'may-i-cut','step':'sealed','result':'fail','says':'closed hollow, not vented','by':'you','rig':'rig-1','site':'yard'}`).
		Add("b", 1, "check.answered", `{'guide':'may-i-cut','step':'sealed-post','result':'fail'}`, in("s1"))
	got := foldOf(s).Now().Gate.Stops
	if want := (OpenStop{ID: id("a"), Step: "sealed", Says: "closed hollow, not vented", By: "you", Rig: "rig-1", Site: "yard", At: t0}); got[0] != want {
		t.Errorf("%+v, want %+v", got[0], want)
	}
	if got[1].Says != "sealed post" || got[1].In != "s1" {
		t.Errorf("%+v", got[1])
	}
}

// TestAGateBelongsToTheSessionThatFollows: a gate answered before its session is
// on the list of the first one opened for its rig within twelve hours, and of no
// other, whatever arrives first.
func TestAGateBelongsToTheSessionThatFollows(t *testing.T) {
	for _, c := range []struct {
		name string
		add  func(s *script)
		want string // session of the gate
	}{
		{name: "opened a little later", add: func(s *script) { s.Add("o", hour, "session.opened", `{'rig':'rig-1'}`, about("s1")) }, want: "s1"},
		{name: "the first of two", add: func(s *script) {
			s.Add("o2", 2*hour, "session.opened", `{'rig':'rig-1'}`, about("s2")).Add("o", hour, "session.opened", `{'rig':'rig-1'}`, about("s1"))
		}, want: "s1"},
		{name: "another rig's session", add: func(s *script) { s.Add("o", hour, "session.opened", `{'rig':'rig-2'}`, about("s1")) }},
		{name: "another phone's, of the rig", add: func(s *script) { s.Add("o", hour, "session.opened", `{'rig':'rig-1'}`, about("s1"), device("phone-b")) }, want: "s1"},
		{name: "opened before it", add: func(s *script) { s.Add("o", -hour, "session.opened", `{'rig':'rig-1'}`, about("s1")) }},
		{name: "next week", add: func(s *script) { s.Add("o", 7*24*hour, "session.opened", `{'rig':'rig-1'}`, about("s1")) }},
		{name: "a session whose opening was removed", add: func(s *script) {
			s.Add("o", hour, "session.opened", `{'rig':'rig-1'}`, about("s1")).Add("v", hour, "void", `{'of':'`+id("o")+`','on':true}`)
		}},
		{name: "a rig that was corrected", add: func(s *script) {
			s.Add("o", hour, "session.opened", `{'rig':'rig-2'}`, about("s1")).Add("r", 2*hour, "session.set", `{'rig':'rig-1'}`, about("s1"))
		}, want: "s1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := (&script{T: t}).Add("seal", 0, "check.answered", stop("sealed", "rig-1"))
			c.add(s)
			s.Add("c", 3*hour, "check.cleared", clears("seal", "vented"), device("phone-b"))
			for range 2 {
				f := NewFold()
				for i, e := range s.Events {
					f.Add(e, nil, 0)
					f.Now() // computed at each step, so that nothing stale may stay
					if c.want != "" && i == len(s.Events)-1 {
						v, err := f.Session(c.want)
						if err != nil {
							t.Fatal(err)
						}
						if l := entryOf(t, v, "seal"); l.Cleared != id("c") || l.How != "vented" || v.Fails != 0 {
							t.Errorf("cleared by %q, %q; %d fail", l.Cleared, l.How, v.Fails)
						}
					}
				}
				in := ""
				if a := f.Now().Gate.Asked; len(a) > 0 {
					in = a[0].In
				}
				if in != c.want {
					t.Errorf("it belongs to %q, want %q", in, c.want)
				}
				for _, summary := range f.Book("", 0).Sessions {
					v, err := f.Session(summary.ID)
					if err != nil {
						t.Fatal(err)
					}
					has := slices.ContainsFunc(v.Lines, func(l SessionLine) bool { return l.ID == id("seal") })
					if has != (summary.ID == c.want) || summary.Entries != len(v.Lines) {
						t.Errorf("%s: listed %t, %d lines of %d", summary.ID, has, len(v.Lines), summary.Entries)
					}
				}
				slices.Reverse(s.Events)
			}
		})
	}
}
