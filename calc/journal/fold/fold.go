package fold

import (
	"encoding/json"
	"slices"

	"kerfside/calc/journal/event"
)

// FoldVersion is the version of the fold, its views and its segments. It rises
// whenever one of them would come out otherwise for the same events, so that
// what a phone stored before is made afresh.
const FoldVersion = 8

// Fold is what a set of events means. It takes events one by one, in any order
// and as often as they come; the same set gives the same views, to the byte.
//
// It keeps every event as a small fact and never forgets one, so that whatever
// arrives late, an amendment of last year's entry or a day of another phone's
// cuts, finds its place without reading events again.
type Fold struct {
	facts     map[string]*fact
	overlays  map[string]*overlay
	same      sameness
	index     *index // nil if it has to be built anew
	snapshot  snapshot
	handedOut map[string]json.RawMessage // views as they were last handed out
	interned  map[string]string          // names of kinds, devices, sessions and things
}

// NewFold returns the fold of no events.
func NewFold() *Fold {
	return &Fold{facts: map[string]*fact{}, overlays: map[string]*overlay{}, snapshot: newSnapshot(), handedOut: map[string]json.RawMessage{}, interned: map[string]string{}}
}

// Add takes an event. o and n are what the server said of it; nil and 0 before
// it did, and again when it took that back. An event whose id is here with other
// bytes takes the place of those: the server had the id before this phone.
func (f *Fold) Add(e event.Event, o *event.Stamp, n int64) {
	x := factOf(e, o, n)
	for _, name := range []*string{&x.kind, &x.device, &x.in, &x.about} {
		*name = f.intern(*name)
	}
	if old, ok := f.facts[e.ID]; ok {
		if old.equals(x) {
			f.confirm(old, x.o, n)
			return
		}
		f.remove(old)
		f.insert(x)
		f.snapshot.rewrite(f.facts) // what gave way may be what was erased, here under another id
		return
	}
	f.insert(x)
	f.snapshot.add(x.encode())
}

// intern returns the one copy of a name. Most entries share their names with many
// others.
func (f *Fold) intern(name string) string {
	kept, ok := f.interned[name]
	if !ok {
		f.interned[name], kept = name, name
	}
	return kept
}

// remove takes out a fact that gives way to other bytes under its id.
func (f *Fold) remove(x *fact) {
	delete(f.facts, x.id)
	if o := f.overlays[event.ReadBody(x.body).Text("of")]; o != nil {
		same := func(y *fact) bool { return x == y }
		o.amends, o.voids = slices.DeleteFunc(o.amends, same), slices.DeleteFunc(o.voids, same)
	}
	f.index = nil
}

// confirm notes what the server said of an event that is here.
func (f *Fold) confirm(x *fact, o event.Stamp, n int64) {
	if x.o == o && x.n == n {
		return
	}
	moved := x.o != o
	x.o, x.n = o, n
	if f.index != nil && x.in == "" {
		f.index.stale.days = true // it tells who has the entry
	}
	if moved {
		f.reindex(x)
	}
	f.snapshot.add(x.encodeConfirmation())
}

// insert takes in a fact that is not here yet.
func (f *Fold) insert(x *fact) {
	f.facts[x.id] = x
	if isErased(x) {
		return
	}
	if x.known() {
		switch x.kind {
		case "amend", "void":
			f.overlay(x)
			f.reindex(x)
			return
		case "same":
			f.index = nil
			return
		}
	}
	if f.index != nil {
		f.index.add(f.entry(x))
	}
}

// reindex has the index drop and add the entry of a fact. For an amendment or a removal
// that is the entry of its target; for the removal of an amendment, the entry that was
// amended.
func (f *Fold) reindex(x *fact) {
	for range 2 {
		if x.known() && (x.kind == "amend" || x.kind == "void") {
			if x = f.facts[event.ReadBody(x.body).Text("of")]; x == nil {
				return
			}
		}
	}
	if x.known() && x.kind == "same" {
		f.index = nil
	}
	if f.index == nil {
		return
	}
	if e := f.index.entries[x.id]; e != nil {
		f.index.drop(e)
		f.index.add(f.entry(x))
	}
}

// overlay files an amendment or a removal under its target.
func (f *Fold) overlay(x *fact) {
	target := event.ReadBody(x.body).Text("of")
	if target == "" {
		return
	}
	o := f.overlays[target]
	if o == nil {
		o = &overlay{}
		f.overlays[target] = o
	}
	if x.kind == "amend" {
		o.amends = append(o.amends, x)
	} else {
		o.voids = append(o.voids, x)
	}
}

// settled returns the index with nothing stale in it, and builds it if there is none.
// Sessions are added first: an entry that names no rig belongs to that of its session.
func (f *Fold) settled() *index {
	if f.index != nil {
		f.index.settle()
		return f.index
	}
	f.same = sameness{}
	for _, x := range f.facts {
		if x.kind == "same" && x.known() {
			if e := f.entry(x); !e.hidden && !e.odd {
				f.same.join(e.about, e.body.Text("as"))
			}
		}
	}
	ix := newIndex(f.same)
	for _, sessions := range []bool{true, false} {
		for _, x := range f.facts {
			if onSession(x.kind) == sessions && !isErased(x) {
				switch x.kind {
				case "amend", "void", "same":
					if x.known() {
						continue
					}
				}
				ix.add(f.entry(x))
			}
		}
	}
	f.index = ix
	ix.settle()
	return ix
}

// Len returns how many events are folded.
func (f *Fold) Len() int { return len(f.facts) }
