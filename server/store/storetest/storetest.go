// Package storetest is what a store of the journal has to do, wherever it keeps
// its rows. Run it against each way of opening one.
package storetest

import (
	"bytes"
	"context"
	"fmt"
	"sync"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/server/store"
)

// Crew is the crew of the stores that Run opens.
const Crew = "N0sD1w2aRtY7uIo9PqLm3g"

// Now is the wall clock of the batches, ms since 1970 UTC.
const Now = 1760731116544

// Event returns event number i of device, stamped t, ready to be appended.
func Event(t testing.TB, device string, i int, stamp event.Stamp) exchange.Push {
	raw := fmt.Appendf(nil, `{"id":"%-.6s%016d","t":"%v","device":%q,"kind":"note.added","v":1,"body":{"text":"<%d> é"}}`, device, i, stamp, device, i)
	e, err := event.Decode(raw)
	if err != nil {
		t.Fatal(err)
	}
	return exchange.Push{Event: e, O: e.T, Sum: event.SumOf(raw)}
}

// Events returns n events of device, stamped one after another.
func Events(t testing.TB, device string, n int) []exchange.Push {
	var list []exchange.Push
	for i := range n {
		list = append(list, Event(t, device, i, event.StampOf(Now-1000)+event.Stamp(i)))
	}
	return list
}

// Run checks a store; open returns a new, empty one of crew Crew.
func Run(t *testing.T, open func(t *testing.T) *store.Store) {
	for name, check := range map[string]func(*testing.T, *store.Store){
		"empty":             empty,
		"numbers":           numbers,
		"again":             again,
		"taken":             taken,
		"twice-in-a-batch":  twice,
		"clamps":            clamps,
		"all-or-nothing":    nothing,
		"pages":             pages,
		"chain":             chain,
		"many-at-once":      many,
		"after-close":       closed,
		"cancelled":         cancelled,
		"bytes-as-they-are": asTheyAre,
	} {
		t.Run(name, func(t *testing.T) { check(t, open(t)) })
	}
}

func appendAll(t *testing.T, s *store.Store, list ...exchange.Push) []exchange.Ack {
	t.Helper()
	acks, err := s.Append(t.Context(), store.Batch{Crew: Crew, Now: Now, Events: list})
	if err != nil {
		t.Fatal(err)
	}
	return acks
}

