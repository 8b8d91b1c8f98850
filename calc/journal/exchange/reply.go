package exchange

import (
	"encoding/json"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// replyReader is the state of taking in a reply line by line.
type replyReader struct {
	x            Exchange
	change       Change
	unsent       map[string]event.Record
	sent         map[string]bool
	pending      []pending        // arrivals since the last mark
	at           Mark             // after pending
	appliedAt    map[int64]string // n → id of what was applied
	applied      map[string]bool  // ids of what was applied
	acked        map[string]Ack
	reentered    map[string]bool // ids whose bytes here were entered again
	erasuresRead int             // erasures that were read
	erasuresTold int             // of so many
	early        earlyPage
}

// pending is an arrival that waits for its mark.
type pending struct {
	event.Record
	sum   event.Sum
	photo string // erased with it
}

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
	c.Meta.Max, c.Meta.BackedUp, c.Meta.SameDisk, c.Meta.Heard = head.Max, head.BackedUp, head.SameDisk, head.Now
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

// readRow takes one line in; false ends the reading.
func (r *replyReader) readRow(text []byte) bool {
	var l replyRow
	if json.Unmarshal(text, &l) != nil {
		return false
	}
	switch {
	case l.H != nil:
		return r.mark(Mark{l.N, *l.H})
	case l.Raw != nil && l.O != nil:
		id, t, ok := identify(l.Raw)
		a := pending{Record: event.Record{ID: id, Raw: string(l.Raw), T: t, O: l.O, N: l.N}, sum: event.SumOf(l.Raw)}
		if !ok {
			return false
		}
		if l.Erased && l.Sum != nil {
			if a.sum, a.photo = *l.Sum, l.Photo; r.erasuresRead < r.erasuresTold {
				r.erased(a.Record, a.sum, a.photo)
				return true
			}
		}
		return r.arrival(a)
	case l.Sum != nil && l.O != nil:
		u, ok := r.unsent[l.ID]
		return ok && event.SumOf([]byte(u.Raw)) == *l.Sum &&
			r.arrival(pending{Record: event.Record{ID: u.ID, Raw: u.Raw, T: u.T, O: l.O, N: l.N}, sum: *l.Sum})
	case l.O != nil && r.sent[l.ID] && l.N > 0:
		r.ack(Ack{l.ID, l.N, *l.O, l.Conflict})
	}
	return true
}

// ack takes the answer to a pushed event in.
func (r *replyReader) ack(a Ack) {
	r.change.Out++
	if !a.Conflict {
		r.change.Meta.MaxO = max(r.change.Meta.MaxO, a.O)
		r.acked[a.ID] = a
		return
	}
	r.enterAgain(a.ID)
	if a.N <= r.x.Meta.Cursor {
		// The server's bytes passed by long ago and are not here (a phone restored
		// from a copy): pull again from the mark before them.
		marks := UpTo(r.change.Meta.Marks, a.N-1)
		back := Mark{}
		if len(marks) > 0 {
			back = marks[len(marks)-1]
		}
		if back.N < r.change.Meta.Cursor {
			r.change.Meta.Marks = append([]Mark(nil), marks...)
			r.change.Meta.Cursor, r.change.Meta.Head = back.N, back.H
			r.at, r.pending = Mark{-1, event.Chain{}}, nil // this page does not join on any more
		}
	}
}

// enterAgain puts the phone's own bytes under their new id.
func (r *replyReader) enterAgain(id string) {
	u, ok := r.unsent[id]
	if !ok || r.reentered[id] {
		return
	}
	r.reentered[id] = true
	fresh, raw, err := event.Reenter([]byte(u.Raw))
	if err != nil {
		return // not well formed, so never entered here
	}
	r.change.Put = append(r.change.Put, event.Record{ID: fresh, Raw: string(raw), T: u.T})
}

// arrival takes an arrival in, to be applied at the next mark. A gap means that
// the two histories do not join: the marks will tell where they do.
func (r *replyReader) arrival(a pending) bool {
	if r.early.isOpen() {
		return r.addEarly(a)
	}
	if r.at.N < 0 {
		return true
	}
	if a.N != r.at.N+1 {
		r.change.Meta.Rewinding = true
		return false
	}
	r.pending = append(r.pending, a)
	r.at = Mark{a.N, r.at.H.Next(a.ID, *a.O, a.sum)}
	return true
}

// mark applies what is pending if the chain fits.
func (r *replyReader) mark(m Mark) bool {
	if r.at.N < 0 {
		return true
	}
	if m != r.at {
		return false
	}
	for _, a := range r.pending {
		r.apply(a)
		r.appliedAt[a.N] = a.ID
	}
	r.pending = nil
	r.change.Meta.Cursor, r.change.Meta.Head = m.N, m.H
	r.change.Meta.Marks = Remember(r.change.Meta.Marks, m)
	return true
}

// apply puts an arrival into the store.
func (r *replyReader) apply(a pending) {
	r.replaced(a.Record, a.sum)
	r.dropPhoto(a.photo)
	r.change.Put = append(r.change.Put, a.Record)
	delete(r.acked, a.ID)
	r.applied[a.ID] = true
	r.change.Meta.MaxO = max(r.change.Meta.MaxO, *a.O)
	r.change.In++
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

// identify returns the id and the stamp of an event that a server passed on. It
// asks for less than Decode, since a newer server may take what this version
// would not.
func identify(raw []byte) (id string, t event.Stamp, ok bool) {
	o, err := event.ReadObject(raw)
	if err != nil {
		return "", 0, false
	}
	for _, m := range o.Members {
		switch s, _ := event.Unquote(m.Value); m.Key {
		case "id":
			id = s
		case "t":
			t, _ = event.ParseStamp(s)
		}
	}
	return id, t, event.IsID(id)
}
