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

	touched bool // to be timed anew
	stands  bool // shown is in the timelines of the rig and the session
	shown   span
}

// longest is how long the clocks of one phone are believed between the start
// and the stop of an arc. No hand-held cut comes near it; what does is a clock
// that was set in between.
const longest = 12 * 3600 * 1000

// maxStarts bounds the pilot starts of one arc, so that a slip cannot make sums
// overflow.
const maxStarts = 100000

// addArc takes a start, a stop or a whole arc.
func (x *index) addArc(e *entry) {
	if e.kind == "arc.stopped" {
		a := x.arc(e.body.Text("of"))
		a.stops = append(a.stops, e)
		x.touch(a)
		return
	}
	if e.kind == "arc.run" {
		start, ok := e.body.IntIn("start", 0, event.MaxMillis)
		stop, fine := e.body.IntIn("stop", start, event.MaxMillis)
		if !ok || !fine || stop-start > longest {
			e.odd = true
			e.warn("odd", "this arc cannot be counted: it stops before it starts, or half a day after")
			return
		}
	}
	a := x.arc(e.id)
	a.start, a.rig, a.in = e, x.rigOf(e), x.same.of(e.in)
	x.touch(a)
	x.tallyAll(a.stops) // they have no line of their own any more
}

// dropArc takes a start, a stop or a whole arc out again.
func (x *index) dropArc(e *entry) {
	if e.kind == "arc.stopped" {
		a := x.arc(e.body.Text("of"))
		a.stops = without(a.stops, e)
		x.touch(a)
		return
	}
	a := x.arc(e.id)
	x.untime(a)
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

// touch has an arc timed anew when the index is next asked.
func (x *index) touch(a *arc) {
	if !a.touched {
		a.touched = true
		x.touched = append(x.touched, a)
	}
}

// time puts an arc into the timelines as it is now.
func (x *index) time(a *arc) {
	a.touched = false
	s, stands := a.span()
	if a.stands == stands && a.shown == s {
		return
	}
	x.untime(a)
	if !stands {
		return
	}
	a.stands, a.shown = true, s
	x.rig(a.rig).burnt.put(s)
	x.session(a.in).timeline(a.rig).put(s)
	if s.running {
		x.burning.put(a)
	}
	x.burnt(a)
}

// untime takes an arc out of the timelines.
func (x *index) untime(a *arc) {
	if !a.stands {
		return
	}
	x.rig(a.rig).burnt.remove(a.shown)
	x.session(a.in).timeline(a.rig).remove(a.shown)
	if a.shown.running {
		x.burning.remove(a)
	}
	x.burnt(a)
	a.stands, a.shown = false, span{}
}

// burnt notes that the timelines of an arc's rig and session changed.
func (x *index) burnt(a *arc) {
	x.burntRigs[a.rig], x.burntSessions[a.in] = true, true
	x.outdate(x.session(a.in))
}

// byStart orders arcs that stand.
func byStart(a, b *arc) int { return bySpan(a.shown, b.shown) }

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
		return span{start, stop, strikes(e), false, e.id}, true
	}
	if a.burns() {
		return span{e.when(), e.when(), 1, true, e.id}, true
	}
	stop := slices.MinFunc(standing(a.stops), byPlace)
	start, end := e.when(), stop.when()
	if ms, ok := shown(e, stop); ok && !e.retold && !stop.retold {
		start = end - ms
	}
	if end < start || end-start > longest {
		end = start
	}
	return span{start, end, strikes(stop), false, e.id}, true
}

// shown returns the ms between two taps of one phone, by the clock that it
// showed, if that can be so.
func shown(start, stop *entry) (int64, bool) {
	if start.device != stop.device || start.wall == nil || stop.wall == nil {
		return 0, false
	}
	from, fine := event.WallMillis(start.wall)
	to, ok := event.WallMillis(stop.wall)
	ms := to - from
	return ms, fine && ok && 0 <= ms && ms <= longest
}

// strikes returns the pilot starts that an entry tells of, one if it tells none.
func strikes(e *entry) int64 {
	if n, ok := e.body.IntIn("starts", 0, maxStarts); ok {
		return n
	}
	return 1
}
