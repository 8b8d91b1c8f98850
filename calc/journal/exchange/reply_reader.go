package exchange

import (
	"encoding/json"

	"kerfside/calc/journal/event"
)

// replyReader takes in a reply row by row.
type replyReader struct {
	x            Exchange
	change       Change
	unsent       map[string]event.Record // by id
	sent         map[string]bool         // by id
	pending      []pending               // arrivals since the last mark
	at           Mark                    // after pending; n -1 if the page does not join on
	appliedAt    map[int64]string        // n → id of what was applied
	applied      map[string]bool         // by id
	acked        map[string]Ack          // by id
	reentered    map[string]bool         // ids whose bytes here were entered again
	erasuresRead int                     // how many erasures were read
	erasuresTold int                     // how many the head told of
	early        earlyPage
}

// pending is an arrival that waits for its mark.
type pending struct {
	event.Record
	sum   event.Sum
	photo string // erased with it
}

// readRow takes in one row; false ends the reading.
func (r *replyReader) readRow(text []byte) bool {
	var l replyRow
	if json.Unmarshal(text, &l) != nil {
		return false
	}
	switch {
	case l.H != nil:
		return r.applyMark(Mark{l.N, *l.H})
	case l.Raw != nil && l.O != nil:
		id, t, ok := identify(l.Raw)
		a := pending{Record: event.Record{ID: id, Raw: string(l.Raw), T: t, O: l.O, N: l.N}, sum: event.SumOf(l.Raw)}
		if !ok {
			return false
		}
		if l.Erased && l.Sum != nil {
			if a.sum, a.photo = *l.Sum, l.Photo; r.erasuresRead < r.erasuresTold {
				r.applyErasure(a.Record, a.sum, a.photo)
				return true
			}
		}
		return r.addArrival(a)
	case l.Sum != nil && l.O != nil:
		u, ok := r.unsent[l.ID]
		return ok && event.SumOf([]byte(u.Raw)) == *l.Sum &&
			r.addArrival(pending{Record: event.Record{ID: u.ID, Raw: u.Raw, T: u.T, O: l.O, N: l.N}, sum: *l.Sum})
	case l.O != nil && r.sent[l.ID] && l.N > 0:
		r.addAck(Ack{ID: l.ID, N: l.N, O: *l.O, Conflict: l.Conflict})
	}
	return true
}

// addAck takes the answer to a pushed event in.
func (r *replyReader) addAck(a Ack) {
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

// addArrival takes an arrival in, to be applied at the next mark. A gap means that
// the two histories do not join: the marks will tell where they do.
func (r *replyReader) addArrival(a pending) bool {
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

// applyMark applies what is pending if the chain fits.
func (r *replyReader) applyMark(m Mark) bool {
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

// apply has an arrival stored.
func (r *replyReader) apply(a pending) {
	r.reenterReplaced(a.Record, a.sum)
	r.dropPhoto(a.photo)
	r.change.Put = append(r.change.Put, a.Record)
	delete(r.acked, a.ID)
	r.applied[a.ID] = true
	r.change.Meta.MaxO = max(r.change.Meta.MaxO, *a.O)
	r.change.In++
}
