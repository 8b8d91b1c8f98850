package fold

import (
	"cmp"
	"encoding/json"
	"slices"

	"kerfside/calc/order"
)

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

// rigsNow returns the rigs that have a field, an arc or a part.
func (x *index) rigsNow() []RigNow {
	list := []RigNow{}
	for _, id := range order.Keys(x.rigs) {
		r := x.rigs[id]
		if id == "" || r.fields.empty() && len(r.timeline.union()) == 0 && len(r.inside) == 0 {
			continue
		}
		list = append(list, r.now(x))
	}
	return list
}

// now returns how the rig stands.
func (r *rig) now(x *index) RigNow {
	if r.cached != nil {
		return *r.cached
	}
	u := r.timeline
	v := RigNow{Rig: r.id, Name: r.fields.text("name"), LastArc: u.end(), Parts: r.parts(x)}
	v.Ms, v.Starts = u.total()
	v.Drain.Every = r.every()
	v.Drain.At, v.Drain.Ms = u.since(r.drains.all())
	v.Drain.Due = v.Drain.Every - v.Drain.Ms
	v.Filter.At, v.Filter.Ms = u.since(r.filters.all())
	r.cached = &v
	return v
}

// parts returns the parts that are in the rig, by slot. Two in one slot are both
// shown, and marked.
func (r *rig) parts(x *index) []PartNow {
	list := []PartNow{}
	for p := range r.inside {
		at := p.fits[len(p.fits)-1]
		v := PartNow{Part: p.id, Slot: at.slot, At: at.from, Line: at.line, Fields: at.by.raw(), Check: slices.Clip(p.warnings)}
		v.Ms, v.Starts = p.arcTime(x, forever)
		if read := visible(p.readings); len(read) > 0 {
			e := slices.MaxFunc(read, byPlace)
			v.Reading, v.ReadAt = e.raw(), e.when()
			v.ReadMs, _ = p.arcTime(x, e.when())
		}
		list = append(list, v)
	}
	order.Sort(list, func(a, b PartNow) int { return cmp.Or(cmp.Compare(a.Slot, b.Slot), cmp.Compare(a.Part, b.Part)) })
	for i := range list {
		if i > 0 && list[i-1].Slot == list[i].Slot || i+1 < len(list) && list[i+1].Slot == list[i].Slot {
			list[i].Check = append(list[i].Check, Warning{What: "slot-shared", ID: list[i].Part, Msg: "two parts stand in this slot: pull the one that is out"})
		}
	}
	return list
}
