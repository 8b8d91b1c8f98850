package fold

import "kerfside/calc/journal/event"

// arc is one arc: from a start and what stops it, or entered as a whole.
type arc struct {
	start *entry // nil while only a stop is here
	stops []*entry
	rig   string
	in    string

	stale    bool // its span is to be computed anew
	placed   bool // it is in the timelines of its rig and its session
	placedAt span // as which it is there
}

// longestArc is how long the clocks of one phone are believed between the start
// and the stop of an arc. No hand-held cut comes near it; what does is a clock
// that was set in between.
const longestArc = 12 * 3600 * 1000

// maxStarts bounds the pilot starts of one arc, so that a slip cannot make sums
// overflow.
const maxStarts = 100000

var arcFamily = family{kinds: []string{"arc.started", "arc.stopped", "arc.run"}, add: (*index).addArc, drop: (*index).dropArc}

// addArc takes a start, a stop or a whole arc.
func (x *index) addArc(e *entry) {
	if e.kind == "arc.stopped" {
		a := x.arc(e.body.Text("of"))
		a.stops = append(a.stops, e)
		x.invalidateArc(a)
		return
	}
	if e.kind == "arc.run" {
		start, ok := e.body.IntIn("start", 0, event.MaxMillis)
		stop, fine := e.body.IntIn("stop", start, event.MaxMillis)
		if !ok || !fine || stop-start > longestArc {
			e.odd = true
			e.warn("odd", "this arc cannot be counted: it stops before it starts, or half a day after")
			return
		}
	}
	a := x.arc(e.id)
	a.start, a.rig, a.in = e, x.rigOf(e), x.same.of(e.in)
	x.invalidateArc(a)
	x.tallyAll(a.stops) // they have no line of their own any more
}

// dropArc takes a start, a stop or a whole arc out again.
func (x *index) dropArc(e *entry) {
	if e.kind == "arc.stopped" {
		a := x.arc(e.body.Text("of"))
		a.stops = without(a.stops, e)
		x.invalidateArc(a)
		return
	}
	a := x.arc(e.id)
	x.removeArc(a)
	a.start = nil
	x.tallyAll(a.stops)
}

// arc returns the arc that the start id begins, a new one if need be.
func (x *index) arc(id string) *arc {
	a := x.arcs[id]
	if a == nil {
		a = &arc{}
		x.arcs[id] = a
	}
	return a
}

// invalidateArc makes an arc stale.
func (x *index) invalidateArc(a *arc) {
	if !a.stale {
		a.stale = true
		x.staleArcs = append(x.staleArcs, a)
	}
}

// placeArc puts an arc into the timelines as it is now.
func (x *index) placeArc(a *arc) {
	a.stale = false
	s, isVisible := a.span()
	if a.placed == isVisible && a.placedAt == s {
		return
	}
	x.removeArc(a)
	if !isVisible {
		return
	}
	a.placed, a.placedAt = true, s
	x.rig(a.rig).timeline.put(s)
	x.session(a.in).timeline(a.rig).put(s)
	if s.running {
		x.burning.put(a)
	}
	x.noteTimelines(a)
}

// removeArc takes an arc out of the timelines.
func (x *index) removeArc(a *arc) {
	if !a.placed {
		return
	}
	x.rig(a.rig).timeline.remove(a.placedAt)
	x.session(a.in).timeline(a.rig).remove(a.placedAt)
	if a.placedAt.running {
		x.burning.remove(a)
	}
	x.noteTimelines(a)
	a.placed, a.placedAt = false, span{}
}

// noteTimelines notes that the timelines of an arc's rig and session changed.
func (x *index) noteTimelines(a *arc) {
	x.changedRigs[a.rig], x.changedSessions[a.in] = true, true
	x.invalidateSession(x.session(a.in))
}
