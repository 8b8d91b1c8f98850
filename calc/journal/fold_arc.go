package journal

import (
	"cmp"
	"slices"
	"sort"

	"kerfside/calc/order"
)

// arc is one arc: from a start and what stops it, or entered as a whole.
type arc struct {
	start *entry // nil while only a stop is here
	stops []*entry
	rig   string
	in    string
}

// span is when an arc burnt.
type span struct {
	start, stop int64 // ms
	starts      int64 // pilot starts
	running     bool  // no stop: running, or forgotten
	id          string
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
		a := x.arc(e.body.text("of"))
		a.stops = append(a.stops, e)
		if a.start != nil {
			x.touch(a)
			x.outdate(a.in)
		}
		if e.in != "" {
			x.outdate(x.same.of(e.in))
		}
		return
	}
	if e.kind == "arc.run" {
		start, ok := e.body.wholeIn("start", 0, maxMillis)
		stop, fine := e.body.wholeIn("stop", start, maxMillis)
		if !ok || !fine || stop-start > longest {
			e.odd = true
			e.warn("odd", "this arc cannot be counted: it stops before it starts, or half a day after")
			return
		}
	}
	a := x.arc(e.id)
	a.start, a.rig, a.in = e, x.rigOf(e), x.same.of(e.in)
	x.touch(a)
	r := x.rig(a.rig)
	r.arcs = append(r.arcs, a)
	s := x.session(a.in)
	s.arcs = append(s.arcs, a)
	for _, stop := range a.stops { // they have no line of their own any more
		if stop.in != "" {
			x.outdate(x.same.of(stop.in))
		}
	}
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

// touch drops what was computed from an arc.
func (x *index) touch(a *arc) {
	if r := x.rigs[a.rig]; r != nil {
		r.burnt = nil
	}
	x.outdate(a.in)
}

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
		start, _ := e.body.whole("start")
		stop, _ := e.body.whole("stop")
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
	from, fine := wallMs(start)
	to, ok := wallMs(stop)
	ms := to - from
	return ms, fine && ok && 0 <= ms && ms <= longest
}

// wallMs returns the ms of the clock that the phone showed, false if it showed
// nothing that can be.
func wallMs(e *entry) (int64, bool) {
	i := space(e.wall, 1)
	end, _ := value(e.wall, i)
	ms, ok := whole(e.wall[i:end])
	return ms, ok && -maxMillis <= ms && ms <= maxMillis
}

// strikes returns the pilot starts that an entry tells of, one if it tells none.
func strikes(e *entry) int64 {
	if n, ok := e.body.wholeIn("starts", 0, maxStarts); ok {
		return n
	}
	return 1
}

// spans is the union of arcs: each stretch in which at least one burnt.
type spans struct {
	list   []span
	ms     []int64 // before the stretch of that index
	starts []int64
}

// union joins arcs that overlap, since two phones may time the same one. Their
// starts count as the largest, not as the sum.
func union(arcs []*arc) spans {
	var all []span
	for _, a := range arcs {
		if s, ok := a.span(); ok {
			all = append(all, s)
		}
	}
	order.Sort(all, func(a, b span) int {
		return cmp.Or(cmp.Compare(a.start, b.start), cmp.Compare(a.stop, b.stop), cmp.Compare(a.id, b.id))
	})
	var u spans
	for _, s := range all {
		if last := len(u.list) - 1; last >= 0 && (s.start < u.list[last].stop || s.start == u.list[last].start) {
			u.list[last].stop = max(u.list[last].stop, s.stop)
			u.list[last].starts = max(u.list[last].starts, s.starts)
			continue
		}
		u.list = append(u.list, s)
	}
	u.ms, u.starts = make([]int64, len(u.list)+1), make([]int64, len(u.list)+1)
	for i, s := range u.list {
		u.ms[i+1], u.starts[i+1] = u.ms[i]+s.stop-s.start, u.starts[i]+s.starts
	}
	return u
}

// total returns the arc time and the starts of all.
func (u spans) total() (ms, starts int64) { return u.between(always, forever) }

// since returns when the last of these entries happened, 0 if none did, and the
// arc time from then on.
func (u spans) since(list []*entry) (at, ms int64) {
	from := int64(always)
	if last, any := latest(standing(list)); any {
		at, from = last, last
	}
	ms, _ = u.between(from, forever)
	return at, ms
}

// between returns the arc time and the starts of the stretches that began at or
// after from and before to: a stretch belongs whole to what was there when it
// began.
func (u spans) between(from, to int64) (ms, starts int64) {
	i := sort.Search(len(u.list), func(i int) bool { return u.list[i].start >= from })
	j := sort.Search(len(u.list), func(i int) bool { return u.list[i].start >= to })
	if j < i {
		j = i
	}
	return u.ms[j] - u.ms[i], u.starts[j] - u.starts[i]
}

// end returns when the last stretch ended, 0 if there was none.
func (u spans) end() int64 {
	var end int64
	for _, s := range u.list {
		end = max(end, s.stop)
	}
	return end
}
