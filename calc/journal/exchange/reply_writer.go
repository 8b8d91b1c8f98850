package exchange

import "kerfside/calc/journal/event"

// ReplyWriter writes a reply row by row, with the marks where they belong.
type ReplyWriter struct {
	buf   []byte
	since int  // arrivals since the last mark
	last  Mark // of the last arrival
}

// NewReply begins a reply.
func NewReply(head ReplyHead) *ReplyWriter { return NewReplyIn(nil, head) }

// NewReplyIn begins a reply in the memory of buf, whose bytes are overwritten.
func NewReplyIn(buf []byte, head ReplyHead) *ReplyWriter {
	head.Proto = Proto
	return &ReplyWriter{buf: AppendRow(buf[:0], head)}
}

// Ack answers a pushed event.
func (w *ReplyWriter) Ack(a Ack) { w.buf = appendAck(w.buf, a) }

// Erased tells of an erased event that the phone may hold.
func (w *ReplyWriter) Erased(a Arrival) { w.buf = AppendArrival(w.buf, a) }

// Early adds an early arrival, of which the head has told.
func (w *ReplyWriter) Early(a Arrival) { w.buf = AppendArrival(w.buf, a) }

// Arrival adds an arrival and h, the chain at it.
func (w *ReplyWriter) Arrival(a Arrival, h event.Chain) {
	w.buf = AppendArrival(w.buf, a)
	w.last = Mark{a.N, h}
	if w.since++; w.since == MarkEvery {
		w.mark()
	}
}

// Bytes ends the page with a mark and returns the reply.
func (w *ReplyWriter) Bytes() []byte {
	if w.since > 0 {
		w.mark()
	}
	return w.buf
}

func (w *ReplyWriter) mark() {
	w.buf = AppendRow(w.buf, w.last)
	w.since = 0
}
