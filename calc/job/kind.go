package job

import "kerfside/calc/unit"

// Kind is what the hands do.
type Kind int

const (
	Cutting Kind = iota
	WaitAir
	Cooling
	Marking
	Moving
	Parts
	Drain
	Inspect
	Gate
	Watch
	kinds // how many there are
)

// words of the kinds on the wire.
var words = [kinds]string{"cutting", "air", "cooling", "marking", "moving", "parts", "drain", "inspection", "gate", "watch"}

// Word is the kind on the wire.
func (k Kind) Word() string { return words[k] }

var told = [kinds]string{"the arc", "waiting for air", "cooling the machine", "marking out", "moving", "changing parts", "draining the trap", "looking at the parts", "May I cut", "the fire watch"}

// Says is the kind as people are told it.
func (k Kind) Says() string { return told[k] }

// Span is a while in which the hands do one thing.
type Span struct {
	Kind     Kind
	Row      int // of the cut list, from 0; -1 before the first
	From     unit.Duration
	Lasts    unit.Duration
	Pressure unit.Pressure // gauge, in the tank at its end; 0 if the air is not known
}
