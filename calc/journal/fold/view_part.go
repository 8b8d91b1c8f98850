package fold

import (
	"cmp"
	"encoding/json"

	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// PartReading is one reading of a part.
type PartReading struct {
	ID     string          `json:"id"`
	At     int64           `json:"at"`
	Ms     int64           `json:"ms"` // arc time of the part by then
	Starts int64           `json:"starts"`
	Body   json.RawMessage `json:"body"`
}

// reading returns the part's readings, oldest first.
func (p *part) reading(x *index) []PartReading {
	list := visible(p.readings)
	order.Sort(list, byPlace)
	all := []PartReading{}
	for _, e := range list {
		ms, starts := p.arcTime(x, e.when())
		all = append(all, PartReading{ID: e.id, At: e.when(), Ms: ms, Starts: starts, Body: e.raw()})
	}
	return all
}

// Part is a part with its life.
type Part struct {
	Part     string        `json:"part"`
	Same     []string      `json:"same,omitempty"`
	Ms       int64         `json:"ms"`
	Starts   int64         `json:"starts"`
	Fits     []PartFit     `json:"fits"`
	Readings []PartReading `json:"readings"`
	Check    []Warning     `json:"check"`
}

// PartFit is a stretch of time that a part spent in a rig.
type PartFit struct {
	ID   string `json:"id"`
	Rig  string `json:"rig"`
	Slot string `json:"slot"`
	Line string `json:"line"`
	From int64  `json:"from"`
	To   int64  `json:"to"`  // 0 while it is in
	Why  string `json:"why"` // why it was pulled
	Ms   int64  `json:"ms"`
}

// Part returns the life of one part. Its error is a problem.
func (f *Fold) Part(id string) (Part, error) {
	x := f.settled()
	p := x.parts[x.same.of(id)]
	if p == nil {
		return Part{}, problem.New(problem.NotFound, "id", "there is no such part on this phone", "It may come with the next sync.")
	}
	return p.view(x), nil
}

func (p *part) view(x *index) Part {
	v := Part{Part: p.id, Same: x.aliases(p.id), Fits: []PartFit{}, Readings: p.reading(x), Check: p.warnings}
	v.Ms, v.Starts = p.arcTime(x, forever)
	for _, f := range p.fits {
		ms, _ := x.rig(f.rig).timeline.between(f.from, f.to)
		pf := PartFit{ID: f.by.id, Rig: f.rig, Slot: f.slot, Line: f.line, From: f.from, To: f.to, Ms: ms}
		if f.to == forever {
			pf.To = 0
		}
		if f.out != nil {
			pf.Why = f.out.body.Text("why")
		}
		v.Fits = append(v.Fits, pf)
	}
	return v
}

// Parts returns the lives of all parts, the last fitted first.
func (f *Fold) Parts() []Part {
	x := f.settled()
	list := []Part{}
	for _, id := range order.Keys(x.parts) {
		if v := x.parts[id].view(x); len(v.Fits)+len(v.Readings) > 0 {
			list = append(list, v)
		}
	}
	began := func(p Part) int64 {
		if len(p.Fits) == 0 {
			return always
		}
		return p.Fits[len(p.Fits)-1].From
	}
	order.Stable(list, func(a, b Part) int { return cmp.Compare(began(b), began(a)) })
	return list
}
