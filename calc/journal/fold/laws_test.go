package fold

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"kerfside/calc/journal/event"

	"pgregory.net/rapid"
)

func stateOf(t rapid.TB, f *Fold) []byte {
	text, err := f.State()
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func foldAll(list []event.Event) *Fold {
	f := NewFold()
	for i, e := range list {
		o, n := confirmed(e, i)
		f.Add(e, o, n)
	}
	return f
}

// TestOrderAndRepetitionDoNotMatter: any permutation of a journal, with any of
// its events twice, and with views asked for in between, folds to the same bytes.
func TestOrderAndRepetitionDoNotMatter(t *testing.T) { laws(t, orderDoesNotMatter) }

func orderDoesNotMatter(t *rapid.T) {
	list := genJournal(t)
	want := stateOf(t, foldAll(list))
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "shuffle"), 1))
	order := r.Perm(len(list))
	for range len(list) / 3 {
		order = append(order, r.IntN(len(list)))
	}
	f := NewFold()
	for _, i := range order {
		o, n := confirmed(list[i], i)
		f.Add(list[i], o, n)
		if r.IntN(4) == 0 { // builds the index, which the next event then has to keep right
			f.Now()
			f.Book("", 0)
		}
	}
	if got := stateOf(t, f); !bytes.Equal(got, want) {
		t.Fatalf("in order %v:\n%s\nin their own order:\n%s", order, got, want)
	}
}

// TestConfirmationMovesAnEvent: an event that is folded before the server dated
// it ends up where it would have been had it come dated, and goes back when the
// server takes its word back.
func TestConfirmationMovesAnEvent(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		f := NewFold()
		for _, e := range list {
			f.Add(e, nil, 0)
			f.Now()
		}
		before := stateOf(t, f)
		for i, e := range list {
			o, n := confirmed(e, i)
			f.Add(e, o, n)
		}
		if got, want := stateOf(t, f), stateOf(t, foldAll(list)); !bytes.Equal(got, want) {
			t.Fatalf("confirmed later:\n%s\nat once:\n%s", got, want)
		}
		for _, e := range list {
			f.Add(e, nil, 0)
		}
		if got := stateOf(t, f); !bytes.Equal(got, before) {
			t.Fatalf("taken back:\n%s\nas before:\n%s", got, before)
		}
	})
}

// TestSegmentsKeepTheFold: a fold that is put away and restored at any moment, with
// what arrives late after that, is the fold of all events.
func TestSegmentsKeepTheFold(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		want := stateOf(t, foldAll(list))
		order := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "shuffle"), 2)).Perm(len(list))
		stop := rapid.IntRange(0, len(list)).Draw(t, "stop")
		f := NewFold()
		for _, i := range order[:stop] {
			f.Add(list[i], nil, 0)
		}
		segments := f.snapshot.changed(int64(stop), true)
		restored, l, err := Restore(segments)
		if err != nil || stop > 0 && l != int64(stop) {
			t.Fatalf("restore: l %d, %v", l, err)
		}
		if got, want := stateOf(t, restored), stateOf(t, f); !bytes.Equal(got, want) {
			t.Fatalf("restored:\n%s\nput away:\n%s", got, want)
		}
		for _, i := range order {
			o, n := confirmed(list[i], i)
			restored.Add(list[i], o, n)
		}
		if got := stateOf(t, restored); !bytes.Equal(got, want) {
			t.Fatalf("restored and gone on:\n%s\nall at once:\n%s", got, want)
		}
	})
}

// TestOtherBytesTakeThePlace: an event that was folded and turns out to have
// other bytes on the server leaves no trace, also across a segment.
func TestOtherBytesTakeThePlace(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list, other := genJournal(t), genJournal(t)
		f := NewFold()
		for _, e := range other[:min(len(list), len(other))] {
			f.Add(e, nil, 0)
			f.Now()
		}
		restored, _, err := Restore(f.snapshot.changed(1, true))
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range []*Fold{f, restored} {
			for i, e := range list {
				o, n := confirmed(e, i)
				g.Add(e, o, n)
			}
			if got, want := stateOf(t, g), stateOf(t, foldAll(list)); !bytes.Equal(got, want) {
				t.Fatalf("after others:\n%s\nalone:\n%s", got, want)
			}
			if again, _, err := Restore(g.snapshot.changed(2, true)); err != nil && g == restored {
				t.Fatalf("the snapshot broke: %v", err)
			} else if g == restored && again.Len() == 0 && len(list) > 0 {
				t.Fatal("the snapshot is empty")
			}
		}
	})
}

// TestLossOnlyLoses: a fold of some of the events never fails, and adding the
// rest mends it.
func TestLossOnlyLoses(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		f := NewFold()
		var lost []int
		for i, e := range list {
			if rapid.Bool().Draw(t, "lost") {
				lost = append(lost, i)
				continue
			}
			o, n := confirmed(e, i)
			f.Add(e, o, n)
		}
		stateOf(t, f)
		for _, i := range lost {
			o, n := confirmed(list[i], i)
			f.Add(list[i], o, n)
		}
		if got, want := stateOf(t, f), stateOf(t, foldAll(list)); !bytes.Equal(got, want) {
			t.Fatalf("mended:\n%s\nwhole:\n%s", got, want)
		}
	})
}
