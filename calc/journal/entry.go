package journal

import "encoding/json"

// entry is an event as the fold takes it: with its amendments laid over it.
type entry struct {
	*fact
	place   Place
	raw     json.RawMessage // the body with amendments
	body    body            // raw, read
	hidden  bool
	odd     bool // known kind, but not countable
	retold  bool // at says when it happened
	history []Revision
	checks  []Warning
}

// Warning says what a person should look at.
type Warning struct {
	What string `json:"what"`
	ID   string `json:"id"`
	Msg  string `json:"msg"`
}

// when is when it happened, in ms.
func (e *entry) when() int64 { return e.place.When.Ms() }

func (e *entry) warn(what, msg string) {
	e.checks = append(e.checks, Warning{what, e.id, msg})
}

// byPlace orders entries by when they happened.
func byPlace(a, b *entry) int { return a.place.Compare(b.place) }

// standing returns the entries that are not hidden.
func standing(list []*entry) []*entry {
	kept := make([]*entry, 0, len(list))
	for _, e := range list {
		if !e.hidden {
			kept = append(kept, e)
		}
	}
	return kept
}
