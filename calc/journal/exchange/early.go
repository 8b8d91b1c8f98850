package exchange

import (
	"strconv"

	"kerfside/calc/journal/event"
)

// A phone that is new to a long journal asks for early arrivals: some of the newest
// and what is old and still counts, before it takes in all from the first on. They
// are records with a number above the cursor, as its own are that the server has
// just acknowledged, and are settled like those when the cursor gets there.

// EarlyHead is the part of a reply's head that tells of early arrivals.
type EarlyHead struct {
	Next  string      `json:"next"`  // what to ask with next
	Count int         `json:"count"` // lines of them before the arrivals after the cursor
	H     event.Chain `json:"h"`     // the chain over them alone
}

// NextEarly returns the chain over early arrivals after one more: that of the arrivals,
// with the number before the id, since nothing else vouches for it.
//
//	h' = SHA-256(h ‖ n ‖ "." ‖ id ‖ o ‖ sum)[:16]   n in decimal
func NextEarly(c event.Chain, a Arrival) event.Chain {
	return c.Next(strconv.FormatInt(a.N, 10)+"."+a.ID, a.O, a.Sum)
}

// noEarly is Meta.Early of a phone that asks for no early arrivals any more.
const noEarly = "-"

// wantsEarly reports whether the next request asks for early arrivals: at the very
// beginning, and from then on until the phone has all that was there when it began.
func (m *Meta) wantsEarly() bool {
	switch m.Early {
	case noEarly:
		return false
	case "":
		return m.Cursor == 0 && m.Gen == 0
	}
	return m.EarlyEnd > 0
}

// noteEarlyEnd keeps Coming right after a reply that said where the journal ends. was
// is what meta was before.
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
	advanced bool // it led on
}

// isOpen reports whether lines of it are still to come.
func (e *earlyPage) isOpen() bool { return len(e.arrivals) < e.Count }

// expectEarly notes what the head says of early arrivals. A server that says
// nothing of them, though it was asked, has none for this phone; one that does not
// say how to go on, or says it in the phone's own word, is not asked again.
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

// addEarly takes an early arrival in. They are applied when all are there and fit
// the chain: of a reply that was cut or damaged they come again.
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
