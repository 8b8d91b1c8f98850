package event

import (
	"bytes"
	"encoding/json"
)

// Body is an object of JSON that is known to be well formed, or nil; on other bytes
// it gives nothing of use, and breaks nothing. It is looked through anew for each key: most are asked for two or three, and there are as
// many bodies as entries.
type Body json.RawMessage

// ReadBody takes well-formed JSON; what is no object has no keys.
func ReadBody(raw json.RawMessage) Body {
	if i := space(raw, 0); i == len(raw) || raw[i] != '{' {
		return nil
	}
	return Body(raw)
}

// Members returns the keys, each once, in their order.
func (b Body) Members() []Member {
	o, err := ReadObject(b)
	if err != nil {
		return nil
	}
	return o.Members
}

// Get returns the value of key, nil if it is missing or null. Of two equal keys
// the last counts.
func (b Body) Get(key string) json.RawMessage {
	if len(b) == 0 {
		return nil
	}
	var found json.RawMessage
	for i := space(b, space(b, 0)+1); i < len(b) && b[i] != '}'; i = space(b, i) {
		if b[i] == ',' {
			i = space(b, i+1)
		}
		colon, _ := value(b, i)
		from := space(b, space(b, colon)+1)
		to, _ := value(b, from)
		if spells(b[i:colon], key) {
			found = json.RawMessage(b[from:to])
		}
		i = max(to, i+1) // goes on whatever it reads
	}
	if string(found) == "null" {
		return nil
	}
	return found
}

// spells reports whether the JSON string raw reads key.
func spells(raw []byte, key string) bool {
	if len(raw) == len(key)+2 && bytes.IndexByte(raw, '\\') < 0 {
		return string(raw[1:len(raw)-1]) == key
	}
	if len(raw) <= len(key)+2 {
		return false // escaping makes a key no shorter
	}
	name, err := Unquote(raw)
	return err == nil && name == key
}

// Text returns the text under key, "" if there is none.
func (b Body) Text(key string) string {
	raw := b.Get(key)
	if raw == nil {
		return "" // without an error that nobody reads
	}
	s, _ := Unquote(raw)
	return s
}

// Texts returns the texts listed under key, none if it is no list. What else
// stands in the list is passed over.
func (b Body) Texts(key string) []string {
	texts := []string{}
	var list []json.RawMessage
	if raw := b.Get(key); raw != nil && json.Unmarshal(raw, &list) == nil {
		for _, one := range list {
			if s, err := Unquote(one); err == nil {
				texts = append(texts, s)
			}
		}
	}
	return texts
}

// Int returns the integer under key.
func (b Body) Int(key string) (int64, bool) {
	return ReadInt(b.Get(key))
}

// IntIn returns the integer under key if it is there and within the limits.
func (b Body) IntIn(key string, low, high int64) (int64, bool) {
	n, ok := b.Int(key)
	return n, ok && low <= n && n <= high
}
