package fold

import (
	"slices"

	"kerfside/calc/order"
)

// fault is something that went wrong, from being seen to being mended.
type fault struct {
	id     string
	seen   []*entry
	found  []*entry
	mended []*entry
}

var faultFamily = family{kinds: []string{"fault.seen", "fault.found", "fault.mended"}, add: (*index).addFault, drop: (*index).dropFault}

// addFault takes one step of a fault. A fault.seen without about is a fault of
// its own.
func (x *index) addFault(e *entry) {
	f := x.fault(e)
	switch e.kind {
	case "fault.seen":
		f.seen = append(f.seen, e)
	case "fault.found":
		f.found = append(f.found, e)
	default:
		f.mended = append(f.mended, e)
	}
}

// dropFault takes one step of a fault out again.
func (x *index) dropFault(e *entry) {
	f := x.fault(e)
	f.seen, f.found, f.mended = without(f.seen, e), without(f.found, e), without(f.mended, e)
}

// fault returns the fault that an entry is about, a new one if need be, and drops
// what was computed from it.
func (x *index) fault(e *entry) *fault {
	id := x.same.of(e.about)
	if id == "" {
		id = e.id
	}
	f := x.faults[id]
	if f == nil {
		f = &fault{id: id}
		x.faults[id] = f
	}
	x.faultState = nil
	return f
}

// faultState is what faults stand, and how often each cause was found.
type faultState struct {
	open  []OpenFault
	found map[string]int
}

// faultsNow returns it.
func (x *index) faultsNow() faultState {
	if x.faultState != nil {
		return *x.faultState
	}
	v := faultState{[]OpenFault{}, map[string]int{}}
	for _, id := range order.Keys(x.faults) {
		if o, ok := x.faults[id].open(x); ok {
			v.open = append(v.open, o)
		}
		if cause := x.faults[id].cause(); cause != "" {
			v.found[cause]++
		}
	}
	x.faultState = &v
	return v
}

// OpenFault is a fault that was seen and not mended.
type OpenFault struct {
	ID      string `json:"id"`
	Seen    string `json:"seen"` // the event that told of it, which an amend names
	Symptom string `json:"symptom"`
	// Signs are all that was seen, the symptom among them; empty in entries that
	// name the symptom alone.
	Signs []string `json:"signs"`
	Cause string   `json:"cause"` // "" until one was found
	In    string   `json:"in"`
	Rig   string   `json:"rig"`
	At    int64    `json:"at"`
}

// open returns the fault if it still stands.
func (f *fault) open(x *index) (OpenFault, bool) {
	first := f.first()
	if first == nil || len(visible(f.mended)) > 0 {
		return OpenFault{}, false
	}
	v := OpenFault{Cause: f.cause(), ID: f.id, Seen: first.id, Symptom: first.body.Text("symptom"), Signs: first.body.Texts("signs"), In: x.same.of(first.in), Rig: x.rigOf(first), At: first.when()}
	return v, true
}

// first returns the entry that the fault is called by, nil if nobody saw it.
func (f *fault) first() *entry {
	seen := visible(f.seen)
	if len(seen) == 0 {
		return nil
	}
	order.Sort(seen, byPlace)
	if i := slices.IndexFunc(seen, namesSign); i >= 0 {
		return seen[i] // one that says nothing does not hide one that does
	}
	return seen[0]
}

// rig returns the rig of the fault, "" if nobody told it: that of the entry that it is called
// by, else that of the one that found its cause.
func (f *fault) rig(x *index) string {
	for _, e := range []*entry{f.first(), f.finding()} {
		if e != nil {
			if rig := x.rigOf(e); rig != "" {
				return rig
			}
		}
	}
	return ""
}

// namesSign reports whether a fault.seen says what was seen.
func namesSign(e *entry) bool {
	return e.body.Text("symptom") != "" || len(e.body.Texts("signs")) > 0
}

// cause is what it was found to be last, "" if it was not found yet.
func (f *fault) cause() string {
	if e := f.finding(); e != nil {
		return e.body.Text("cause")
	}
	return ""
}

// finding returns the entry that told the cause last, nil if none did. A finding that names
// no cause takes none back.
func (f *fault) finding() *entry {
	found := slices.DeleteFunc(visible(f.found), func(e *entry) bool { return e.body.Text("cause") == "" })
	if len(found) == 0 {
		return nil
	}
	return slices.MaxFunc(found, byPlace)
}
