package fold

import (
	"cmp"
	"encoding/json"

	"kerfside/calc/journal/event"
)

// entry is an event as the fold takes it: with its amendments laid over it.
type entry struct {
	*fact
	place     event.Place
	body      event.Body // with amendments
	hidden    bool
	odd       bool // of a known kind, and yet it cannot be counted
	backdated bool // its key at says when it happened
	history   []Correction
	warnings  []Warning

	session *session // that lists it, nil if none does
	sums    sums     // what it adds to the sums of that session
	failing bool     // it is among the failed checks
	pieces  int64    // that came, went or were counted
	rig     *rig     // of a drained trap, a changed filter or another task of upkeep
}

// Warning says what a person should look at.
type Warning struct {
	What string `json:"what"`
	ID   string `json:"id"`
	Msg  string `json:"msg"`
}

// raw is the body as JSON.
func (e *entry) raw() json.RawMessage { return json.RawMessage(e.body) }

// when is when it happened, in ms.
func (e *entry) when() int64 { return e.place.When.Ms() }

func (e *entry) warn(what, msg string) {
	e.warnings = append(e.warnings, Warning{What: what, ID: e.id, Msg: msg})
}

// counts reports whether e is of that kind and is counted. An entry of a newer version
// is listed and not counted, and so is one that is odd.
func (e *entry) counts(kind string) bool { return e.kind == kind && e.known() && !e.odd }

// earliest returns when the first of these entries happened, false if there is
// none. The times of entries begin with 0 ms, so that 0 cannot stand for none.
func earliest(list []*entry) (ms int64, any bool) {
	for _, e := range list {
		if !any || e.when() < ms {
			ms, any = e.when(), true
		}
	}
	return ms, any
}

// latest returns when the last of these entries happened, false if there is none.
func latest(list []*entry) (ms int64, any bool) {
	for _, e := range list {
		if !any || e.when() > ms {
			ms, any = e.when(), true
		}
	}
	return ms, any
}

// byTime orders entries by the ms that they happened in.
func byTime(a, b *entry) int { return cmp.Or(cmp.Compare(a.when(), b.when()), cmp.Compare(a.id, b.id)) }

// byPlace orders entries by when they happened.
func byPlace(a, b *entry) int { return a.place.Compare(b.place) }

// visible returns the entries that are not hidden.
func visible(list []*entry) []*entry {
	kept := make([]*entry, 0, len(list))
	for _, e := range list {
		if !e.hidden {
			kept = append(kept, e)
		}
	}
	return kept
}
