package fold

import (
	"cmp"
	"slices"

	"kerfside/calc/order"
)

// longestPause is how long a pause or the time between two arcs is taken for one of the
// job. What is longer is a night, a meal or a phone that was put away.
const longestPause = 4 * 3600 * 1000 // ms

// wait is a pause as it was.
type wait struct {
	start, stop int64 // ms; equal while nothing ended it
	why         string
	rig, id     string
	ended       bool // by an entry, or by the next arc
}

// waits returns the pauses of a session, in their order. A pause ends where it was told
// to, and at the latest where the next arc of its rig begins. One that nothing ends
// within longestPause is open or forgotten, and has no length. Two phones may tell one
// pause: of pauses of one rig that overlap, the later begins where the earlier ends.
func (s *session) waits(x *index) []wait {
	var list []wait
	for _, e := range s.entries {
		if !e.counts("pause.started") || e.hidden {
			continue
		}
		w := wait{start: e.when(), stop: e.when(), why: cmp.Or(e.body.Text("why"), "other"), rig: x.rigOf(e), id: e.id}
		w.stop, w.ended = x.pauses[e.id].end(x, w)
		list = append(list, w)
	}
	order.Sort(list, func(a, b wait) int { return cmp.Or(cmp.Compare(a.start, b.start), cmp.Compare(a.id, b.id)) })
	until := map[string]int64{}
	for i := range list {
		w := &list[i]
		if end, ok := until[w.rig]; ok && end > w.start {
			w.start = min(end, w.stop)
		}
		until[w.rig] = max(until[w.rig], w.stop)
	}
	return list
}

// end returns when a pause ended, and whether anything did.
func (p *pause) end(x *index, w wait) (stop int64, ended bool) {
	stop = w.start + longestPause + 1
	if ends := visible(p.ends); len(ends) > 0 {
		e := slices.MinFunc(ends, byPlace)
		told := e.when()
		if ms, ok := wallBetween(p.start, e); ok && !p.start.backdated && !e.backdated {
			told = w.start + ms
		}
		stop = min(stop, max(told, w.start))
	}
	union := x.rig(w.rig).timeline.union()
	if i := startingAt(union, w.start); i < len(union) {
		stop = min(stop, union[i].start)
	}
	if stop-w.start > longestPause {
		return w.start, false
	}
	return stop, true
}

// waiting returns the last pause of a session if nothing has ended it: no entry, and no
// arc of its rig since. nil stands for none.
func (s *session) waiting(x *index) *Waiting {
	waits := s.waits(x)
	if len(waits) == 0 {
		return nil
	}
	w := waits[len(waits)-1]
	union := x.rig(w.rig).timeline.union()
	if w.ended || len(visible(x.pauses[w.id].ends)) > 0 || startingAt(union, w.start) < len(union) {
		return nil
	}
	return &Waiting{ID: w.id, Why: w.why, At: w.start}
}
