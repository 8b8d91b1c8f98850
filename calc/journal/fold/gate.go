package fold

import (
	"cmp"
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
		for _, e := range visible(g.answers) {
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
		v.Stops = append(v.Stops, OpenStop{ID: e.id, Step: b.Text("step"), Says: saysOf(e), By: b.Text("by"), Rig: x.rigOfGate(e), Site: x.same.of(b.Text("site")), In: x.sessionOf(e), At: e.when()})
	}
	for _, rig := range order.Keys(last) {
		e, verdict := last[rig], last[rig].body.Text("result")
		if event.FailsCheck(verdict) {
			verdict = "stop"
		}
		v.Asked = append(v.Asked, Asked{Rig: rig, Verdict: verdict, ID: e.id, In: x.sessionOf(e), At: e.when()})
	}
	x.gate = &v
	return v
}

// saysOf returns what a stop is, in a few words.
func saysOf(e *entry) string {
	return cmp.Or(e.body.Text("says"), strings.ReplaceAll(e.body.Text("step"), "-", " "))
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
