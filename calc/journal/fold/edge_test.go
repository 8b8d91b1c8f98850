package fold

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// edgeCases are small journals at the ends of what can be, one for each way in
// which an order of arrival might show. An event is "name stamp kind about body",
// in session s-1, with ' for " and @name for the id of another; ages of stamps are
// ms, a counter behind a dot.
var edgeCases = map[string][]string{
	"entries of 0 ms before the opening": {"a 0.1 note.added - {'text':'x'}", "b 5 note.added - {'text':'y'}", "c 9 note.added - {'text':'z'}"},
	"opened at 0 ms and again":           {"a 0.1 session.opened s-1 {'rig':'r'}", "b 5 session.opened s-1 {}", "c 7 session.closed s-1 {}"},
	"closed at 0 ms, never opened":       {"a 0.1 session.closed s-1 {}", "b 0.2 note.added - {}", "c 7 note.added - {}"},
	"a guide of 0 ms":                    {"a 0.1 guide.opened - {'guide':'g'}", "b 5 guide.opened - {'guide':'g'}", "c 0.2 check.answered - {'guide':'g','step':'s','result':'fail'}"},
	"cleared at 0 ms":                    {"a 5 check.answered - {'guide':'g','step':'s','result':'fail'}", "b 0.1 check.cleared - {'of':'@a'}", "c 0.2 check.cleared - {'of':'@a'}", "d 9 void - {'of':'@b'}"},
	"an arc from 0 ms":                   {"a 0.1 arc.started - {'rig':'r'}", "b 5 arc.stopped - {'of':'@a'}", "c 0.2 arc.stopped - {'of':'@a'}", "d 0.3 trap.drained - {'rig':'r'}"},
	"an arc at the last ms":              {"a 281474976710655 arc.started - {'rig':'r'}", "b 281474976710655.9 arc.stopped - {'of':'@a'}", "c 281474976710655 trap.drained - {'rig':'r'}"},
	"a part that is pulled at the end":   {"a 5 part.fitted p {'slot':'tip','rig':'r'}", "b 281474976710655.65535 part.pulled p {'why':'worn'}", "c 281474976710655.65535 part.pulled p {'why':'lost'}"},
	"equal stamps set one field":         {"a 5 session.set s-1 {'title':'x'}", "b 5 session.set s-1 {'title':'y'}", "c 5 session.set s-1 {'title':'z'}"},
	"a loop of the same":                 {"a 1 same r1 {'as':'r2'}", "b 2 same r2 {'as':'r3'}", "c 3 same r3 {'as':'r1'}", "d 4 rig.set r2 {'name':'x'}", "e 5 same r1 {'as':'r1'}"},
	"the same of two sorts":              {"a 1 same r {'as':'s-1'}", "b 2 session.opened s-1 {'rig':'r'}", "c 3 rig.set r {'name':'x'}", "d 4 part.fitted r {'slot':'tip','rig':'s-1'}"},
	"a same that is taken back":          {"a 1 same r {'as':'q'}", "b 2 void - {'of':'@a'}", "c 3 amend - {'of':'@a','set':{'as':'p'}}", "d 4 rig.set r {'name':'x'}", "e 5 void - {'of':'@a','on':false}"},
	"a void of itself":                   {"a 1 void - {'of':'@a'}", "b 2 void - {'of':'@a'}", "c 3 void - {'of':'@b','on':false}", "d 4 note.added - {}"},
	"an amend of itself":                 {"a 1 amend - {'of':'@a','set':{'of':'@d'}}", "b 2 amend - {'of':'@a','set':{'text':'x'}}", "c 3 void - {'of':'@a'}", "d 4 note.added - {}"},
	"amends of one stamp":                {"a 5 stock.counted l {'n':1}", "b 5 amend - {'of':'@a','set':{'n':2,'at':1}}", "c 5 amend - {'of':'@a','set':{'n':3,'at':2}}", "d 5 amend - {'of':'@a','set':{'at':null}}"},
	"voids of one stamp":                 {"a 5 note.added - {}", "b 5 void - {'of':'@a'}", "c 5 void - {'of':'@a','on':false}"},
	"names another kind":                 {"a 1 note.added - {}", "b 2 arc.stopped - {'of':'@a'}", "c 3 check.cleared - {'of':'@a'}", "d 4 watch.ended - {'of':'@a'}", "e 5 void - {'of':'@b'}"},
	"a watch of 0 ms":                    {"a 0.1 watch.started - {'ms':60000}", "b 0.2 arc.run - {'rig':'r','start':0,'stop':0}", "c 0.1 watch.started - {'ms':60000}"},
	"faults of one stamp":                {"a 0.1 fault.seen f {'symptom':'x'}", "b 0.1 fault.seen f {'symptom':'y'}", "c 0.1 fault.found f {'cause':'p'}", "d 0.1 fault.found f {'cause':'q'}"},
	"counts of 0 ms":                     {"a 0.1 stock.counted l {'n':5}", "b 0.1 stock.counted l {'n':7}", "c 0.1 stock.moved l {'n':-1}", "d 0.1 part.fitted p {'slot':'tip','line':'l'}"},
	"a session that names itself":        {"a 1 session.opened s-1 {'rig':'s-1'}", "b 2 same s-1 {'as':'s-0'}", "c 3 arc.run - {'start':1,'stop':2}", "d 4 session.set s-0 {'rig':'q'}"},
	"odd values among good ones":         {"a 1 session.set s-1 {'title':'x'}", "b 2 session.set s-1 {'title':{}}", "c 2 session.set s-1 {'title':[]}", "d 3 session.set s-1 {'rig':1}"},
	"newer versions of known kinds":      {"a 1 arc.started - {'rig':'r'}", "b:2 2 arc.stopped - {'of':'@a'}", "c:2 3 void - {'of':'@a'}", "d:2 4 same r {'as':'q'}"},
}

