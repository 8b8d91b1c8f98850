package exchange

import (
	"encoding/json"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// Exchange is what a replica sent, all read in one transaction, and what came
// back for it.
type Exchange struct {
	Meta       Meta           `json:"meta"`
	Unsent     []event.Record `json:"unsent"`   // records without n, put aside or not
	Promised   []Promise      `json:"promised"` // records with n above the cursor
	Sent       []string       `json:"sent"`     // ids of the request's events
	Status     int            `json:"status"`   // HTTP status, 0 if no reply came
	Timeout    bool           `json:"timeout"`  // no reply came in time
	RetryAfter int            `json:"retryAfter"`
	Reply      string         `json:"reply"`
	SentAt     int64          `json:"sentAt"` // ms on the phone's clock
	GotAt      int64          `json:"gotAt"`
}

// Change is what is to be written for it, in one transaction and in the order
// of the fields, if cursor, gen and turn are still those of the exchange.
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

// RejectedEvent is an event that the server would not have.
type RejectedEvent struct {
	ID    string         `json:"id"`
	Error *problem.Error `json:"error"`
}

// Apply returns what a reply changes in the replica.
func Apply(x Exchange) Change {
	x.Meta.Revision++
	c := x.apply()
	if c.Meta.Marks == nil {
		c.Meta.Marks = []Mark{} // null would be no list to the phone
	}
	if c.Meta.Rewinds == nil {
		c.Meta.Rewinds = []int64{}
	}
	return c
}

func (x Exchange) apply() Change {
	if x.Status == 200 {
		return applyReply(x)
	}
	c := Change{Meta: x.Meta}
	c.Meta.RetryAfter = 0
	if x.Status == 0 {
		if x.Timeout {
			c.Meta.Batch = max(1, c.Meta.batch()/2)
		}
		return c.failed(nil)
	}
	var e problem.Envelope
	if err := json.Unmarshal([]byte(x.Reply), &e); err != nil || e.Error == nil || e.Error.Kind == "" {
		if x.Status == 413 { // a proxy in between has a limit of its own
			return c.refused(x, problem.New(problem.TooLarge, "", "the request was too large", "Kerfside sends smaller ones now."))
		}
		return c.failed(problem.Newf(problem.Busy, "", "the server answered with status %d", x.Status).
			WithHint("Kerfside tries again by itself."))
	}
	c.Meta.RetryAfter = max(0, x.RetryAfter, e.Error.Retry)
	switch e.Error.Kind {
	case problem.Malformed, problem.TooLarge, problem.Cut:
		return c.refused(x, e.Error)
	case problem.Rewound:
		return c.rewound()
	case problem.DiskFull, problem.SlowDown: // entries wait here, others' still come
		c.Meta.PullOnly = true
	}
	return c.failed(e.Error)
}

// failed counts a failure; nothing else changes.
func (c Change) failed(say *problem.Error) Change {
	c.Meta.Failures++
	c.Say, c.WaitMs = say, c.Meta.pause()
	return c
}

// refused is the answer to a request that the server would not take as it was:
// halve it, down to the one event that is to blame, and put that one aside.
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

// rewound makes the next request carry the marks.
func (c Change) rewound() Change {
	if c.Meta.Rewinding { // answered with marks in hand: the server contradicts itself
		return c.failed(nil)
	}
	c.Meta.Rewinding, c.Again = true, true
	return c
}

// rewind takes the replica back to m, the last mark that it has in common with
// the server. What has no n then is offered again, other phones' events too.
func (c Change) rewind(m Mark, now int64) Change {
	if m != (Mark{}) && !holds(c.Meta.Marks, m) {
		return c.failed(nil)
	}
	c.Meta.Rewinding = false
	c.Meta.Cursor, c.Meta.Head = m.N, m.H
	c.Meta.Marks = append([]Mark(nil), UpTo(c.Meta.Marks, m.N)...)
	c.Meta.Gen++
	c.Meta.PullOnly = false
	var recent []int64
	for _, at := range c.Meta.Rewinds {
		if at <= now && now-at < rewindWindow {
			recent = append(recent, at)
		}
	}
	c.Meta.Rewinds = append(recent, now)
	c.Forget, c.Again = &m.N, true
	if len(c.Meta.Rewinds) >= rewindLimit {
		c.Meta.Stopped = problem.New(problem.Rewound, "", "two servers seem to share this name: the history changed three times within an hour",
			"Nothing is lost. Have one of them taken off, then start the sync again.")
		c.Say, c.Again = c.Meta.Stopped, false
	}
	return c
}

// holds reports whether m is one of marks.
func holds(marks []Mark, m Mark) bool {
	for _, o := range marks {
		if o == m {
			return true
		}
	}
	return false
}
