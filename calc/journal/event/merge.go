package event

import (
	"bytes"
	"encoding/base64"
	"slices"

	"kerfside/calc/order"
)

// Reenter returns raw as the event under which a phone enters its own again
// when the server holds other bytes under its id: the same bytes with id
// replaced by the first 22 characters of base64url(SHA-256(raw)). raw must be a
// well-formed event.
func Reenter(raw []byte) (id string, again []byte, err error) {
	o, err := ReadObject(raw)
	if err != nil {
		return "", nil, err
	}
	sum := SumOf(raw)
	id = base64.RawURLEncoding.EncodeToString(sum[:])[:idLength]
	for _, m := range o.Members {
		if m.Key == "id" {
			tail := raw[m.start+len(m.Value):]
			return id, slices.Concat(raw[:m.start], []byte(`"`+id+`"`), tail), nil
		}
	}
	return "", nil, Malformed("id", "the entry has no id")
}

// Union returns the events of a and b, each once, ordered by id. Where both
// hold an id with other bytes, the bytes that sort first keep it and the others
// are entered again, so that the result does not depend on which side is which.
// (Between a phone and the server the server's keep it; see Apply.)
func Union(a, b []Event) ([]Event, error) {
	held := map[string]Event{}
	queue := slices.Concat(a, b)
	for len(queue) > 0 {
		e := queue[0]
		queue = queue[1:]
		other, ok := held[e.ID]
		if !ok {
			held[e.ID] = e
			continue
		}
		order := bytes.Compare(e.Raw, other.Raw)
		if order == 0 {
			continue
		}
		if order < 0 {
			held[e.ID], e = e, other
		}
		_, raw, err := Reenter(e.Raw)
		if err != nil {
			return nil, err
		}
		again, err := Decode(raw)
		if err != nil {
			return nil, err
		}
		queue = append(queue, again)
	}
	union := make([]Event, 0, len(held))
	for _, e := range held {
		union = append(union, e)
	}
	order.Sort(union, func(x, y Event) int { return bytes.Compare([]byte(x.ID), []byte(y.ID)) })
	return union, nil
}
