package exchange

import (
	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// Change is what an exchange has the replica write: in one transaction, in the order of
// the fields, and only if cursor, gen and revision are still those of the exchange.
type Change struct {
	Meta     Meta            `json:"meta"`
	Forget   *int64          `json:"forget,omitempty"`
	Put      []event.Record  `json:"put,omitempty"`
	Ack      []Ack           `json:"ack,omitempty"`
	Unsend   []string        `json:"unsend,omitempty"`
	Rejected []RejectedEvent `json:"aside,omitempty"`
	Drop     []string        `json:"drop,omitempty"` // sha256 of pictures that were erased
	Again    bool            `json:"again"`
	WaitMs   int64           `json:"waitMs"`
	Say      *problem.Error  `json:"say"`
	In       int             `json:"in"`
	Out      int             `json:"out"`
}

// RejectedEvent is an event that the server would not take. The phone puts it aside: it
// is kept and folded, and sent again after an update of the app.
type RejectedEvent struct {
	ID    string         `json:"id"`
	Error *problem.Error `json:"error"`
}

// failed counts a failure; nothing else changes.
func (c Change) failed(say *problem.Error) Change {
	c.Meta.Failures++
	c.Say, c.WaitMs = say, c.Meta.pause()
	return c
}

// refused answers a refusal of the request as it was: the next one is half as long. A
// request of one event has found the one that is to blame, and it is rejected.
func (c Change) refused(x Exchange, e *problem.Error) Change {
	if len(x.Sent) == 0 || e.Field == "head" {
		return c.failed(e)
	}
	if len(x.Sent) > 1 {
		c.Meta.Batch = len(x.Sent) / 2
		if e.Kind == problem.Cut {
			return c.failed(nil)
		}
		c.Again = true
		return c
	}
	if c.Meta.Truncations++; e.Kind == problem.Cut && c.Meta.Truncations < truncationLimit {
		return c.failed(nil)
	}
	c.Meta.Truncations = 0
	c.Rejected = []RejectedEvent{{x.Sent[0], e}}
	c.Again, c.Say = true, e
	return c
}
