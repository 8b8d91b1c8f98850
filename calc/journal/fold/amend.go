package fold

import (
	"encoding/json"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// overlay is what amend and void say about one event. It may be there before
// the event is.
type overlay struct {
	amends []*fact
	voids  []*fact
}

// Correction is one amendment or removal in the history of an entry.
type Correction struct {
	ID     string          `json:"id"`
	At     int64           `json:"at"`
	Device string          `json:"device"`
	Set    json.RawMessage `json:"set,omitempty"`
	On     *bool           `json:"on,omitempty"`
	Why    string          `json:"why"`
}

// written orders facts as they were entered.
func written(a, b *fact) int {
	return event.PlaceOf(a.id, a.o, a.t, 0).Written(event.PlaceOf(b.id, b.o, b.t, 0))
}

// hidden reports whether the last void of id says so.
func (f *Fold) hidden(id string) bool {
	on := false
	if o := f.overlays[id]; o != nil {
		for _, v := range order.Sorted(o.voids, written) {
			on = hides(v)
		}
	}
	return on
}

// hides reports whether a void hides its target; without on it does.
func hides(v *fact) bool { return string(event.ReadBody(v.body).Get("on")) != "false" }

// entry returns the entry of a fact: its body with all amendments laid over it,
// each field by the last writer, and whether it is hidden. An amendment that was
// itself removed does not count; a removal cannot be removed, only followed by
// another that brings the entry back.
func (f *Fold) entry(x *fact) *entry {
	e := &entry{fact: x, body: event.ReadBody(x.body), hidden: f.hidden(x.id)}
	at := x.at
	if o := f.overlays[x.id]; o != nil {
		set := map[string]json.RawMessage{}
		for _, a := range order.Sorted(o.amends, written) {
			if f.hidden(a.id) {
				continue
			}
			b := event.ReadBody(a.body)
			for _, m := range event.ReadBody(b.Get("set")).Members() {
				if m.Key != "at" {
					set[m.Key] = m.Value
				} else if n, ok := event.ReadInt(m.Value); ok && n > 0 && n <= event.MaxMillis {
					at = n
				}
			}
			e.history = append(e.history, Correction{ID: a.id, At: a.o.Ms(), Device: a.device, Set: b.Get("set"), Why: b.Text("why")})
		}
		e.body = event.ReadBody(layOver(x.body, set))
		for _, v := range order.Sorted(o.voids, written) {
			on := hides(v)
			e.history = append(e.history, Correction{ID: v.id, At: v.o.Ms(), Device: v.device, On: &on, Why: event.ReadBody(v.body).Text("why")})
		}
		order.Stable(e.history, func(a, b Correction) int { return written(f.facts[a.ID], f.facts[b.ID]) })
	}
	e.place = event.PlaceOf(x.id, x.o, x.t, at)
	e.backdated = at > 0 && e.place.When.Ms() == at
	if lack := event.Missing(x.kind, x.about, e.body); lack != "" && x.known() {
		e.warn("odd", "this entry cannot be counted: "+lack)
		e.odd = true
	}
	return e
}

// layOver returns base with the fields of set in place of its own; null takes a
// field away. With nothing set it is base itself.
func layOver(base json.RawMessage, set map[string]json.RawMessage) json.RawMessage {
	if len(set) == 0 {
		return base
	}
	all := map[string]json.RawMessage{}
	for _, m := range event.ReadBody(base).Members() {
		all[m.Key] = m.Value
	}
	for key, value := range set {
		if string(value) == "null" {
			delete(all, key)
			continue
		}
		all[key] = value
	}
	laid, err := json.Marshal(all) // sorts the keys
	if err != nil {
		return base
	}
	return laid
}
