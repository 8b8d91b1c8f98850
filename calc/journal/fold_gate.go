package journal

import (
	"cmp"
	"slices"
	"strings"

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
	return e.kind == "check.answered" && known(e.fact) && !e.odd && e.body.text("guide") == gateGuide
}

// settle gives each gate that was answered before its session to that session:
// the first that is opened for its rig within gateReach. Sessions whose gates
// changed are computed anew.
func (x *index) settle() {
	if x.settled {
		return
	}
	x.settled = true
	if len(x.loose) == 0 {
		return
	}
	type opening struct {
		at int64
		s  *session
	}
	opened := []opening{}
	for _, id := range sorted(x.sessions) {
		s := x.sessions[id]
		moves := slices.DeleteFunc(standing(s.moves), func(e *entry) bool { return e.kind != "session.opened" })
		if len(moves) > 0 {
			opened = append(opened, opening{slices.MinFunc(moves, byPlace).when(), s})
		}
	}
	order.Stable(opened, func(a, b opening) int { return cmp.Compare(a.at, b.at) })
	early, home := map[string][]*entry{}, map[*entry]string{}
	for _, e := range x.loose {
		rig := x.same.of(e.body.text("rig"))
		i, _ := slices.BinarySearchFunc(opened, e.when(), func(o opening, at int64) int { return cmp.Compare(o.at, at) })
		for ; i < len(opened) && opened[i].at-e.when() <= gateReach; i++ {
			if s := opened[i].s; rig == "" || rig == s.rig(x) {
				early[s.id], home[e] = append(early[s.id], e), s.id
				break
			}
		}
	}
	for id, s := range x.sessions {
		if !slices.Equal(x.early[id], early[id]) {
			s.done = nil
		}
	}
	x.early, x.home = early, home
}

// sessionOf returns the session of an entry: the one it was made in or, of a
// gate, the one that followed.
func (x *index) sessionOf(e *entry) string {
	if e.in != "" {
		return x.same.of(e.in)
	}
	return x.home[e]
}

// gate returns what stands of may-i-cut.
func (x *index) gate() Gate {
	v := Gate{Stops: []OpenStop{}, Asked: []Asked{}}
	last, stops := map[string]*entry{}, []*entry{}
	for key, g := range x.guides {
		if key.guide != gateGuide {
			continue
		}
		for _, e := range standing(g.answers) {
			rig := x.rigOfGate(e)
			if x.fails(e) {
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
		says := cmp.Or(b.text("says"), strings.ReplaceAll(b.text("step"), "-", " "))
		v.Stops = append(v.Stops, OpenStop{e.id, b.text("step"), says, b.text("by"), x.rigOfGate(e), x.same.of(b.text("site")), x.sessionOf(e), e.when()})
	}
	for _, rig := range sorted(last) {
		e, verdict := last[rig], last[rig].body.text("result")
		if failing[verdict] {
			verdict = "stop"
		}
		v.Asked = append(v.Asked, Asked{rig, verdict, e.id, x.sessionOf(e), e.when()})
	}
	return v
}

// rigOfGate returns the rig a gate was answered for, "" if nobody knows.
func (x *index) rigOfGate(e *entry) string {
	if id := e.body.text("rig"); id != "" {
		return x.same.of(id)
	}
	if s := x.sessions[x.sessionOf(e)]; s != nil {
		return s.rig(x)
	}
	return ""
}
