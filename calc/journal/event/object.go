package event

import (
	"encoding/json"
	"fmt"
)

// Member is one key of an object with the bytes of its value.
type Member struct {
	Key   string
	Value []byte
	start int // where the value begins in the object's bytes
}

// Object is a JSON object read into its keys, each once, in their order.
type Object struct {
	Members     []Member
	depth       int    // levels of JSON, 1 for an object of plain values
	Twice       string // a key that stands twice, "" if none does; the last one counts
	at          map[string]int
	comparisons int // keys that were compared with another, so that tests can see the work
}

// ReadObject returns the keys of the JSON object raw in their order, exactly as
// spelt: encoding/json would match keys without regard to case, and a browser does
// not. Of two equal keys the last counts, as in a browser and in encoding/json.
// The work grows with the length of raw and with nothing else.
func ReadObject(raw []byte) (Object, error) {
	if !json.Valid(raw) {
		return Object{}, fmt.Errorf("this is no JSON")
	}
	i := space(raw, 0)
	if raw[i] != '{' {
		return Object{}, fmt.Errorf("this is no JSON object")
	}
	o := Object{Members: make([]Member, 0, usualKeys), depth: 1}
	for i = space(raw, i+1); raw[i] != '}'; i = space(raw, i) {
		if raw[i] == ',' {
			i = space(raw, i+1)
		}
		end, _ := value(raw, i)
		key, err := readKey(raw[i:end])
		if err != nil {
			return Object{}, err
		}
		i = space(raw, space(raw, end)+1) // past the colon
		end, deep := value(raw, i)
		o.put(Member{Key: key, Value: raw[i:end], start: i})
		o.depth = max(o.depth, 1+deep)
		i = end
	}
	return o, nil
}

// put adds a key. Few keys are looked through, which is fastest; for many there is
// an index, so that nobody's object of a hundred thousand takes minutes.
func (o *Object) put(m Member) {
	at, here := o.find(m.Key)
	if here {
		o.Members[at], o.Twice = m, m.Key
		return
	}
	o.Members = append(o.Members, m)
	if o.at != nil {
		o.at[m.Key] = at
	} else if len(o.Members) > usualKeys {
		o.at = make(map[string]int, 2*len(o.Members))
		for i, m := range o.Members {
			o.at[m.Key] = i
		}
	}
}

// find returns where a key stands, or where it would if it is not here.
func (o *Object) find(key string) (at int, here bool) {
	if o.at != nil {
		o.comparisons++
		if at, here = o.at[key]; here {
			return at, true
		}
		return len(o.Members), false
	}
	for i := range o.Members {
		o.comparisons++
		if o.Members[i].Key == key {
			return i, true
		}
	}
	return len(o.Members), false
}

// usualKeys is how many keys an event or a reply's line has, and some more.
const usualKeys = 12

// readKey is unquote that makes no copy of a key that an event has.
func readKey(raw []byte) (string, error) {
	switch string(raw) {
	case `"id"`:
		return "id", nil
	case `"t"`:
		return "t", nil
	case `"wall"`:
		return "wall", nil
	case `"device"`:
		return "device", nil
	case `"kind"`:
		return "kind", nil
	case `"v"`:
		return "v", nil
	case `"in"`:
		return "in", nil
	case `"about"`:
		return "about", nil
	case `"body"`:
		return "body", nil
	}
	return Unquote(raw)
}
