package exchange

import (
	"encoding/json"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// Exchange is a request with what the replica held when it was made, read in one
// transaction, and the reply to it.
type Exchange struct {
	Meta       Meta           `json:"meta"`
	Unsent     []event.Record `json:"unsent"`   // records without n, rejected or not
	Promised   []Promise      `json:"promised"` // records with n above the cursor
	Sent       []string       `json:"sent"`     // ids of the request's events
	Status     int            `json:"status"`   // HTTP status, 0 if no reply came
	Timeout    bool           `json:"timeout"`  // no reply came in time
	RetryAfter int            `json:"retryAfter"`
	Reply      string         `json:"reply"`
	SentAt     int64          `json:"sentAt"` // ms on the phone's clock
	GotAt      int64          `json:"gotAt"`
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
