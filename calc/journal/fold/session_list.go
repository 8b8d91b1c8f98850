package fold

import "slices"

// sums are what the entries of a session add up to, or what one adds to them.
type sums struct{ entries, cuts, fails, parts, drains, notes int }

// of counts an entry by its kind.
func (v *sums) of(e *entry) {
	switch e.kind {
	case "cut.tried":
		v.cuts = 1
	case "part.fitted":
		v.parts = 1
	case "trap.drained":
		v.drains = 1
	case "upkeep.done":
		if e.body.Text("task") == "drain" {
			v.drains = 1
		}
	case "note.added", "photo.added":
		v.notes = 1
	}
}

// list puts an entry on the list of its session.
func (x *index) list(e *entry) {
	id := e.in
	if onSession(e.kind) && e.about != "" {
		id = e.about
	}
	if id == "" {
		if x.isOutside(e) {
			x.outside.put(e)
			x.stale.days = true
		}
		return
	}
	s := x.session(x.same.of(id))
	s.entries = append(s.entries, e)
	e.session = s
	x.invalidateSession(s)
}

// unlist takes an entry off the list of its session.
func (x *index) unlist(e *entry) {
	x.setFailing(e, false)
	if x.isOutside(e) {
		x.outside.remove(e)
		x.stale.days = true
	}
	s := e.session
	if s == nil {
		return
	}
	x.setSums(e, sums{})
	s.entries = without(s.entries, e)
	s.priorGates = without(s.priorGates, e)
	e.session = nil
	x.invalidateSession(s)
}

// tally brings up to date what an entry adds to the sums of its session, and
// whether it is a failed check.
func (x *index) tally(e *entry) {
	fails := x.isFailed(e)
	x.setFailing(e, fails)
	var v sums
	if !e.hidden && x.hasOwnLine(e) {
		v.entries = 1
		if e.known() && !e.odd {
			v.of(e)
		}
		if fails {
			v.fails = 1
		}
	}
	x.setSums(e, v)
}

// tallyAll is tally for each of list.
func (x *index) tallyAll(list []*entry) {
	for _, e := range list {
		x.tally(e)
	}
}

// setSums has an entry add v to the sums of its session.
func (x *index) setSums(e *entry, v sums) {
	s := e.session
	if s == nil || e.sums == v {
		return
	}
	s.sums.entries += v.entries - e.sums.entries
	s.sums.cuts += v.cuts - e.sums.cuts
	s.sums.fails += v.fails - e.sums.fails
	s.sums.parts += v.parts - e.sums.parts
	s.sums.drains += v.drains - e.sums.drains
	s.sums.notes += v.notes - e.sums.notes
	e.sums = v
	x.invalidateSession(s)
}

// all returns the entries of a session with the gates that were answered before
// it was opened.
func (s *session) all() []*entry {
	return slices.Concat(s.priorGates, s.entries)
}

// hasOwnLine reports whether an entry is listed by itself in its session. All are, but
// for the stop of an arc whose start is here.
func (x *index) hasOwnLine(e *entry) bool {
	if !e.counts("arc.stopped") {
		return true
	}
	a := x.arcs[e.body.Text("of")]
	return a == nil || a.start == nil
}
