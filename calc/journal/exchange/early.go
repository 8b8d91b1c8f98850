package exchange

import (
	"strconv"

	"kerfside/calc/journal/event"
)

// A phone that is new to a long journal asks for early arrivals, before it takes in all
// from the first on: some of the newest, and what is old and still counts. The phone
// keeps them as records with a number above the cursor. Its own events are such records
// too, once the server has acknowledged them. Both kinds are settled when the cursor
// gets there.

// EarlyHead is the part of a reply's head that tells of early arrivals.
type EarlyHead struct {
	Next  string      `json:"next"`  // what to ask with next
	Count int         `json:"count"` // rows of them before the arrivals after the cursor
	H     event.Chain `json:"h"`     // the chain over them alone
}

// NextEarly returns the chain over early arrivals after one more. It is made like that of
// the arrivals, but with the number before the id: nothing else vouches for the number.
//
//	h' = SHA-256(h ‖ n ‖ "." ‖ id ‖ o ‖ sum)[:16]   n in decimal
func NextEarly(c event.Chain, a Arrival) event.Chain {
	return c.Next(strconv.FormatInt(a.N, 10)+"."+a.ID, a.O, a.Sum)
}

// noEarly is Meta.Early of a phone that asks for no early arrivals any more.
const noEarly = "-"

// wantsEarly reports whether the next request asks for early arrivals. It does at the
// very beginning, and then until the phone has all that was there when it began.
func (m *Meta) wantsEarly() bool {
	switch m.Early {
	case noEarly:
		return false
	case "":
		return m.Cursor == 0 && m.Gen == 0
	}
	return m.EarlyEnd > 0
}

// noteEarlyEnd keeps EarlyEnd right after a reply that said where the journal ends. was
// is what meta was before it.
func (m *Meta) noteEarlyEnd(was Meta, end int64) {
	if was.Cursor == 0 && was.Gen == 0 && was.Early == "" {
		m.EarlyEnd = end
	}
	m.EarlyEnd = min(m.EarlyEnd, end) // a restored server has less
	if m.Cursor >= m.EarlyEnd {
		m.EarlyEnd = 0
	}
}

// earlyPage are the early arrivals of a reply while they are read.
type earlyPage struct {
	EarlyHead
	arrivals []pending
	chain    event.Chain
	advanced bool // the phone is to ask with another Next than before
}

// isOpen reports whether rows of it are still to come.
func (e *earlyPage) isOpen() bool { return len(e.arrivals) < e.Count }

// expectEarly notes what the head says of early arrivals. A server that was asked and
// says nothing of them has none for this phone. One that does not say how to go on, or
// says it in the phone's own word, is not asked again.
func (r *replyReader) expectEarly(head ReplyHead) {
	if !r.x.Meta.wantsEarly() {
		return
	}
	if head.Early == nil || head.Early.Next == "" || head.Early.Next == noEarly {
		r.change.Meta.Early = noEarly
		return
	}
	r.early.EarlyHead = *head.Early
	if !r.early.isOpen() {
		r.endEarly()
	}
}

func (r *replyReader) endEarly() {
	r.early.advanced = r.early.Next != r.x.Meta.Early
	r.change.Meta.Early = r.early.Next
}

// addEarly takes an early arrival in. All are applied at once, when the last is here and
// they fit the chain. Those of a reply that was cut or damaged come again.
func (r *replyReader) addEarly(a pending) bool {
	e := &r.early
	e.arrivals, e.chain = append(e.arrivals, a), NextEarly(e.chain, Arrival{N: a.N, ID: a.ID, O: *a.O, Sum: a.sum})
	if e.isOpen() {
		return true
	}
	if e.chain != e.H {
		return false
	}
	for _, a := range e.arrivals {
		r.apply(a)
	}
	r.endEarly()
	return true
}
