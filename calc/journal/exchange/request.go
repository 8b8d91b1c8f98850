package exchange

import (
	"cmp"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// Request is what a phone posts.
type Request struct {
	Body string         `json:"body"` // "" if Skip says why nothing is to be sent
	Sent []string       `json:"sent"`
	Skip *problem.Error `json:"skip,omitempty"`
}

// NextRequest returns the request that a replica sends next. unsent are its
// records without n, rejected or not; now is its clock in ms.
func NextRequest(m Meta, unsent []event.Record, now int64) Request {
	if m.Stopped != nil {
		return Request{Sent: []string{}, Skip: m.Stopped}
	}
	head := RequestHead{Proto: Proto, Crew: m.Crew, Now: now, Gen: m.Gen, At: Mark{m.Cursor, m.Head}, ErasuresDigest: &m.ErasuresDigest}
	if m.wantsEarly() && !m.Rewinding {
		head.Early = &m.Early
	}
	var body []byte
	sent := []string{}
	switch {
	case m.Rewinding:
		head.Marks = append([]Mark{{}}, m.Marks...)
	case !m.PullOnly:
		for _, r := range oldestFirst(unsent) {
			if len(sent) == m.batch() || len(sent) > 0 && len(body)+len(r.Raw)+40 > MaxBody {
				break
			}
			body = AppendEvent(body, r.Raw, r.O)
			sent = append(sent, r.ID)
		}
	}
	head.Count = len(sent)
	return Request{Body: string(append(AppendRow(nil, head), body...)), Sent: sent}
}

// oldestFirst returns the records that are to be sent, in the order of their
// stamps, so that what is cut off by a limit is what was tapped last.
func oldestFirst(unsent []event.Record) []event.Record {
	list := make([]event.Record, 0, len(unsent))
	for _, r := range unsent {
		if r.Unsent == event.ToSend {
			list = append(list, r)
		}
	}
	order.Sort(list, func(a, b event.Record) int {
		return cmp.Or(cmp.Compare(a.T, b.T), cmp.Compare(a.ID, b.ID))
	})
	return list
}
