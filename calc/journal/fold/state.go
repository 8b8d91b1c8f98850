package fold

import (
	"encoding/hex"
	"encoding/json"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// state is everything that a fold says, in the form that is hashed.
type state struct {
	Set      []string      `json:"set"` // id, o and n of each event
	Now      Now           `json:"now"`
	Things   Things        `json:"rigs"`
	Stocks   Stocks        `json:"stock"`
	Settings Settings      `json:"settings"`
	Guides   Guides        `json:"guides"`
	Parts    []Part        `json:"parts"`
	Sessions []SessionView `json:"sessions"`
	Jobs     []JobView     `json:"jobs"`
	Lives    []Life        `json:"lives"`
	Times    []TimeOf      `json:"times"`
	Upkeep   []RigUpkeep   `json:"upkeep"`
	Outside  []DayItem     `json:"outside"` // sessions stand above in full
}

// State returns the whole fold as canonical JSON: keys of objects sorted or in
// the order of their declaration, lists in the order of the journal.
func (f *Fold) State() ([]byte, error) {
	x := f.settled()
	v := state{Set: []string{}, Now: f.Now(), Things: f.Things(), Stocks: f.Stocks(), Settings: f.Settings(),
		Guides: f.Guides(1 << 30), Parts: f.Parts(), Sessions: []SessionView{}, Jobs: []JobView{}, Lives: f.Lives("", "", 1<<30).Lives, Times: f.Times("").Times, Upkeep: f.Upkeep(0).Rigs, Outside: []DayItem{}}
	for _, id := range order.Keys(f.facts) {
		v.Set = append(v.Set, f.facts[id].encodeConfirmation())
	}
	for _, id := range order.Keys(x.sessions) {
		if id == "" { // holds arcs outside any session
			continue
		}
		v.Sessions = append(v.Sessions, x.sessions[id].view(x))
	}
	for _, j := range x.jobsByLast() {
		v.Jobs = append(v.Jobs, j.view(x))
	}
	for mark, more := (DayMark{}), true; more; {
		page := f.Days(mark, 0)
		more = page.More
		for _, item := range page.Items {
			if mark = item.mark(); item.Line != nil {
				v.Outside = append(v.Outside, item)
			}
		}
	}
	return json.Marshal(v)
}

// Hash returns SHA-256 of State in hex.
func (f *Fold) Hash() (string, error) {
	text, err := f.State()
	if err != nil {
		return "", err
	}
	sum := event.SumOf(text)
	return hex.EncodeToString(sum[:]), nil
}
