package fold

import (
	"encoding/json"
	"slices"
)

var triedFamily = family{
	kinds: []string{"cut.tried"},
	add:   func(x *index, e *entry) { x.tried.put(e) },
	drop:  func(x *index, e *entry) { x.tried.remove(e) },
}

// Tried is a cut that was judged.
type Tried struct {
	ID   string          `json:"id"`
	At   int64           `json:"at"`
	Rig  string          `json:"rig"`
	In   string          `json:"in"` // its session, "" if it is of none
	Body json.RawMessage `json:"body"`
}

// Tried returns the newest judged cuts, at most limit of each rig and metal.
func (f *Fold) Tried(limit int) []Tried {
	x := f.settled()
	list, n := []Tried{}, map[string]int{}
	for _, e := range slices.Backward(x.tried.all()) {
		if e.hidden {
			continue
		}
		rig := x.rigOf(e)
		key := rig + " " + e.body.Text("metal")
		if n[key]++; n[key] <= limit {
			list = append(list, Tried{ID: e.id, At: e.when(), Rig: rig, In: x.sessionOf(e), Body: e.raw()})
		}
	}
	return list
}
