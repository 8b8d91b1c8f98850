package fold

import (
	"slices"

	"kerfside/calc/journal/event"
)

// byStart orders arcs by when they began.
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
		return span{start: start, stop: stop, starts: pilotStarts(e), id: e.id}, true
	}
	if a.burns() {
		return span{start: e.when(), stop: e.when(), starts: 1, running: true, id: e.id}, true
	}
	stop := a.firstStop()
	start, end := e.when(), stop.when()
	if ms, ok := wallBetween(e, stop); ok && !e.backdated && !stop.backdated {
		start = end - ms
	}
	if end < start || end-start > longestArc {
		end = start
	}
	return span{start: start, stop: end, starts: pilotStarts(stop), id: e.id}, true
}

// firstStop returns the stop that counts, nil if none does.
func (a *arc) firstStop() *entry {
	stops := visible(a.stops)
	if len(stops) == 0 {
		return nil
	}
	return slices.MinFunc(stops, byPlace)
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
