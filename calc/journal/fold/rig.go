package fold

import "kerfside/calc/journal/event"

// rig is a cutter with its compressor and hoses, as a crew names it.
type rig struct {
	id       string
	fields   register
	timeline *timeline
	drains   sortedList[*entry]
	filters  sortedList[*entry]
	upkeep   map[string]*sortedList[*entry] // done, by task; drained traps and changed filters stand above
	inside   map[*part]bool

	cached *RigNow // computed; nil if something changed since
}

// Limits of how much arc time may pass before the trap is drained: every 20 to
// 30 minutes of cutting on the built-in trap alone. Common practice, no
// published source.
const (
	drainEvery = 20 * 60 * 1000 // ms, where the rig's field drainEvery sets nothing else
	drainMost  = 30 * 60 * 1000
)

// rig returns the rig of that id, a new one if need be.
func (x *index) rig(id string) *rig {
	r := x.rigs[id]
	if r == nil {
		r = &rig{id: id, fields: register{}, timeline: newTimeline(), drains: sortedList[*entry]{compare: byPlace}, filters: sortedList[*entry]{compare: byPlace}, upkeep: map[string]*sortedList[*entry]{}, inside: map[*part]bool{}}
		x.rigs[id] = r
	}
	return r
}

var airFamily = family{kinds: []string{"trap.drained", "filter.changed"}, add: (*index).addAir, drop: (*index).dropAir}

// addAir takes a drained trap or a changed filter.
func (x *index) addAir(e *entry) {
	r := x.rig(x.rigOf(e))
	e.rig, r.cached = r, nil
	if e.kind == "trap.drained" {
		r.drains.put(e)
	} else {
		r.filters.put(e)
	}
}

// dropAir takes one of these out again.
func (x *index) dropAir(e *entry) {
	r := e.rig
	r.cached = nil
	if e.kind == "trap.drained" {
		r.drains.remove(e)
	} else {
		r.filters.remove(e)
	}
}

// every returns the arc time after which the rig's trap wants draining.
func (r *rig) every() int64 {
	w, _ := r.fields.winner("drainEvery")
	if ms, ok := event.ReadInt(w.value); ok { // misfit lets none through that cannot be
		return ms
	}
	return drainEvery
}
