package event

import (
	"encoding/json"
	"fmt"
	"unicode/utf8"

	"kerfside/calc/problem"
)

// Event is one event, read. Raw is what is kept and passed on; the other fields
// are read from it. The format is in calc/journal/event.md.
type Event struct {
	ID         string
	T          Stamp
	Device     string
	Kind       string
	V          int64
	In         string          // "" if it belongs to no session
	About      string          // "" if it names no thing
	Supersedes string          // "" if it replaces nothing
	At         int64           // ms since 1970 UTC; 0 if it was entered as it happened
	Wall       json.RawMessage // [ms, minutes], or nil
	Body       json.RawMessage
	Raw        []byte
}

// Decode reads one event and checks its form, never its meaning: a kind that
// this version does not know is as good as any. Raw of the result is raw
// itself, not a copy. Errors are problems that name the key.
func Decode(raw []byte) (Event, error) {
	if len(raw) > MaxEvent {
		return Event{}, TooLong(len(raw))
	}
	if !utf8.Valid(raw) {
		return Event{}, Malformed("raw", "the entry is not UTF-8")
	}
	for _, c := range raw {
		if c < 0x20 {
			return Event{}, Malformed("raw", "the entry holds a control character outside a string's escapes")
		}
	}
	o, err := ReadObject(raw)
	if err != nil {
		return Event{}, Malformed("raw", err.Error())
	}
	if o.Twice != "" {
		return Event{}, Malformed("raw", fmt.Sprintf("the key %q stands twice", o.Twice))
	}
	if raw[0] != '{' || raw[len(raw)-1] != '}' {
		return Event{}, Malformed("raw", "there is space around the entry")
	}
	if o.depth > MaxDepth {
		return Event{}, problem.Newf(problem.Malformed, "raw", "the entry goes %d levels deep", o.depth).
			WithHint("At most %d.", MaxDepth)
	}
	e := Event{Raw: raw}
	for _, m := range o.Members {
		if err := e.read(m); err != nil {
			return Event{}, err
		}
	}
	if err := e.complete(); err != nil {
		return Event{}, err
	}
	return e, nil
}

// read takes one top-level key. Keys that it does not know are left alone.
func (e *Event) read(m Member) error {
	switch m.Key {
	case "id":
		s, _ := Unquote(m.Value)
		if !IsID(s) {
			return Malformed("id", "an id has 22 characters of base64url")
		}
		e.ID = s
	case "t":
		s, _ := Unquote(m.Value)
		t, err := ParseStamp(s)
		if err != nil || t == 0 { // no clock gives 0, see Next
			return Malformed("t", "a stamp has 16 lower-case hex digits, not all of them 0")
		}
		e.T = t
	case "device":
		return name(&e.Device, m)
	case "kind":
		return name(&e.Kind, m)
	case "in":
		return name(&e.In, m)
	case "about":
		return name(&e.About, m)
	case "over":
		return name(&e.Supersedes, m)
	case "v":
		n, ok := ReadInt(m.Value)
		if !ok || n < 1 || n > 1<<31 {
			return Malformed("v", "the version is a whole number from 1 up")
		}
		e.V = n
	case "at":
		n, ok := ReadInt(m.Value)
		if !ok || n < 1 || n > MaxMillis {
			return Malformed("at", "when it happened is a whole number of milliseconds since 1970")
		}
		e.At = n
	case "wall":
		var pair [2]int64
		if err := json.Unmarshal(m.Value, &pair); err != nil || m.Value[0] != '[' {
			return Malformed("wall", "wall is two whole numbers: ms and minutes from UTC")
		}
		e.Wall = m.Value
	case "body":
		if m.Value[0] != '{' {
			return Malformed("body", "the body is an object")
		}
		e.Body = m.Value
	}
	return nil
}

// complete says which required key is missing.
func (e *Event) complete() error {
	for _, need := range []struct {
		key  string
		here bool
	}{
		{"id", e.ID != ""}, {"t", e.T != 0}, {"device", e.Device != ""},
		{"kind", e.Kind != ""}, {"v", e.V != 0}, {"body", e.Body != nil},
	} {
		if !need.here {
			return Malformed(need.key, "the entry has no "+need.key)
		}
	}
	return nil
}

// name reads the id of a thing, a device or a kind.
func name(to *string, m Member) error {
	s, err := Unquote(m.Value)
	if err != nil || !IsName(s) {
		return Malformed(m.Key, m.Key+" has 1 to 64 letters, digits, dots, dashes or underscores")
	}
	*to = s
	return nil
}