// edgeEvent reads one line of edgeCases.
func edgeEvent(line string) (event.Event, error) {
	p := strings.SplitN(line, " ", 5)
	if len(p) != 5 {
		return event.Event{}, fmt.Errorf("%q has %d parts", line, len(p))
	}
	name, v, _ := strings.Cut(p[0], ":")
	var ms int64
	var counter event.Stamp
	if _, err := fmt.Sscanf(p[1]+".0", "%d.%d", &ms, &counter); err != nil {
		return event.Event{}, err
	}
	about := ""
	if p[3] != "-" {
		about = `,"about":"` + p[3] + `"`
	}
	body := strings.ReplaceAll(p[4], "'", `"`)
	for at := strings.Index(body, "@"); at >= 0 && at+1 < len(body); at = strings.Index(body, "@") {
		body = body[:at] + id(body[at+1:at+2]) + body[at+2:]
	}
	return event.Decode([]byte(`{"id":"` + id(name) + `","t":"` + (event.StampOf(ms) + counter).String() + `","device":"phone-` + name + `","kind":"` + p[2] +
		`","v":` + cmp.Or(v, "1") + `,"in":"s-1"` + about + `,"body":` + body + `}`))
}

// edgeJournal reads one of edgeCases.
func edgeJournal(t *testing.T, lines []string) []event.Event {
	var list []event.Event
	for _, line := range lines {
		e, err := edgeEvent(line)
		if err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		list = append(list, e)
	}
	return list
}

// permutations calls f with every order of n things.
func permutations(n int, f func(order []int)) {
	var place func(order []int)
	place = func(order []int) {
		if len(order) == n {
			f(order)
			return
		}
		for i := range n {
			if !bytes.ContainsRune([]byte(fmt.Sprint(order)), rune('0'+i)) {
				place(append(order[:len(order):len(order)], i))
			}
		}
	}
	place(nil)
}

// TestEdgesInEveryOrder: each small journal shows the same bytes in whatever order
// its events come, once or twice, looked at in between or not.
func TestEdgesInEveryOrder(t *testing.T) {
	orders := 0
	for name, lines := range edgeCases {
		list := edgeJournal(t, lines)
		whole := NewFold()
		for _, e := range list {
			whole.Add(e, nil, 0)
		}
		want, err := whole.State()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if v, err := whole.Session("s-1"); err != nil || v.Opened > list[len(list)-1].T.Ms() {
			t.Errorf("%s: the session is %+v, %v", name, v.Session, err)
		}
		permutations(len(list), func(order []int) {
			orders++
			for _, looks := range []bool{false, true} {
				f := NewFold()
				for _, i := range append(order, order[0]) {
					f.Add(list[i], nil, 0)
					if looks {
						f.Now()
						f.Parts()
					}
				}
				if got, err := f.State(); err != nil || !bytes.Equal(got, want) {
					t.Fatalf("%s, in the order %v, looked at %t:\n%s\nin its own order:\n%s\n%v", name, order, looks, got, want, err)
				}
			}
		})
	}
	t.Logf("tally: %d orders of %d journals", orders, len(edgeCases))
}

