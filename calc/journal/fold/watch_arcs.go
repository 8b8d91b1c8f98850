package fold

// burnt is what the arcs made of a watch.
type burnt struct {
	from int64  // from when on the watch counts
	arc  string // the arc whose end that is, "" if none ended later than the watch began
	last int64  // when the last of the arcs that count and have no stop was struck
}

// burn goes through the arcs of the watch's session and of its rig by their start, as far as
// they were struck before the time until.
func (w *watch) burn(x *index, from, ms, until int64) burnt {
	v := burnt{from: from, last: always}
	count := func(b span) {
		if b.stop > v.from {
			v.from, v.arc = b.stop, b.id
		}
		if b.running {
			v.last = b.start
		}
	}
	inside, rig := w.inside(x), []span(nil)
	if r := x.rigs[x.same.of(w.rig)]; r != nil && w.rig != "" {
		rig = r.timeline.arcs.all()
	}
	inside, rig = inside[:startingAt(inside, until)], rig[:startingAt(rig, until)]
	// Arcs of the rig that were struck longest before the watch are too old.
	rig = rig[startingAt(rig, w.started.when()-longestArc):]
	for len(inside)+len(rig) > 0 {
		if len(rig) == 0 || len(inside) > 0 && bySpan(inside[0], rig[0]) <= 0 {
			if len(rig) > 0 && rig[0].id == inside[0].id {
				rig = rig[1:]
			}
			count(inside[0])
			inside = inside[1:]
			continue
		}
		if rig[0].start <= v.from+ms {
			count(rig[0])
			rig = rig[1:]
		} else if len(inside) == 0 {
			break // no arc can bring the watch up to it any more
		} else {
			rig = rig[max(1, startingAt(rig, inside[0].start)):] // out of reach
		}
	}
	return v
}

// inside returns the arcs of the watch's session, by their start.
func (w *watch) inside(x *index) []span {
	s := x.sessions[x.same.of(w.started.in)]
	if s == nil {
		return nil
	}
	all := sortedList[span]{compare: bySpan}
	for _, t := range s.timelines {
		if len(s.timelines) == 1 {
			return t.arcs.all()
		}
		all.late = append(all.late, t.arcs.all()...)
	}
	return all.all()
}
