package layout

import (
	"fmt"
	"slices"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// ReleaseInput is a piece that lies, hangs or is fastened along one line, from its left
// end at 0, and the cuts by which it is let go.
type ReleaseInput struct {
	Length  unit.Length
	Weight  unit.Mass   // all of it, lumps too
	Balance unit.Length // its balance point from the left end, without the lumps; 0 for the middle
	Across  unit.Length // how far the balance point lies off the line, without the lumps
	Lumps   []Lump
	Holds   []Hold
	Cuts    []LetGo
	Hook    *Hook // that all straps hang from; nil where each has a point of its own
}

// Lump is a weight on one spot: a bracket, a motor, mud.
type Lump struct {
	At, Across unit.Length
	Weight     unit.Mass
}

// What a hold can do.
const (
	Stand   = "stand"    // bears from below and no more
	Strap   = "strap"    // pulls from above and no more
	Clamp   = "clamp"    // and nobody knows how much it holds
	Weld    = "weld"     // a weld, a tack or a bolt that is still there, and nobody knows how much it holds
	BuiltIn = "built-in" // the wall, the post, the frame: what is on it stays
)

// Hold is one thing that holds the piece.
type Hold struct {
	Name       string
	Kind       string
	At, Across unit.Length
	Angle      unit.Angle // of a strap, from the horizontal; 90° straight up
	Rated      unit.Mass  // 0 where nobody says
}

// Hook is where all straps meet.
type Hook struct {
	At     unit.Length // along the piece
	Height unit.Length // above what the straps hold
}

// LetGo is one cut: through the piece, or of a hold.
type LetGo struct {
	Name  string
	Holds int         // the hold that it cuts free, from 1 on; 0 for a cut through the piece
	At    unit.Length // of a cut through
	Drops string      // which piece beside a cut through may drop: "left", "right", or "nothing"
}

// Fate is what becomes of a body.
type Fate string

const (
	Stays   Fate = "stays"   // on what it is built into
	Held    Fate = "held"    // statics say so
	Dropped Fate = "drops"   // as it may
	Edge    Fate = "edge"    // held, but so near to tipping that nobody can say
	Unknown Fate = "unknown" // only a weld or a clamp holds it
	Dragged Fate = "dragged" // borne up, but a strap that leans pulls it sideways
	Over    Fate = "over"    // a hold may carry more than it is rated for
	Swings  Fate = "swings"
	Tips    Fate = "tips"
	Falls   Fate = "falls"
)

// rank orders fates by how bad they are. Those of rank 0 are what is wanted.
func (f Fate) rank() int {
	switch f {
	case Stays, Held, Dropped:
		return 0
	case Edge:
		return 1
	case Unknown, Dragged:
		return 2
	case Over:
		return 3
	}
	return 4
}

// Body is one piece of what is left, in one state.
type Body struct {
	From, To unit.Length
	Weight   unit.Mass
	At       unit.Length // its balance point
	Fate     Fate
	Clear    unit.Length // from its balance point to where it would tip; negative past that
	Tilt     unit.Angle  // at most, once it has swung below a hook; 0 where a strap goes slack
	Carry    []Carry
}

// Carry is what one hold carries of a body. Low and High are one where statics say it.
type Carry struct {
	Hold      int // from 0 on
	Low, High unit.Mass
	Pull      unit.Mass // along a strap that leans, at most
}

// State is all that is left after some of the cuts.
type State struct {
	Cut    int // that led to it, from 0 on; -1 before the first
	Bodies []Body
}

// Worst is the fate of the body that is off worst, and which.
func (s State) Worst() (Fate, Body) {
	worst := s.Bodies[0]
	for _, b := range s.Bodies[1:] {
		if b.Fate.rank() > worst.Fate.rank() {
			worst = b
		}
	}
	return worst.Fate, worst
}

// ReleaseResult tells of the order that was given and of the best one.
type ReleaseResult struct {
	Given []State // from before the first cut on
	Best  []State
	Order []int // of the best: cuts from 0 on
	Same  bool  // the given order is the best
	Peak  unit.Mass
	At    int // the hold that carries Peak in the best order, from 0 on; -1 for none
}

// Limits of the sum, each common practice with no published source.
const (
	mostHolds, mostCutsFree = 8, 6

	// A balance point that is reckoned from a tape and an even weight may lie a twentieth
	// of the body off, and never less than two fingers.
	balanceDoubt = 0.05
	leastDoubt   = 20 * unit.Millimetre

	// leastAngle is that of a strap: below it the pull doubles and goes on from there.
	leastAngle = 30 * unit.Degree

	// plumbFrom is where a strap counts as upright: up to 5° off is, by the definitions of
	// 29 CFR 1910.184.
	plumbFrom = 85 * unit.Degree
)

// ComputeRelease follows a piece through its cuts, in the order given and in every
// other, and picks the best: the one whose worst state is least bad, then the one whose
// holds carry least, then the given one.
//
// A body between cuts weighs what lies there: the piece weighs alike all along, or, where
// its balance point is known, more toward one end by a straight line,
//
//	λ(x) = W/L·[1 + k·(2x/L − 1)]    k = 6·(x̄/L − ½)    |k| ≤ 1
//
// and lumps add theirs. What holds it is reckoned as for a rigid body, see shares: two
// supports or three that are not in line tell what each carries, more leave it open
// between a least and a most. A strap that leans at q from the horizontal pulls R/sin q.
// Straps that meet at a hook hold still only if the hook is above the balance point; else
// the piece turns until it is, at most by the angle whose tangent is how far off that lies
// over the hook's height. A strap that leans pulls sideways too, by R/tan q. Below one hook
// these pulls cancel; from points of their own, or beside a stand, they need not, and
// nobody has said which way each leans: such a body is dragged, not held.
//
// A weld and a clamp carry something, and nobody knows how much: a body that falls without
// them is unknown, not held. Left out: what is bent or clamped and springs, what sinks or
// slides, what the metal does while it is hot, and everything sideways of a piece on
// holds in one line. Statics of rigid bodies; no source needed.
func ComputeRelease(in ReleaseInput) (ReleaseResult, error) {
	if err := in.check(); err != nil {
		return ReleaseResult{}, err
	}
	n := len(in.Cuts)
	states := make([][]Body, 1<<n) // by which cuts are done
	for done := range states {
		states[done] = in.bodies(done)
	}
	res := ReleaseResult{At: -1}
	var best []int
	var bestRank int
	var bestLoad float64
	given := make([]int, n)
	for i := range given {
		given[i] = i
	}
	for order := range permutations(given) {
		rank, load := in.judge(states, order)
		if best == nil || rank < bestRank || rank == bestRank && load < bestLoad-1e-9 {
			best, bestRank, bestLoad = slices.Clone(order), rank, load
		}
	}
	res.Given, res.Best, res.Order = walk(states, given), walk(states, best), best
	res.Same = slices.Equal(best, given)
	for _, s := range res.Best {
		for _, b := range s.Bodies {
			for _, c := range b.Carry {
				if m := max(c.High, c.Pull); m > res.Peak {
					res.Peak, res.At = m, c.Hold
				}
			}
		}
	}
	return res, nil
}

// check refuses what cannot be, with the field to mend.
func (in ReleaseInput) check() error {
	even := in.Weight
	for _, l := range in.Lumps {
		even -= l.Weight
		if l.At > in.Length {
			return problem.New(problem.Conflict, "lumps", "a lump lies beyond the end of the piece", "Measure it from the left end.")
		}
	}
	if even < -1e-9*in.Weight {
		return problem.New(problem.Conflict, "weight", "the lumps weigh more than all of it", "The weight is that of the whole piece, the lumps in it.")
	}
	if in.Balance > 0 && (in.Balance < in.Length/3 || in.Balance > in.Length*2/3) {
		return problem.New(problem.Refused, "balance", "it balances so far from the middle that its weight is not spread along it", "Leave the balance point out and say what is heavy, as lumps.")
	}
	for i, h := range in.Holds {
		if h.At > in.Length {
			return problem.Newf(problem.Conflict, fmt.Sprintf("holds.%d.at", i+1), "hold %d lies beyond the end of the piece", i+1).WithHint("Measure it from the left end.")
		}
		if h.Kind == Strap && in.lean(h) < leastAngle {
			field := fmt.Sprintf("holds.%d.lean", i+1)
			if in.Hook != nil {
				field = "hook_height"
			}
			return problem.Newf(problem.Refused, field, "hold %d leans so flat that it pulls more than twice what it carries", i+1).
				WithHint("Not under 30° from the horizontal: longer straps, or hold it higher.")
		}
	}
	for i, c := range in.Cuts {
		switch {
		case c.Holds > len(in.Holds):
			return problem.Newf(problem.Conflict, fmt.Sprintf("cuts.%d.hold", i+1), "cut %d frees a hold that is not there", i+1).WithHint("Count the holds in their list, from 1 on.")
		case c.Holds > 0:
		case c.At <= 0 || c.At >= in.Length:
			return problem.Newf(problem.Conflict, fmt.Sprintf("cuts.%d.at", i+1), "cut %d does not go through the piece", i+1).WithHint("It lies between both ends, measured from the left one.")
		case slices.ContainsFunc(in.Holds, func(h Hold) bool { return h.At == c.At }):
			return problem.Newf(problem.Conflict, fmt.Sprintf("cuts.%d.at", i+1), "cut %d goes through where it is held", i+1).WithHint("Move the hold to the piece that it is to carry.")
		}
		for j, other := range in.Cuts[:i] {
			if c.Holds == other.Holds && (c.Holds > 0 || c.At == other.At) {
				return problem.Newf(problem.Conflict, fmt.Sprintf("cuts.%d.at", i+1), "cuts %d and %d are the same", j+1, i+1).WithHint("Take one out.")
			}
		}
	}
	return nil
}
