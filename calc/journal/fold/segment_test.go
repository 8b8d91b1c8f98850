package fold

import (
	"cmp"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// worker feeds a fold portion by portion and keeps its segments as a phone does.
type worker struct {
	fold     *Fold
	segments map[string]Segment
	l        int64
}

func (w *worker) feed(t *testing.T, keep bool, events ...event.Event) map[string]bool {
	t.Helper()
	for _, e := range events {
		w.l++
		w.fold.Add(e, nil, 0)
	}
	changed := map[string]bool{}
	for _, r := range w.fold.ChangedSegments(w.l, keep) {
		w.segments[r.Name] = r
		changed[r.Name] = true
	}
	return changed
}

// all returns the segments in some order that is not their own.
func (w *worker) all() []Segment {
	var list []Segment
	for _, name := range order.Keys(w.segments) {
		list = append(list, w.segments[name])
	}
	slices.Reverse(list)
	return list
}

func newWorker() *worker { return &worker{fold: NewFold(), segments: map[string]Segment{}} }

// TestSnapshot: full segments are written once, the top one after each 100 changes or
// when asked, and the fold comes back from them as it was.
func TestSnapshot(t *testing.T) {
	w, list := newWorker(), notes(t, "phone-a", 2600)
	for i, c := range []struct {
		upTo int
		want []string
	}{
		{99, nil},
		{100, []string{"000000"}},
		{150, nil},
		{1000, []string{"000000", "000001"}},
		{1001, nil},
		{2500, []string{"000001", "000002"}},
		{2510, nil},
	} {
		from := int(w.l)
		got := w.feed(t, false, list[from:c.upTo]...)
		if !slices.Equal(order.Keys(got), c.want) {
			t.Errorf("portion %d up to %d wrote %v, want %v", i, c.upTo, order.Keys(got), c.want)
		}
	}
	if got := w.feed(t, true); !slices.Equal(order.Keys(got), []string{"000002"}) {
		t.Errorf("asked to keep: wrote %v", order.Keys(got))
	}
	f, l, err := Restore(w.all())
	if err != nil || l != 2510 || f.Len() != 2510 {
		t.Fatalf("restored %d events up to %d, %v", f.Len(), l, err)
	}
	want, err := w.fold.Hash()
	if err != nil {
		t.Fatal(err)
	}
	if got, err := f.Hash(); err != nil || got != want {
		t.Errorf("hash %s, %v, want %s", got, err, want)
	}
	// And the restored snapshot grows on where it stood.
	before := w.segments["000001"]
	f.Add(list[2599], nil, 0)
	for _, r := range f.snapshot.changed(2511, true) {
		w.segments[r.Name] = r
	}
	if w.segments["000001"] != before {
		t.Error("a full segment was written again")
	}
	if f, l, err = Restore(w.all()); err != nil || l != 2511 || f.Len() != 2511 {
		t.Errorf("restored once more: %d events up to %d, %v", f.Len(), l, err)
	}
}

// TestBrokenSnapshot: segments that do not make one snapshot are all passed over, so that
// the events are read instead.
func TestBrokenSnapshot(t *testing.T) {
	a, b := newWorker(), newWorker()
	a.feed(t, true, notes(t, "phone-a", 1500)...)
	list := notes(t, "phone-a", 1500)
	slices.Reverse(list)
	b.feed(t, true, list...)
	edit := func(name string, change func(*Segment)) []Segment {
		var all []Segment
		for _, r := range a.all() {
			if r.Name == name {
				change(&r)
			}
			all = append(all, r)
		}
		return all
	}
	for what, segments := range map[string][]Segment{
		"one missing":      {a.segments["000001"]},
		"of two tabs":      {b.segments["000000"], a.segments["000001"]},
		"of another fold":  edit("000000", func(r *Segment) { r.Fold++ }),
		"a line cut":       edit("000001", func(r *Segment) { r.Data = r.Data[:len(r.Data)-40] }),
		"a letter changed": edit("000000", func(r *Segment) { r.Data = strings.Replace(r.Data, "note.added", "nope.added", 1) }),
		"a letter above":   edit("000001", func(r *Segment) { r.Data = strings.Replace(r.Data, `"text":"x"`, `"text":"y"`, 1) }),
		"a seal broken":    edit("000001", func(r *Segment) { r.Data = r.Data[:len(r.Data)-1] }),
		"a line twice": edit("000001", func(r *Segment) {
			data, _ := unseal(r.Data)
			r.Data = seal(data + data[strings.LastIndex(data, "\n"):])
		}),
		"confirms nothing": edit("000001", func(r *Segment) {
			data, _ := unseal(r.Data)
			r.Data = seal(data + "\n=\tnobody\t0199f3c0b4000000\t7")
		}),
		"top segment lost":  {a.segments["000000"]},
		"nothing but words": edit("000000", func(r *Segment) { r.Data = "hello" }),
	} {
		if f, l, err := Restore(segments); err == nil || l != 0 || f.Len() != 0 {
			t.Errorf("%s: %d events up to %d, %v; want none and why", what, f.Len(), l, err)
		}
	}
}

// TestSnapshotUnderLateArrivals: events come in any order, in portions, with the
// server's word before or after them, and the app restarts from its segments now and
// then; the fold is that of all events at once, over several full segments.
func TestSnapshotUnderLateArrivals(t *testing.T) {
	whole := osierFord(t).Events
	whole = append(whole, notes(t, "phone-c", 1800)...)
	want := NewFold()
	for i, e := range whole {
		o, n := confirmed(e, i)
		want.Add(e, o, n)
	}
	hash, err := want.Hash()
	if err != nil {
		t.Fatal(err)
	}
	seed, err := strconv.ParseUint(cmp.Or(os.Getenv("KERFSIDE_SEED"), "1"), 10, 64)
	if err != nil {
		t.Fatal(err)
	}
	for round := range uint64(cases() / 200) {
		chance := rand.New(rand.NewPCG(seed+round, 3))
		order := append(chance.Perm(len(whole)), chance.Perm(len(whole))...) // first as tapped, then as confirmed
		seen := make([]bool, len(whole))
		f, segments, l := NewFold(), map[string]Segment{}, int64(0)
		restarts := 0
		for len(order) > 0 {
			portion := order[:min(1+chance.IntN(300), len(order))]
			order = order[len(portion):]
			for _, i := range portion {
				var o *event.Stamp
				n := int64(0)
				if seen[i] {
					o, n = confirmed(whole[i], i)
				}
				seen[i] = true
				f.Add(whole[i], o, n)
				l++
			}
			for _, r := range f.snapshot.changed(l, true) {
				segments[r.Name] = r
			}
			if chance.IntN(4) > 0 {
				continue
			}
			restarts++
			var list []Segment
			for _, r := range segments {
				list = append(list, r)
			}
			back, upTo, err := Restore(list)
			// Events that change nothing write no line and leave upTo where it was:
			// the phone then hands them over once more.
			if err != nil || upTo > l || upTo < l && !sameHash(t, back, f) {
				t.Fatalf("seed %d: restored up to %d of %d, %v", seed+round, upTo, l, err)
			}
			f = back
		}
		if got, err := f.Hash(); err != nil || got != hash || len(segments) < 3 {
			t.Fatalf("seed %d: after %d restarts over %d segments another state; %v", seed+round, restarts, len(segments), err)
		}
	}
}

func sameHash(t *testing.T, a, b *Fold) bool {
	t.Helper()
	one, err := a.Hash()
	if err != nil {
		t.Fatal(err)
	}
	two, err := b.Hash()
	if err != nil {
		t.Fatal(err)
	}
	return one == two
}
