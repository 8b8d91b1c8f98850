package journal

// rig is a cutter with its compressor and hoses, as a crew names it.
type rig struct {
	id      string
	fields  register
	arcs    []*arc
	drains  []*entry
	filters []*entry

	burnt *spans // union of arcs; nil if one changed since
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
		r = &rig{id: id, fields: register{}}
		x.rigs[id] = r
	}
	return r
}

func (r *rig) set(e *entry) { r.fields.set(e) }

// addAir takes a drained trap or a changed filter.
func (x *index) addAir(e *entry) {
	r := x.rig(x.rigOf(e))
	if e.kind == "trap.drained" {
		r.drains = append(r.drains, e)
	} else {
		r.filters = append(r.filters, e)
	}
}

// burning returns the union of the rig's arcs.
func (r *rig) burning() spans {
	if r.burnt == nil {
		u := union(r.arcs)
		r.burnt = &u
	}
	return *r.burnt
}

// every returns the arc time after which the rig's trap wants draining.
func (r *rig) every() int64 {
	w, _ := r.fields.winner("drainEvery")
	if ms, ok := whole(w.value); ok { // misfit lets none through that cannot be
		return ms
	}
	return drainEvery
}
