package fold

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// register holds what was ever set in the fields of one thing. For each field
// the last writer counts, by the order in which things were entered.
type register map[string][]write

// write is one value that was set.
type write struct {
	by    *entry
	value json.RawMessage
	odd   bool // the value cannot be, and is null here
}

// Fields are the fields of a thing as a screen needs them.
type Fields struct {
	Fields map[string]json.RawMessage `json:"fields"`
	By     map[string]string          `json:"by"` // field → event that set it
	Also   []LostValue                `json:"also"`
}

// LostValue is a value that lost against another that had not seen it.
type LostValue struct {
	Field  string          `json:"field"`
	Value  json.RawMessage `json:"value"`
	ID     string          `json:"id"`
	Device string          `json:"device"`
	At     int64           `json:"at"`
}

// set adds all fields of an entry. A value that cannot be counts as none and puts
// nobody's good one out.
func (r register) set(e *entry) {
	for _, m := range e.body.Members() {
		w := write{by: e, value: json.RawMessage(m.Value)}
		if want := misfit(e.kind, m); want != "" {
			e.warn("odd", fmt.Sprintf("its %.40s was passed over: it is no %s", m.Key, want))
			w.value, w.odd = json.RawMessage("null"), true
		}
		r[m.Key] = append(r[m.Key], w)
	}
}

// unset takes all fields of an entry out again.
func (r register) unset(e *entry) {
	for _, m := range e.body.Members() {
		r[m.Key] = slices.DeleteFunc(r[m.Key], func(w write) bool { return w.by == e })
	}
}

// misfit says what the value of a field should be and is not, "" if it fits or is
// null. Fields hold text, numbers, true or false; what the fold reads, its own form. A cut
// of a job's list, a plan, a quote and the limits of a task of upkeep are objects.
func misfit(kind string, m event.Member) string {
	first := m.Value[0]
	switch {
	case string(m.Value) == "null":
	case isCut(kind, m.Key) || isLimits(kind, m.Key) || m.Key == event.QuoteField && kind == "job.set" || m.Key == "planned" && onSession(kind):
		if first != '{' {
			return "list of values"
		}
	case slices.Contains([]string{"name", "title", "rig", "site", "job"}, m.Key) && first != '"':
		return "text"
	case m.Key == "drainEvery":
		if ms, ok := event.ReadInt(m.Value); !ok || ms < drainEvery || ms > drainMost {
			return "time from 20 to 30 minutes"
		}
	case first == '{' || first == '[':
		return "single value"
	}
	return ""
}

// winner returns the value that counts for field; null and nothing are nil.
func (r register) winner(field string) (w write, ok bool) {
	for _, x := range r[field] {
		if x.by.hidden {
			continue
		}
		if !ok || w.odd && !x.odd || w.odd == x.odd && x.by.place.Written(w.by.place) > 0 {
			w, ok = x, true
		}
	}
	return w, ok
}

// text returns the text that counts for field, "" if there is none.
func (r register) text(field string) string {
	w, _ := r.winner(field)
	s, _ := event.Unquote(w.value)
	return s
}

// count returns the whole number that counts for field, 0 if there is none or one that
// cannot be.
func (r register) count(field string) int64 {
	w, _ := r.winner(field)
	if n, ok := event.ReadInt(w.value); ok && n >= 0 && n <= maxCount {
		return n
	}
	return 0
}

// wholeIn returns the whole number under a key from 1 to most, 0 if there is none.
func wholeIn(b event.Body, key string, most int64) int64 {
	if n, ok := b.IntIn(key, 1, most); ok {
		return n
	}
	return 0
}

// maxCount bounds prices and counts of pieces, so that a slip cannot make sums overflow.
const maxCount = 1_000_000_000_000

// empty reports whether nothing is set that stands.
func (r register) empty() bool {
	for field := range r {
		if _, ok := r.winner(field); ok {
			return false
		}
	}
	return true
}

// view returns all fields.
func (r register) view() Fields {
	v := Fields{Fields: map[string]json.RawMessage{}, By: map[string]string{}, Also: []LostValue{}}
	for _, field := range order.Keys(r) {
		w, ok := r.winner(field)
		if !ok {
			continue
		}
		v.By[field] = w.by.id
		if string(w.value) != "null" {
			v.Fields[field] = w.value
		}
		v.Also = append(v.Also, r.lostTo(field, w)...)
	}
	return v
}

// lostTo returns the values of field that lost against w without having been
// seen: w came neither from the same phone, nor did it or any other name the
// loser as replaced, nor is it the same value.
func (r register) lostTo(field string, w write) []LostValue {
	replaced := map[string]bool{}
	for _, x := range r[field] {
		if !x.by.hidden {
			replaced[x.by.supersedes] = true
		}
	}
	var list []write
	for _, x := range r[field] {
		if x.by != w.by && !x.by.hidden && !x.odd && x.by.device != w.by.device && !replaced[x.by.id] && !bytes.Equal(x.value, w.value) {
			list = append(list, x)
		}
	}
	order.Sort(list, func(a, b write) int { return a.by.place.Written(b.by.place) })
	var all []LostValue
	for _, x := range list {
		all = append(all, LostValue{Field: field, Value: x.value, ID: x.by.id, Device: x.by.device, At: x.by.place.O.Ms()})
	}
	return all
}
