// Package exchange is how a phone and a server bring their journals together: the
// lines of a request and of a reply, what a server reads and writes of them, and
// what a reply changes on the phone. It holds the state machine of the sync and
// does no I/O: its input is what was stored and what came, its output what is to be
// stored and sent. The
// specification is calc/journal/protocol.md, exchange.md and states.md.
package exchange
