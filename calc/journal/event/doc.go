// Package event holds what an event of the journal is: its bytes, its clock, its
// place in the order, its chain, and the declaration of each kind (kinds.go). It
// knows nothing of how events travel, nor of what they come to.
//
// The journal's specification is calc/journal/README.md and the pages beside it;
// event.md and kinds.md are about this package.
package event
