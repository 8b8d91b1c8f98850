package exchange

import (
	"encoding/json"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// applyReply applies a reply with status 200. Arrivals count only up to the last
// mark that fits the chain: what follows it may have been cut or damaged on its
// way and comes again.
func applyReply(x Exchange) Change {
	c := Change{Meta: x.Meta}
	c.Meta.RetryAfter = 0
	list := splitRows([]byte(x.Reply))
	var head ReplyHead
	if len(list) == 0 || json.Unmarshal(list[0], &head) != nil || head.Proto == 0 || head.Now == 0 {
		return c.failed(problem.New(problem.Busy, "", "what answered is not a Kerfside server",
			"If this network asks you to sign in, do that first."))
	}
	if head.Proto != Proto {
		return c.failed(problem.Newf(problem.OldApp, "", "the server speaks version %d of the sync, this app %d", head.Proto, Proto).
			WithHint("Update the app; what you enter is kept meanwhile."))
	}
	if c.Meta.Crew != "" && head.Crew != c.Meta.Crew {
		return c.failed(problem.New(problem.WrongCrew, "", "this server answers for another crew",
			"What you enter stays on this phone. Check the address."))
	}
	c.Meta.Crew = head.Crew
	c.Meta.Max, c.Meta.BackedUp, c.Meta.SameDisk, c.Meta.LastReply = head.Max, head.BackedUp, head.SameDisk, head.Now
	if x.GotAt >= x.SentAt && x.SentAt > 0 {
		c.Meta.Offset = head.Now - (x.SentAt + (x.GotAt-x.SentAt)/2)
	}
	if x.Meta.Rewinding {
		if head.Rewound == nil {
			return c.failed(nil)
		}
		return c.rewind(*head.Rewound, head.Now)
	}
	r := replyReader{x: x, change: c, unsent: map[string]event.Record{}, sent: map[string]bool{},
		at: Mark{x.Meta.Cursor, x.Meta.Head}, appliedAt: map[int64]string{}, applied: map[string]bool{}, acked: map[string]Ack{}, reentered: map[string]bool{}, erasuresTold: head.Erasures}
	for _, u := range x.Unsent {
		r.unsent[u.ID] = u
	}
	for _, id := range x.Sent {
		r.sent[id] = true
	}
	r.expectEarly(head)
	for _, text := range list[1:] {
		if !r.readRow(text) {
			break
		}
	}
	return r.finish(head)
}

// finish drops the promises that the server did not keep and says how to go on.
func (r *replyReader) finish(head ReplyHead) Change {
	c := r.change
	for _, id := range r.x.Sent { // in a fixed order, not that of a map
		if a, ok := r.acked[id]; ok && !r.reentered[id] {
			c.Ack = append(c.Ack, a)
		}
	}
	for _, p := range r.x.Promised {
		other, came := r.appliedAt[p.N]
		switch {
		case p.N > head.Max:
			end := max(head.Max, r.x.Meta.Cursor)
			c.Forget = &end
		case !r.applied[p.ID] && came && other != p.ID:
			c.Unsend = append(c.Unsend, p.ID)
		}
	}
	broken := len(c.Unsend) > 0 || c.Forget != nil
	c.Unsend = append(c.Unsend, head.Resend...)
	if r.erasuresRead == r.erasuresTold {
		c.Meta.ErasuresDigest = head.ErasuresDigest
	}
	c.Meta.noteEarlyEnd(r.x.Meta, head.Max)
	progress := len(c.Put)+len(c.Ack)+len(c.Unsend) > 0 || broken || c.Meta.Cursor != r.x.Meta.Cursor || r.early.advanced
	switch {
	case c.Meta.Rewinding:
		c.Again = true
		return c
	case !progress && (len(r.x.Sent) > 0 || c.Meta.Cursor < head.Max):
		return c.failed(nil)
	}
	c.Meta.Failures, c.Meta.Truncations = 0, 0
	if len(r.x.Sent) > 0 {
		c.Meta.Batch = min(MaxPush, c.Meta.batch()*2)
	}
	c.Meta.PullOnly = false
	waiting := len(oldestFirst(r.x.Unsent)) - r.change.Out
	c.Again = waiting > 0 || broken || len(r.reentered) > 0 || c.Meta.Cursor < head.Max
	return c
}
