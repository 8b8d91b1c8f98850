package event_test

import (
	"bytes"
	"slices"
	"testing"

	"kerfside/calc/journal/event"

	"pgregory.net/rapid"
)

// TestUnion: the union of sets of events does not depend on sides, grouping or
// repetition, also where an id stands for different bytes.
func TestUnion(t *testing.T) {
	laws(t, func(t *rapid.T) {
		all := genJournal(t)
		for _, e := range all[:len(all)/4] { // the same ids with other bytes
			raw := bytes.Replace(e.Raw, []byte(`"v":1`), []byte(`"v":2`), 1)
			other, err := event.Decode(raw)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, other)
		}
		side := func() []event.Event {
			var list []event.Event
			for _, e := range all {
				if rapid.Bool().Draw(t, "here") {
					list = append(list, e)
				}
			}
			return list
		}
		a, b, c := side(), side(), side()
		union := func(x, y []event.Event) []event.Event {
			u, err := event.Union(x, y)
			if err != nil {
				t.Fatal(err)
			}
			return u
		}
		equal := func(law string, x, y []event.Event) {
			if !slices.EqualFunc(x, y, func(p, q event.Event) bool { return bytes.Equal(p.Raw, q.Raw) }) {
				t.Fatalf("%s: %d events against %d", law, len(x), len(y))
			}
		}
		equal("commutative", union(a, b), union(b, a))
		equal("associative", union(union(a, b), c), union(a, union(b, c)))
		equal("idempotent", union(a, union(a, b)), union(a, b))
	})
}