func after(t *testing.T, s *store.Store, n int64) []store.Row {
	t.Helper()
	rows, err := s.After(t.Context(), Crew, n, 1<<30, 1<<30)
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func empty(t *testing.T, s *store.Store) {
	if s.Crew() != Crew {
		t.Errorf("crew = %q, want %q", s.Crew(), Crew)
	}
	if rows := after(t, s, 0); len(rows) != 0 {
		t.Errorf("%d rows in an empty store", len(rows))
	}
	if h, ok, err := s.At(t.Context(), Crew, 0); !ok || err != nil || h != (event.Chain{}) {
		t.Errorf("At(0) = %v, %t, %v", h, ok, err)
	}
	if _, ok, _ := s.At(t.Context(), Crew, 1); ok {
		t.Error("arrival 1 of an empty store is there")
	}
	if acks := appendAll(t, s); len(acks) != 0 {
		t.Errorf("nothing appended gives %v", acks)
	}
}

func numbers(t *testing.T, s *store.Store) {
	acks := append(appendAll(t, s, Events(t, "phonea", 3)...), appendAll(t, s, Events(t, "phoneb", 2)...)...)
	for i, a := range acks {
		if a.N != int64(i+1) || a.Conflict {
			t.Errorf("event %d got %+v", i, a)
		}
	}
	for i, r := range after(t, s, 0) {
		if r.N != int64(i+1) || r.ID != acks[i].ID || r.O != acks[i].O {
			t.Errorf("row %d is %+v, acknowledged as %+v", i, r.Arrival, acks[i])
		}
	}
	if rows := after(t, s, 4); len(rows) != 1 {
		t.Errorf("%d rows after 4, want 1", len(rows))
	}
}

func again(t *testing.T, s *store.Store) {
	list := Events(t, "phonea", 4)
	first := appendAll(t, s, list...)
	second := appendAll(t, s, list[3], list[0], Event(t, "phonea", 9, event.StampOf(Now)), list[1])
	for i, want := range []int64{4, 1, 5, 2} {
		if second[i].N != want {
			t.Errorf("sent again, event %d got n %d, want %d", i, second[i].N, want)
		}
	}
	if second[0].O != first[3].O {
		t.Errorf("o changed from %v to %v", first[3].O, second[0].O)
	}
	if state, _ := s.State(Crew); state.Max != 5 {
		t.Errorf("max = %d, want 5", state.Max)
	}
}

// other returns an event with the id of p and other bytes.
func other(t *testing.T, p exchange.Push) exchange.Push {
	raw := bytes.Replace(p.Event.Raw, []byte("é"), []byte("e"), 1)
	e, err := event.Decode(raw)
	if err != nil {
		t.Fatal(err)
	}
	return exchange.Push{Event: e, O: e.T, Sum: event.SumOf(raw)}
}

func taken(t *testing.T, s *store.Store) {
	p := Event(t, "phonea", 1, event.StampOf(Now))
	appendAll(t, s, p)
	if acks := appendAll(t, s, other(t, p)); !acks[0].Conflict || acks[0].N != 1 {
		t.Errorf("other bytes under the same id got %+v", acks[0])
	}
	if rows := after(t, s, 0); len(rows) != 1 || !bytes.Equal(rows[0].Raw, p.Event.Raw) {
		t.Errorf("the first bytes did not stay: %v", rows)
	}
}

func twice(t *testing.T, s *store.Store) {
	p := Event(t, "phonea", 1, event.StampOf(Now))
	acks := appendAll(t, s, p, p, other(t, p))
	if acks[0].N != 1 || acks[1].N != 1 || acks[1].Conflict || !acks[2].Conflict {
		t.Errorf("got %+v", acks)
	}
}

func clamps(t *testing.T, s *store.Store) {
	ahead := Event(t, "phonea", 1, event.StampOf(Now+5000))
	past := Event(t, "phonea", 2, event.StampOf(5))
	acks := appendAll(t, s, ahead, past)
	if acks[0].O != event.LastStampOf(Now) {
		t.Errorf("o of a phone ahead = %v, want the server's now", acks[0].O)
	}
	if acks[1].O != event.StampOf(5) {
		t.Errorf("o of a phone behind = %v, want its stamp", acks[1].O)
	}
	// A server whose clock fell back still counts from the highest o it gave.
	acks, err := s.Append(t.Context(), store.Batch{Crew: Crew, Now: 7, Events: []exchange.Push{Event(t, "phonea", 3, event.StampOf(Now+9000))}})
	if err != nil || acks[0].O != event.LastStampOf(Now) {
		t.Errorf("with the server's clock back: %+v, %v", acks, err)
	}
}

func nothing(t *testing.T, s *store.Store) {
	_, err := s.Append(t.Context(), store.Batch{Crew: "no-such-crew", Now: Now, Events: Events(t, "phonea", 3)})
	if problem.KindOf(err) != problem.WrongCrew {
		t.Errorf("another crew: %v", err)
	}
	if rows := after(t, s, 0); len(rows) != 0 {
		t.Errorf("%d rows were stored", len(rows))
	}
	if rows, err := s.After(t.Context(), "no-such-crew", 0, 10, 1000); len(rows) != 0 || err != nil {
		t.Errorf("another crew reads %v, %v", rows, err)
	}
}

func pages(t *testing.T, s *store.Store) {
	list := Events(t, "phonea", 10)
	appendAll(t, s, list...)
	size := len(list[0].Event.Raw)
	for _, c := range []struct{ limit, bytes, want int }{{limit: 3, bytes: 1 << 20, want: 3}, {limit: 100, bytes: 4 * size, want: 4}, {limit: 100, bytes: 4*size + size - 1, want: 4}, {limit: 100, bytes: 1, want: 1}, {limit: 100, bytes: 1 << 20, want: 10}} {
		rows, err := s.After(t.Context(), Crew, 0, c.limit, c.bytes)
		if err != nil || len(rows) != c.want {
			t.Errorf("After(0, %d, %d) gives %d rows, %v, want %d", c.limit, c.bytes, len(rows), err, c.want)
		}
	}
}

func chain(t *testing.T, s *store.Store) {
	appendAll(t, s, Events(t, "phonea", 7)...)
	var h event.Chain
	for _, r := range after(t, s, 0) {
		h = h.Next(r.ID, r.O, r.Sum)
		at, ok, err := s.At(t.Context(), Crew, r.N)
		if err != nil || !ok || at != h || r.Chain != h {
			t.Errorf("chain at %d = %v (row %v), want %v; %v", r.N, at, r.Chain, h, err)
		}
	}
}

// many lets eight phones push at once, each its own events and some of its
// neighbour's: every id once, no gap in n.
func many(t *testing.T, s *store.Store) {
	var wg sync.WaitGroup
	for i := range 8 {
		own, next := Events(t, fmt.Sprintf("phone%d", i), 40), Events(t, fmt.Sprintf("phone%d", (i+1)%8), 10)
		wg.Go(func() {
			for j := range 4 {
				batch := append(own[10*j:10*j+10:10*j+10], next...)
				if _, err := s.Append(context.Background(), store.Batch{Crew: Crew, Now: Now, Events: batch}); err != nil {
					t.Error(err)
				}
				if _, err := s.After(context.Background(), Crew, 0, 100, 1<<20); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
	seen := map[string]bool{}
	rows := after(t, s, 0)
	for i, r := range rows {
		if r.N != int64(i+1) || seen[r.ID] {
			t.Fatalf("row %d is number %d, id %s", i, r.N, r.ID)
		}
		seen[r.ID] = true
	}
	if len(rows) != 8*40 {
		t.Errorf("%d rows, want %d", len(rows), 8*40)
	}
}

func closed(t *testing.T, s *store.Store) {
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Errorf("closed twice: %v", err)
	}
	_, err := s.Append(t.Context(), store.Batch{Crew: Crew, Now: Now, Events: Events(t, "phonea", 1)})
	if problem.KindOf(err) != problem.Busy {
		t.Errorf("append after close: %v", err)
	}
}

func cancelled(t *testing.T, s *store.Store) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := s.Append(ctx, store.Batch{Crew: Crew, Now: Now, Events: Events(t, "phonea", 1)}); err == nil {
		t.Error("a phone that hung up was answered")
	}
	if acks := appendAll(t, s, Event(t, "phonea", 5, event.StampOf(Now))); acks[0].N != 1 {
		t.Errorf("the next event got %+v", acks[0])
	}
}

func asTheyAre(t *testing.T, s *store.Store) {
	raw := []byte(`{"mood": [1, {"x" : null}],"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"d","kind":"drone.flown","v":9,"body":{"a":"\u0000\ud83d<>&", "n": 1e3}}`)
	e, err := event.Decode(raw)
	if err != nil {
		t.Fatal(err)
	}
	appendAll(t, s, exchange.Push{Event: e, O: e.T, Sum: event.SumOf(raw)})
	if rows := after(t, s, 0); !bytes.Equal(rows[0].Raw, raw) {
		t.Errorf("stored as %s", rows[0].Raw)
	}
}
