package fold

import (
	"slices"

	"kerfside/calc/journal/event"
)

// arc is one arc: from a start and what stops it, or entered as a whole.
type arc struct {
	start *entry // nil while only a stop is here
	stops []*entry
	rig   string
	in    string

	stale    bool // to be timed anew
	placed   bool // shown is in the timelines of the rig and the session
	placedAt span
}

// longestArc is how long the clocks of one phone are believed between the start
// and the stop of an arc. No hand-held cut comes near it; what does is a clock
// that was set in between.
const longestArc = 12 * 3600 * 1000

// maxStarts bounds the pilot starts of one arc, so that a slip cannot make sums
// overflow.
const maxStarts = 100000

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

// invalidateArc has an arc timed anew when the index is next asked.
func (x *index) invalidateArc(a *arc) {
	if !a.stale {
		a.stale = true
		x.staleArcs = append(x.staleArcs, a)
	}
}

// placeArc puts an arc into the timelines as it is now.
func (x *index) placeArc(a *arc) {
	a.stale = false
	s, stands := a.span()
	if a.placed == stands && a.placedAt == s {
		return
	}
	x.removeArc(a)
	if !stands {
		return
	}
	a.placed, a.placedAt = true, s
	x.rig(a.rig).burnt.put(s)
	x.session(a.in).timeline(a.rig).put(s)
	if s.running {
		x.burning.put(a)
	}
	x.noteBurnt(a)
}

// removeArc takes an arc out of the timelines.
func (x *index) removeArc(a *arc) {
	if !a.placed {
		return
	}
	x.rig(a.rig).burnt.remove(a.placedAt)
	x.session(a.in).timeline(a.rig).remove(a.placedAt)
	if a.placedAt.running {
		x.burning.remove(a)
	}
	x.noteBurnt(a)
	a.placed, a.placedAt = false, span{}
}

// noteBurnt notes that the timelines of an arc's rig and session changed.
func (x *index) noteBurnt(a *arc) {
	x.burntRigs[a.rig], x.burntSessions[a.in] = true, true
	x.invalidateSession(x.session(a.in))
}

// byStart orders arcs that stand.
func byStart(a, b *arc) int { return bySpan(a.placedAt, b.placedAt) }

// burns reports whether the arc has a start and no stop.
func (a *arc) burns() bool {
	if a.start == nil || a.start.hidden || a.start.kind == "arc.run" {
		return false
	}
	for _, stop := range a.stops {
		if !stop.hidden {
			return false
		}
	}
	return true
}

// span returns when the arc burnt; false if it was removed.
//
// The length is what the phone's own clock showed, where start and stop come
// from one phone: the stamps of both may have been clamped to the moment of a
// sync, which would make the arc nothing. Else it is the difference of when
// both happened. Of several stops the first counts.
func (a *arc) span() (span, bool) {
	e := a.start
	if e == nil || e.hidden {
		return span{}, false
	}
	if e.kind == "arc.run" {
		start, _ := e.body.Int("start")
		stop, _ := e.body.Int("stop")
		return span{start, stop, pilotStarts(e), false, e.id}, true
	}
	if a.burns() {
		return span{e.when(), e.when(), 1, true, e.id}, true
	}
	stop := slices.MinFunc(standing(a.stops), byPlace)
	start, end := e.when(), stop.when()
	if ms, ok := wallBetween(e, stop); ok && !e.backdated && !stop.backdated {
		start = end - ms
	}
	if end < start || end-start > longestArc {
		end = start
	}
	return span{start, end, pilotStarts(stop), false, e.id}, true
}

// wallBetween returns the ms between two taps of one phone, by the clock that it
// showed, if that can be so.
func wallBetween(start, stop *entry) (int64, bool) {
	if start.device != stop.device || start.wall == nil || stop.wall == nil {
		return 0, false
	}
	from, fine := event.WallMillis(start.wall)
	to, ok := event.WallMillis(stop.wall)
	ms := to - from
	return ms, fine && ok && 0 <= ms && ms <= longestArc
}

// pilotStarts returns the pilot starts that an entry tells of, one if it tells none.
func pilotStarts(e *entry) int64 {
	if n, ok := e.body.IntIn("starts", 0, maxStarts); ok {
		return n
	}
	return 1
}
