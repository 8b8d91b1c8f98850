package journal

import (
	"cmp"
	"encoding/json"

	"kerfside/calc/order"
)

// Now is what stands at this moment, without asking what time it is.
type Now struct {
	Session *Session    `json:"session"`
	Open    []string    `json:"open"` // open sessions, newest first
	Running []Running   `json:"running"`
	Rigs    []RigNow    `json:"rigs"`
	Watch   []FireWatch `json:"watch"`
	Fails   []OpenFail  `json:"fails"`
	Gate    Gate        `json:"gate"`
	Faults  []OpenFault `json:"faults"`

	// Found counts the crew's confirmed faults by cause, the last word on each.
	Found map[string]int `json:"found"`
	Check []Warning      `json:"check"`
}

// Running is an arc without a stop.
type Running struct {
	ID        string `json:"id"`
	Rig       string `json:"rig"`
	In        string `json:"in"`
	Start     int64  `json:"start"`
	Device    string `json:"device"`
	Forgotten bool   `json:"forgotten"` // its session is closed
}

// RigNow is how a rig stands.
type RigNow struct {
	Rig     string    `json:"rig"`
	Name    string    `json:"name"`
	Ms      int64     `json:"ms"`
	Starts  int64     `json:"starts"`
	LastArc int64     `json:"lastArc"` // end of the last arc
	Drain   DrainNow  `json:"drain"`
	Filter  FilterNow `json:"filter"`
	Parts   []PartNow `json:"parts"`
}

// DrainNow is the arc time since the trap was drained.
type DrainNow struct {
	Every int64 `json:"every"`
	Ms    int64 `json:"ms"`
	At    int64 `json:"at"`
	Due   int64 `json:"due"` // arc time left, below zero if it is past due
}

// FilterNow is the arc time since the filter was changed.
type FilterNow struct {
	At int64 `json:"at"`
	Ms int64 `json:"ms"`
}

// PartNow is a part that is in the torch.
type PartNow struct {
	Part    string          `json:"part"`
	Slot    string          `json:"slot"`
	At      int64           `json:"at"`
	Ms      int64           `json:"ms"` // over its whole life
	Starts  int64           `json:"starts"`
	Line    string          `json:"line"`
	Fields  json.RawMessage `json:"fields"`  // body of the part.fitted
	Reading json.RawMessage `json:"reading"` // body of the last reading, or null
	ReadAt  int64           `json:"readAt"`
	ReadMs  int64           `json:"readMs"`
	Check   []Warning       `json:"check"`
}

// OpenFail is a failed check that nothing has cleared.
type OpenFail struct {
	ID     string `json:"id"`
	Guide  string `json:"guide"`
	Step   string `json:"step"`
	Result string `json:"result"`
	Slot   string `json:"slot"`
	In     string `json:"in"`
	At     int64  `json:"at"`
}

// Now returns the view now.
func (f *Fold) Now() Now {
	x := f.ix()
	v := Now{Open: []string{}, Running: x.running(), Rigs: x.rigsNow(), Watch: []FireWatch{}, Fails: []OpenFail{}, Gate: x.gate(), Faults: []OpenFault{}, Found: map[string]int{}, Check: []Warning{}}
	for _, s := range x.book() {
		if s.Open {
			if v.Session == nil {
				v.Session = &s
			}
			v.Open = append(v.Open, s.ID)
		}
	}
	for _, id := range sorted(x.watches) {
		if w, ok := x.watches[id].open(x); ok {
			v.Watch = append(v.Watch, w)
		}
	}
	order.Stable(v.Watch, func(a, b FireWatch) int { return cmp.Compare(b.Ends, a.Ends) })
	for _, g := range x.guides {
		for _, e := range g.answers {
			if x.fails(e) {
				b := e.body
				v.Fails = append(v.Fails, OpenFail{e.id, b.text("guide"), b.text("step"), b.text("result"), b.text("slot"), x.same.of(e.in), e.when()})
			}
		}
	}
	order.Sort(v.Fails, func(a, b OpenFail) int { return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.ID, b.ID)) })
	for _, id := range sorted(x.faults) {
		if o, ok := x.faults[id].open(x); ok {
			v.Faults = append(v.Faults, o)
		}
		if cause := x.faults[id].cause(); cause != "" {
			v.Found[cause]++
		}
	}
	for _, r := range v.Rigs {
		for _, p := range r.Parts {
			v.Check = append(v.Check, p.Check...)
		}
	}
	return v
}

// running returns the arcs without a stop, oldest first.
func (x *index) running() []Running {
	list := []Running{}
	for _, a := range x.arcs {
		if !a.burns() {
			continue
		}
		forgotten := false
		if session := x.sessions[a.in]; session != nil && a.in != "" {
			forgotten = !session.summary(x).Open
		}
		list = append(list, Running{a.start.id, a.rig, a.in, a.start.when(), a.start.device, forgotten})
	}
	order.Sort(list, func(a, b Running) int { return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(a.ID, b.ID)) })
	return list
}

// rigsNow returns the rigs that have a field, an arc or a part.
func (x *index) rigsNow() []RigNow {
	fitted := x.fitted()
	list := []RigNow{}
	for _, id := range sorted(x.rigs) {
		r := x.rigs[id]
		u := r.burning()
		if id == "" || r.fields.empty() && len(u.list) == 0 && fitted[id] == nil {
			continue
		}
		v := RigNow{Rig: id, Name: r.fields.text("name"), LastArc: u.end(), Parts: fitted[id]}
		v.Ms, v.Starts = u.total()
		v.Drain.Every = r.every()
		v.Drain.At, v.Drain.Ms = u.since(r.drains)
		v.Drain.Due = v.Drain.Every - v.Drain.Ms
		v.Filter.At, v.Filter.Ms = u.since(r.filters)
		if v.Parts == nil {
			v.Parts = []PartNow{}
		}
		list = append(list, v)
	}
	return list
}

// fitted returns the parts that are in each rig, by slot. Two in one slot are
// both shown, and marked.
func (x *index) fitted() map[string][]PartNow {
	rigs := map[string][]PartNow{}
	for _, id := range sorted(x.parts) {
		p := x.parts[id]
		fits, checks := p.fits(x)
		at, ok := current(fits)
		if !ok {
			continue
		}
		v := PartNow{Part: id, Slot: at.slot, At: at.from, Line: at.line, Fields: at.by.raw, Check: checks}
		v.Ms, v.Starts = p.burnt(x, fits, forever)
		if list := p.reading(x, fits); len(list) > 0 {
			r := list[len(list)-1]
			v.Reading, v.ReadAt, v.ReadMs = r.Body, r.At, r.Ms
		}
		x.rig(at.rig) // a rig may be known by its parts alone
		rigs[at.rig] = append(rigs[at.rig], v)
	}
	for _, list := range rigs {
		order.Stable(list, func(a, b PartNow) int { return cmp.Compare(a.Slot, b.Slot) })
		for i := range list {
			if i > 0 && list[i-1].Slot == list[i].Slot || i+1 < len(list) && list[i+1].Slot == list[i].Slot {
				list[i].Check = append(list[i].Check, Warning{"slot-shared", list[i].Part, "two parts stand in this slot: pull the one that is out"})
			}
		}
	}
	return rigs
}
