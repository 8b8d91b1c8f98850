package fold

import (
	"slices"

	"kerfside/calc/order"
)

// atWork returns when each rig was at work: the time of its sessions, from when one was
// opened to when it was closed, or to now while it is open. A time in which nothing was
// entered for longer than longestPause is left out whole: it is a night, a meal or a
// session that nobody closed. What was entered as a whole, an arc, counts from its
// start to its end. Sessions that overlap count once.
func (x *index) atWork(now int64) map[string][]span {
	all := map[string][]span{}
	for _, s := range x.book.all() {
		v := s.bookRow
		spans := s.atWork(x)
		if n := len(spans); v.Open && n > 0 && spans[n-1].stop < now && now-spans[n-1].stop <= longestPause {
			spans = slices.Clone(spans)
			spans[n-1].stop = now
		}
		all[v.Rig] = append(all[v.Rig], spans...)
	}
	for rig, list := range all {
		order.Sort(list, bySpan)
		joined := list[:0]
		for _, s := range list {
			if n := len(joined); n > 0 && s.start <= joined[n-1].stop {
				joined[n-1].stop = max(joined[n-1].stop, s.stop)
				continue
			}
			joined = append(joined, s)
		}
		all[rig] = joined
	}
	return all
}

// working is when a session was at work, as it is in short.
type working struct {
	of    *Session
	spans []span
}

// atWork returns when it was, up to what was entered last. It is kept until the session
// changes: what a session is in short is made anew then.
func (s *session) atWork(x *index) []span {
	v := s.summary(x)
	if s.working.of == v {
		return s.working.spans
	}
	until := v.Closed
	if v.Open {
		until = forever
	}
	times := []int64{v.Opened}
	note := func(at int64) {
		if v.Opened < at && at <= until {
			times = append(times, at)
		}
	}
	note(v.Closed)
	for _, e := range s.entries {
		if !e.hidden {
			note(e.when())
		}
	}
	for _, t := range s.timelines {
		for _, a := range t.union() {
			note(a.start)
			note(a.stop)
		}
	}
	slices.Sort(times)
	spans := []span{{start: v.Opened, stop: v.Opened}}
	for _, at := range times {
		if last := &spans[len(spans)-1]; at-last.stop <= longestPause {
			last.stop = at
		} else {
			spans = append(spans, span{start: at, stop: at})
		}
	}
	s.working = working{of: v, spans: spans}
	return spans
}

// since returns how long times from on are. They are in order and do not overlap.
func since(list []span, from int64) int64 {
	ms := int64(0)
	for _, s := range slices.Backward(list) {
		if s.stop <= from {
			break
		}
		ms += s.stop - max(s.start, from)
	}
	return ms
}
