package fold

import (
	"encoding/json"
	"slices"

	"kerfside/calc/order"
)

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
func (g *guide) progress(x *index) Progress {
	if g.cached != nil {
		return *g.cached
	}
	v := Progress{Guide: g.key.guide, In: g.key.in, Steps: map[string]Answer{}, Fails: []string{}}
	opened, answers := visible(g.opened), visible(g.answers)
	v.Opened, _ = earliest(opened)
	v.Last, _ = latest(slices.Concat(opened, answers))
	order.Sort(answers, byPlace)
	for _, e := range answers {
		v.Steps[e.body.Text("step")] = Answer{Result: e.body.Text("result"), ID: e.id, At: e.when(), Device: e.device, Body: e.raw()}
		if x.isFailed(e) {
			v.Fails = append(v.Fails, e.id)
		}
	}
	g.cached = &v
	return v
}

// guidePage is how many goings through a guide the view guides holds.
const guidePage = 50

// Guides is how far guides were gone through, the last touched first.
type Guides struct {
	Progress []Progress `json:"progress"`
}

// Guides returns at most limit goings through a guide.
func (f *Fold) Guides(limit int) Guides {
	x := f.settled()
	v := Guides{Progress: []Progress{}}
	all := x.guidesByLast.all()
	for _, g := range all[:min(limit, len(all))] {
		v.Progress = append(v.Progress, g.progress(x))
	}
	return v
}
