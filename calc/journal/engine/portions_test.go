package engine

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"

	"pgregory.net/rapid"
)

// shelf is what a phone holds of its engine: the views, each as last handed out,
// and the segments.
type shelf struct {
	engine   *Engine
	views    map[string]json.RawMessage
	arc      map[string]fold.RunningArc
	segments map[string]fold.Segment
	all      []event.Record // whatever was folded, in order
}

func newShelf() *shelf {
	return &shelf{engine: New(), views: map[string]json.RawMessage{}, segments: map[string]fold.Segment{}}
}

func (s *shelf) fold(t rapid.TB, portion []event.Record, keep bool) {
	s.all = append(s.all, portion...)
	text, err := json.Marshal(map[string]any{"events": portion, "keep": keep, "device": "phone-a"})
	if err != nil {
		t.Fatal(err)
	}
	v, err := s.engine.Call("journal-fold", text)
	if err != nil {
		t.Fatal(err)
	}
	folded := v.(Folded)
	for name, view := range folded.Views {
		s.views[name] = view
	}
	for _, r := range folded.Segments {
		s.segments[r.Name] = r
	}
	s.arc = folded.Arc
}

// restart begins anew from the segments, as a phone does whose worker was ended: what
// changed since they were written is folded once more.
func (s *shelf) restart(t rapid.TB) {
	var segments []fold.Segment
	for _, r := range s.segments {
		segments = append(segments, r)
	}
	text, err := json.Marshal(map[string]any{"rungs": segments})
	if err != nil {
		t.Fatal(err)
	}
	s.engine = New()
	v, err := s.engine.Call("journal-restore", text)
	if err != nil {
		t.Fatal(err)
	}
	restored := v.(Restored)
	if len(restored.Stale) > 0 {
		t.Fatalf("rungs do not make a snapshot: %v", restored.Stale)
	}
	var again []event.Record
	for _, r := range s.all {
		if r.L > restored.L {
			again = append(again, r)
		}
	}
	s.all = s.all[:len(s.all)-len(again)]
	s.fold(t, again, false)
}

// TestPortionsAreTheWhole: whatever comes in portions, in any order, with the
// server's word on it before, with it or later, with a worker that starts anew
// now and then: after each portion the views that a phone holds are those of a
// engine that folds all of it at once, to the byte.
func TestPortionsAreTheWhole(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		chance := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "order"), 5))
		portionsAreTheWhole(t, list, chance, 6)
	})
}

func portionsAreTheWhole(t rapid.TB, list []event.Event, chance *rand.Rand, most int) {
	var queue []event.Record
	for _, again := range []bool{false, true} { // as tapped, and as the server dated it
		for _, i := range chance.Perm(len(list)) {
			r := event.Record{ID: list[i].ID, Raw: string(list[i].Raw), T: list[i].T}
			if o, n := confirmed(list[i], i); again || chance.IntN(4) == 0 {
				r.O, r.N = o, n
			}
			queue = append(queue, r)
		}
	}
	for i := range queue {
		queue[i].L = int64(i + 1)
	}
	s := newShelf()
	for len(queue) > 0 {
		portion := queue[:min(1+chance.IntN(most), len(queue))]
		queue = queue[len(portion):]
		s.fold(t, portion, chance.IntN(3) == 0)
		if chance.IntN(8) == 0 {
			s.restart(t)
		}
		whole := newShelf()
		whole.fold(t, s.all, false)
		for name, want := range whole.views {
			if got := s.views[name]; !bytes.Equal(got, want) {
				t.Fatalf("after %d of %d records %s is\n%s\nfolded at once\n%s", len(s.all), len(s.all)+len(queue), name, got, want)
			}
		}
		got, err := s.engine.fold.State()
		if err != nil {
			t.Fatal(err)
		}
		if want, err := whole.engine.fold.State(); err != nil || !bytes.Equal(got, want) {
			t.Fatalf("after %d records:\n%s\nfolded at once:\n%s\n%v", len(s.all), got, want, err)
		}
		if !sameJSON(s.arc, whole.arc) {
			t.Fatalf("running arcs are %v, folded at once %v", s.arc, whole.arc)
		}
	}
}

// TestPortionsOfAHistory is the same over stretches of a journal like a crew's.
func TestPortionsOfAHistory(t *testing.T) {
	list := historyOf(t, 2000)
	for seed := range uint64(max(5, cases()/50)) {
		chance := rand.New(rand.NewPCG(seed, 6))
		from := chance.IntN(len(list) - 80)
		portionsAreTheWhole(t, list[from:from+80], chance, 12)
		if t.Failed() {
			t.Fatalf("seed %d, from event %d", seed, from)
		}
	}
}
