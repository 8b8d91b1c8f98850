package journal

import (
	"encoding/json"
	"slices"

	"kerfside/calc/order"
)

// guideKey names the going through a guide in a session; in is "" outside one.
type guideKey struct{ in, guide string }

// guide is one going through a guide.
type guide struct {
	opened  []*entry
	answers []*entry
}

// failing are the results that count as a failed check.
var failing = map[string]bool{"fail": true, "change": true, "not-done": true}

// addGuide takes an opened guide, an answer, or a cleared fail.
func (x *index) addGuide(e *entry) {
	if e.kind == "check.cleared" {
		of := e.body.text("of")
		x.cleared[of] = append(x.cleared[of], e)
		if fail := x.entries[of]; fail != nil {
			x.outdate(x.sessionOf(fail))
		}
		return
	}
	key := guideKey{x.same.of(e.in), e.body.text("guide")}
	g := x.guides[key]
	if g == nil {
		g = &guide{}
		x.guides[key] = g
	}
	if e.kind == "guide.opened" {
		g.opened = append(g.opened, e)
	} else {
		g.answers = append(g.answers, e)
	}
}

// fails reports whether e is a failed check that nothing has cleared by name.
// A later good answer does not clear it.
func (x *index) fails(e *entry) bool {
	return e.counts("check.answered") && !e.hidden && failing[e.body.text("result")] && x.clearing(e) == nil
}

// clearing returns what cleared e first, nil if nothing did.
func (x *index) clearing(e *entry) *entry {
	list := standing(x.cleared[e.id])
	if len(list) == 0 {
		return nil
	}
	return slices.MinFunc(list, byPlace)
}

// Progress is how far a guide was gone through.
type Progress struct {
	Guide  string            `json:"guide"`
	In     string            `json:"in"`
	Opened int64             `json:"opened"`
	Last   int64             `json:"last"`
	Steps  map[string]Answer `json:"steps"`
	Fails  []string          `json:"fails"`
}

// Answer is the last answer to a step.
type Answer struct {
	Result string          `json:"result"`
	ID     string          `json:"id"`
	At     int64           `json:"at"`
	Device string          `json:"device"`
	Body   json.RawMessage `json:"body"`
}

// progress returns what a screen needs to go on with the guide.
func (g *guide) progress(x *index, key guideKey) Progress {
	v := Progress{Guide: key.guide, In: key.in, Steps: map[string]Answer{}, Fails: []string{}}
	opened, answers := standing(g.opened), standing(g.answers)
	v.Opened, _ = earliest(opened)
	v.Last, _ = latest(slices.Concat(opened, answers))
	order.Sort(answers, byPlace)
	for _, e := range answers {
		v.Steps[e.body.text("step")] = Answer{e.body.text("result"), e.id, e.when(), e.device, e.raw}
		if x.fails(e) {
			v.Fails = append(v.Fails, e.id)
		}
	}
	return v
}
