package fold

import (
	"cmp"
	"sort"

	"kerfside/calc/journal/event"
)

// Times that no entry has, in ms.
const (
	always  = -1 << 62            // before any
	forever = event.MaxMillis + 1 // after any
)

// span is when an arc burnt.
type span struct {
	start, stop int64 // ms
	starts      int64 // pilot starts
	running     bool  // no stop: running, or forgotten
	id          string
}

func bySpan(a, b span) int {
	return cmp.Or(cmp.Compare(a.start, b.start), cmp.Compare(a.stop, b.stop), cmp.Compare(a.id, b.id))
}

// timeline is when the arcs of a rig burnt, all of them or those of one session,
// and the union of that: each stretch in which at least one burnt. Arcs that
// overlap are joined, since two phones may time the same one; their starts count
// as the largest, not as the sum.
//
// The union is kept. An arc that comes or goes has it made anew from the stretch
// before it on, so that one at the end costs little, whatever burnt before.
type timeline struct {
	arcs      sortedList[span] // each arc that was not removed
	list      []span           // the union
	ms        []int64          // before the stretch of that index
	starts    []int64
	staleFrom int64 // what began before it is as it was; forever if all is
}

func newTimeline() *timeline {
	return &timeline{arcs: sortedList[span]{compare: bySpan}, ms: []int64{0}, starts: []int64{0}, staleFrom: forever}
}

func (t *timeline) put(s span) {
	t.arcs.put(s)
	t.staleFrom = min(t.staleFrom, s.start)
}

func (t *timeline) remove(s span) {
	t.arcs.remove(s)
	t.staleFrom = min(t.staleFrom, s.start)
}

// union returns the stretches, in their order.
func (t *timeline) union() []span {
	if t.staleFrom == forever {
		return t.list
	}
	arcs, from := t.arcs.all(), t.staleFrom
	kept := startingAt(t.list, from)
	if kept > 0 { // the last stretch before it may reach it, or have done so
		kept--
		from = t.list[kept].start
	}
	t.list, t.ms, t.starts = t.list[:kept], t.ms[:kept+1], t.starts[:kept+1]
	for _, s := range arcs[startingAt(arcs, from):] {
		t.join(s)
	}
	t.staleFrom = forever
	return t.list
}

// join adds the next arc to the union.
func (t *timeline) join(s span) {
	if last := len(t.list) - 1; last >= 0 && (s.start < t.list[last].stop || s.start == t.list[last].start) {
		s.start, s.stop, s.starts = t.list[last].start, max(t.list[last].stop, s.stop), max(t.list[last].starts, s.starts)
		t.list, t.ms, t.starts = t.list[:last], t.ms[:last+1], t.starts[:last+1]
	}
	last := len(t.list)
	t.list = append(t.list, s)
	t.ms = append(t.ms, t.ms[last]+s.stop-s.start)
	t.starts = append(t.starts, t.starts[last]+s.starts)
}

// startingAt returns the index of the first of a list in order that begins at ms
// or later.
func startingAt(list []span, ms int64) int {
	return sort.Search(len(list), func(i int) bool { return list[i].start >= ms })
}

// total returns the arc time and the starts of all.
func (t *timeline) total() (ms, starts int64) { return t.between(always, forever) }

// since returns when the last of these entries happened that stands, 0 if none
// does, and the arc time from then on. The entries are in order.
func (t *timeline) since(list []*entry) (at, ms int64) {
	from := int64(always)
	for i := len(list) - 1; i >= 0; i-- {
		if !list[i].hidden {
			at, from = list[i].when(), list[i].when()
			break
		}
	}
	ms, _ = t.between(from, forever)
	return at, ms
}

// between returns the arc time and the starts of the stretches that began at or
// after from and before to: a stretch belongs whole to what was there when it
// began.
func (t *timeline) between(from, to int64) (ms, starts int64) {
	list := t.union()
	i := startingAt(list, from)
	j := max(i, startingAt(list, to))
	return t.ms[j] - t.ms[i], t.starts[j] - t.starts[i]
}

// end returns when the last stretch ended, 0 if there was none.
func (t *timeline) end() int64 {
	list := t.union()
	if len(list) == 0 {
		return 0
	}
	return list[len(list)-1].stop // the stretches do not overlap
}
