// Package engine answers the calls that a phone's worker makes: it keeps the fold of
// the phone's journal, prepares and reads the sync, and exports and imports events.
// It is what cmd/wasm puts on the phone; a server needs none of it. The calls are in
// calc/journal/engine.md.
package engine
