package job

import (
	"kerfside/calc/life"
	"kerfside/calc/money"
	"kerfside/calc/site"
	"kerfside/calc/unit"
)

// Cut is a row of the cut list.
type Cut struct {
	Name   string
	Place  site.Input // with the plan of this row; Share and Longest are filled in here
	Length unit.Length
	Count  int // pieces
	Runs   int // of a piece, from arc on to arc off: equal parts of its length

	Refused error // what is wrong with the row itself; the others are still planned
}

// Wearing is tip or electrode in the torch when the job begins.
type Wearing struct {
	Model         *life.Model // nil if nothing is reckoned of it
	Age           life.Use
	Stock         int          // spares on hand
	Counted       bool         // Stock was entered
	Fitted, Fresh *life.Fitted // of Model, with that age and as new
}

// Input is a job.
type Input struct {
	Cuts    []Cut
	Times   Times
	Own     Own
	Marking Order
	Every   unit.Duration // of arc between two drains of the trap; 0 for never
	Trap    unit.Duration // of arc since the last
	Parts   [2]Wearing    // tip, electrode
	Level   unit.Ratio    // chance with which spares shall be enough

	Done   []Done
	Learnt Learnt // from Done; filled in here

	Window    unit.Duration // that there is; 0 if not asked, below 0 once it is over
	WithWatch bool          // the window is for all of it, the fire watch too
	Prices    money.JobInput
	Fuel      unit.Flow // that the generator burns; 0 if there is none
}

// Own is how many of the crew's own each time of the hand rests on.
type Own struct{ Mark, Row, Move, Change, Drain int }

// Band is a figure with the range in which it lies 9 times in 10.
type Band[M ~float64] struct{ Low, About, High M }

// sortEnds puts the k lowest values first and the k highest last, both sorted, as far as
// a range looks: that takes one look at most values.
func sortEnds(values []float64, k int) {
	for i, v := range values {
		if i >= k && v >= values[k-1] {
			continue
		}
		at := min(i, k-1)
		values[i] = values[at]
		for ; at > 0 && v < values[at-1]; at-- {
			values[at] = values[at-1]
		}
		values[at] = v
	}
	last := len(values) - 1
	for i := last; i >= k; i-- {
		v, top := values[i], len(values)-k
		if i < top && v <= values[top] {
			continue
		}
		at := max(i, top)
		values[i] = values[at]
		for ; at < last && v > values[at+1]; at++ {
			values[at] = values[at+1]
		}
		values[at] = v
	}
}

// quantile of values sorted there, between two of them on a straight line.
func quantile(sorted []float64, p float64) float64 {
	at := p*float64(len(sorted)) - 0.5
	i := max(0, min(int(at), len(sorted)-2))
	share := max(0, min(1, at-float64(i)))
	return sorted[i]*(1-share) + sorted[i+1]*share
}