// TestEndsOfTime: what happens in the first or the last ms counts like all else.
func TestEndsOfTime(t *testing.T) {
	session := func(name string) SessionView {
		f := NewFold()
		for _, e := range edgeJournal(t, edgeCases[name]) {
			f.Add(e, nil, 0)
		}
		v, err := f.Session("s-1")
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	if v := session("entries of 0 ms before the opening"); v.Opened != 0 || !v.Open {
		t.Errorf("begun at 0 ms: opened %d, open %t", v.Opened, v.Open)
	}
	if v := session("opened at 0 ms and again"); v.Opened != 0 || v.Closed != 7 || v.Open {
		t.Errorf("opened at 0 ms: %+v", v.Session)
	}
	if v := session("an arc at the last ms"); v.Arcs != 1 || v.Starts != 1 {
		t.Errorf("an arc in the last ms: %d arcs, %d starts", v.Arcs, v.Starts)
	}
	f := NewFold()
	for _, e := range edgeJournal(t, edgeCases["a part that is pulled at the end"]) {
		f.Add(e, nil, 0)
	}
	if p, err := f.Part("p"); err != nil || p.Fits[0].To != event.MaxMillis || p.Fits[0].Why != "worn" || len(f.Now().Rigs) > 0 && len(f.Now().Rigs[0].Parts) > 0 {
		t.Errorf("pulled in the last ms, and yet %+v in %+v, %v", p, f.Now().Rigs, err)
	}
	f = NewFold()
	for _, e := range edgeJournal(t, edgeCases["a guide of 0 ms"]) {
		f.Add(e, nil, 0)
	}
	if g := f.Guides(9).Progress; len(g) != 1 || g[0].Opened != 0 || g[0].Last != 5 {
		t.Errorf("a guide opened at 0 ms: %+v", g)
	}
}

// TestClockThatShowedNothing: a wall that is no time, or one that cannot be, is not
// taken for the year 1970: the arc lasts as long as the stamps say.
func TestClockThatShowedNothing(t *testing.T) {
	for _, wall := range []string{`[]`, `[null,null]`, `[9223372036854775807,0]`, `[-9223372036854775808,0]`} {
		s := (&script{T: t}).Add("a", 0, "arc.started", `{'rig':'r'}`, in("s1")).Add("b", minute, "arc.stopped", `{'of':'`+id("a")+`'}`, in("s1"))
		for i := range s.Events {
			s.Events[i].Wall = []byte(wall)
		}
		if v := sessionOf(s, "s1"); v.Ms != minute {
			t.Errorf("%s: the arc lasted %d ms, want %d", wall, v.Ms, minute)
		}
	}
}

// FuzzOrder folds up to eight events forth, back, from the middle on and twice, with
// looks in between. A corpus file reads like edgeCases: put what it finds there.
func FuzzOrder(f *testing.F) {
	for _, name := range order.Keys(edgeCases) {
		f.Add(strings.Join(edgeCases[name], "\n"))
	}
	f.Fuzz(func(t *testing.T, text string) {
		ids := map[string]bool{}
		var list []event.Event
		for line := range strings.Lines(text) {
			if e, err := edgeEvent(strings.TrimSuffix(line, "\n")); err == nil && !ids[e.ID] && len(list) < 8 {
				list, ids[e.ID] = append(list, e), true
			}
		}
		var want []byte
		for turn, order := range [][]event.Event{list, backwards(list), slices.Concat(list[len(list)/2:], list), slices.Concat(backwards(list), list)} {
			f := NewFold()
			for _, e := range order {
				f.Add(e, nil, 0)
				if turn > 0 {
					f.Now()
				}
			}
			got, err := f.State()
			if turn == 0 {
				want = got
			}
			if err != nil || !bytes.Equal(got, want) {
				t.Fatalf("in order %d:\n%s\nat first:\n%s\n%v", turn, got, want, err)
			}
		}
	})
}

func backwards(list []event.Event) []event.Event {
	list = slices.Clone(list)
	slices.Reverse(list)
	return list
}
