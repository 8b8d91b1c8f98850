package fold

import (
	"cmp"
	"slices"
	"strings"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// gateGuide is the guide of the answers to may-i-cut. Each stop it told is a
// failed check, its step the key of the stop; a gate that told none is one
// answer of another result.
const gateGuide = "may-i-cut"

// gateReach is how long before the opening of a session its gate may have been
// answered, in ms.
const gateReach = 12 * 3600 * 1000

// Gate is what the crew was told by may-i-cut.
type Gate struct {
	Stops []OpenStop `json:"stops"` // that nobody has cleared, oldest first
	Asked []Asked    `json:"asked"` // the last answer for each rig
}

// OpenStop is a stop of may-i-cut that nothing has cleared.
type OpenStop struct {
	ID   string `json:"id"`
	Step string `json:"step"`
	Says string `json:"says"` // what it is, in a few words
	By   string `json:"by"`   // who may clear it
	Rig  string `json:"rig"`
	Site string `json:"site"`
	In   string `json:"in"` // its session, "" before one was opened
	At   int64  `json:"at"`
}

// Asked is when may-i-cut was last answered for a rig.
type Asked struct {
	Rig     string `json:"rig"`
	Verdict string `json:"verdict"` // "stop", "conditions" or "go"
	ID      string `json:"id"`
	In      string `json:"in"`
	At      int64  `json:"at"`
}

// ofGate reports whether e is an answer to may-i-cut.
func ofGate(e *entry) bool {
	return e.kind == "check.answered" && e.known() && !e.odd && e.body.Text("guide") == gateGuide
}

// gates are the answers that were given outside any session, and the sessions that
// they may belong to: each to the first that is opened for its rig within gateReach.
type gates struct {
	outside    sortedList[*entry]
	openings   sortedList[*opening]
	unassigned []*entry // to be given to a session anew
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

// open takes a session's opening in place of the one it had. Gates that may belong
// to either are homeless.
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

// unassign makes the gates homeless that an opening at that time may belong to.
func (g *gates) unassign(at int64) {
	list := g.outside.all()
	i, _ := slices.BinarySearchFunc(list, at-gateReach, whenAt)
	for ; i < len(list) && list[i].when() <= at; i++ {
		g.unassigned = append(g.unassigned, list[i])
	}
}

func whenAt(e *entry, at int64) int { return cmp.Compare(e.when(), at) }

// sessionAfter returns the session that a loose gate belongs to, nil if there is none yet.
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

// assignGates gives the gates that were answered before their session to that session.
func (x *index) assignGates() {
	for _, s := range x.staleSessions {
		o := s.opened(x)
		if was := s.opening; (o == nil) != (was == nil) || o != nil && *o != *was {
			x.gates.open(s, o)
		}
	}
	for _, e := range x.gates.unassigned {
		following := x.gates.sessionAfter(x, e)
		if following == e.listed || x.entries[e.id] != e {
			continue
		}
		x.gate = nil
		if s := e.listed; s != nil {
			x.sum(e, sums{})
			s.priorGates = without(s.priorGates, e)
			x.invalidateSession(s)
		}
		if e.listed = following; following != nil {
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
	return &opening{first.when(), s.rig(x), s}
}

// sessionOf returns the session of an entry: the one it was made in or, of a
// gate, the one that followed.
func (x *index) sessionOf(e *entry) string {
	if e.listed == nil {
		return ""
	}
	return e.listed.id
}

// gateNow returns what stands of may-i-cut.
func (x *index) gateNow() Gate {
	if x.gate != nil {
		return *x.gate
	}
	v := Gate{Stops: []OpenStop{}, Asked: []Asked{}}
	last, stops := map[string]*entry{}, []*entry{}
	for key, g := range x.guides {
		if key.guide != gateGuide {
			continue
		}
		for _, e := range standing(g.answers) {
			rig := x.rigOfGate(e)
			if x.isFailed(e) {
				stops = append(stops, e)
			}
			if other := last[rig]; other == nil || byPlace(other, e) < 0 {
				last[rig] = e
			}
		}
	}
	order.Sort(stops, byPlace)
	for _, e := range stops {
		b := e.body
		says := cmp.Or(b.Text("says"), strings.ReplaceAll(b.Text("step"), "-", " "))
		v.Stops = append(v.Stops, OpenStop{e.id, b.Text("step"), says, b.Text("by"), x.rigOfGate(e), x.same.of(b.Text("site")), x.sessionOf(e), e.when()})
	}
	for _, rig := range order.Keys(last) {
		e, verdict := last[rig], last[rig].body.Text("result")
		if event.FailsCheck(verdict) {
			verdict = "stop"
		}
		v.Asked = append(v.Asked, Asked{rig, verdict, e.id, x.sessionOf(e), e.when()})
	}
	x.gate = &v
	return v
}

// rigOfGate returns the rig a gate was answered for, "" if nobody knows.
func (x *index) rigOfGate(e *entry) string {
	if id := e.body.Text("rig"); id != "" {
		return x.same.of(id)
	}
	if s := x.sessions[x.sessionOf(e)]; s != nil {
		return s.rig(x)
	}
	return ""
}
