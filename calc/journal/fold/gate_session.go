package fold

import (
	"cmp"
	"slices"
)

// gates are the answers to may-i-cut that were given outside any session. Each belongs
// to the first session that is opened for its rig within gateReach after it.
type gates struct {
	outside    sortedList[*entry] // all of them
	openings   sortedList[*opening]
	unassigned []*entry // whose session is to be found anew
}

// opening is when a session was first opened, and for which rig.
type opening struct {
	at  int64
	rig string
	s   *session
}

func byOpening(a, b *opening) int {
	return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.s.id, b.s.id))
}

func newGates() gates {
	return gates{outside: sortedList[*entry]{compare: byTime}, openings: sortedList[*opening]{compare: byOpening}}
}

func (g *gates) add(e *entry) {
	g.outside.put(e)
	g.unassigned = append(g.unassigned, e)
}

// open puts o in the place of the opening that a session had. Gates that may belong to
// either have to be assigned anew.
func (g *gates) open(s *session, o *opening) {
	if s.opening != nil {
		g.openings.remove(s.opening)
		g.unassign(s.opening.at)
	}
	if s.opening = o; o != nil {
		g.openings.put(o)
		g.unassign(o.at)
	}
}

// unassign has the gates assigned anew that may belong to an opening at that time.
func (g *gates) unassign(at int64) {
	list := g.outside.all()
	i, _ := slices.BinarySearchFunc(list, at-gateReach, whenAt)
	for ; i < len(list) && list[i].when() <= at; i++ {
		g.unassigned = append(g.unassigned, list[i])
	}
}

func whenAt(e *entry, at int64) int { return cmp.Compare(e.when(), at) }

// sessionAfter returns the session that a gate belongs to, nil if there is none yet.
func (g *gates) sessionAfter(x *index, e *entry) *session {
	rig := x.same.of(e.body.Text("rig"))
	list := g.openings.all()
	i, _ := slices.BinarySearchFunc(list, e.when(), func(o *opening, at int64) int { return cmp.Compare(o.at, at) })
	for ; i < len(list) && list[i].at-e.when() <= gateReach; i++ {
		if rig == "" || rig == list[i].rig {
			return list[i].s
		}
	}
	return nil
}

// assignGates puts each unassigned gate on the list of its session.
func (x *index) assignGates() {
	for _, s := range x.staleSessions {
		o := s.opened(x)
		if was := s.opening; (o == nil) != (was == nil) || o != nil && *o != *was {
			x.gates.open(s, o)
		}
	}
	for _, e := range x.gates.unassigned {
		following := x.gates.sessionAfter(x, e)
		if following == e.session || x.entries[e.id] != e {
			continue
		}
		x.gate = nil
		if s := e.session; s != nil {
			x.setSums(e, sums{})
			s.priorGates = without(s.priorGates, e)
			x.invalidateSession(s)
		}
		if e.session = following; following != nil {
			following.priorGates = append(following.priorGates, e)
			x.invalidateSession(following)
			x.tally(e)
		}
	}
	clear(x.gates.unassigned)
	x.gates.unassigned = x.gates.unassigned[:0]
}

// opened returns when the session was first opened, nil if that is not known.
func (s *session) opened(x *index) *opening {
	var first *entry
	for _, e := range s.moves {
		if e.kind == "session.opened" && !e.hidden && (first == nil || byPlace(e, first) < 0) {
			first = e
		}
	}
	if first == nil {
		return nil
	}
	return &opening{at: first.when(), rig: s.rig(x), s: s}
}

// sessionOf returns the id of the session that an entry is listed in, "" if there is
// none: the one it was made in or, for a gate, the one that followed.
func (x *index) sessionOf(e *entry) string {
	if e.session == nil {
		return ""
	}
	return e.session.id
}
