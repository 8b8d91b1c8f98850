// Package load lets many devices of one crew work on a server at once, as fast
// as it answers, and counts what was done and how long each device waited. It
// runs in another process than the server that it measures.
//
// Two kinds of server can be loaded with the same events: a Kerfside, and a
// general-purpose document-sync server for scale.
//
// A batch whose answer was lost is sent again until it is acknowledged, as a
// phone does, so that a server may be killed under load and what it holds
// afterwards still be compared with what it acknowledged, entry by entry.
package load
