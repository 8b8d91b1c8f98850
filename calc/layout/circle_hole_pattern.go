package layout

import (
	"math"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// PatternInput is holes evenly round a circle.
type PatternInput struct {
	Holes    int         // 2 or more
	Circle   unit.Length // diameter through their centres
	First    unit.Angle  // of hole 1, against the clock from the centre line to the right
	Centre   Spot        // of the circle, from where the holes are measured
	Diameter unit.Length // of a hole
	Setting  unit.Length // by which dividers or a tape may be set wrong
}

// PatternResult is where the holes lie.
type PatternResult struct {
	Chord   unit.Length // from hole to next hole
	Steps   int         // so many holes on lies the one to check by
	Check   unit.Length // how far it is
	Web     unit.Length // metal between two holes
	Closing unit.Length // by which stepping misses hole 1, along the circle; 0 for two holes
	Spots   []PatternSpot
}

// PatternSpot is one hole's centre.
type PatternSpot struct {
	Spot
	FromFirst unit.Length // straight from hole 1
}

// ComputePattern sets out n holes on a circle of diameter D by chords and from the centre
// lines:
//
//	chord over s holes = D·sin(180°·s/n)        to the next: s = 1
//	hole i: x = D/2·cos(first + 360°·i/n), y = D/2·sin(first + 360°·i/n)
//	stepping with a chord set d short misses hole 1 by D·(π − n·asin((chord − d)/D))
//
// The miss is n·d for many holes and more for few. So it is checked over n/2 holes, or
// n/3, or else the farthest there is: three holes have none but the sides. Holes that
// meet are refused. Plane geometry.
func ComputePattern(in PatternInput) (PatternResult, error) {
	n, D := in.Holes, float64(in.Circle)
	chord := func(steps int) unit.Length { return unit.Length(D * math.Sin(math.Pi*float64(steps)/float64(n))) }
	res := PatternResult{Chord: chord(1), Steps: (n - 1) / 2}
	switch {
	case n%2 == 0:
		res.Steps = n / 2
	case n%3 == 0:
		res.Steps = n / 3
	}
	res.Check = chord(res.Steps)
	res.Web = res.Chord - in.Diameter
	if res.Web <= 0 {
		return PatternResult{}, problem.Newf(problem.Conflict, "circle", "holes of %s run into each other: their centres are %s apart", unit.In(in.Diameter, "mm"), unit.In(res.Chord, "mm")).
			WithHint("Take fewer or smaller holes, or a larger circle.")
	}
	if n > 2 {
		if in.Setting >= res.Chord {
			return PatternResult{}, problem.New(problem.Range, "setting", "that is more than the holes are apart", "Give how far a setting may be off, some 0.5 mm.")
		}
		res.Closing = unit.Length(D * (math.Pi - float64(n)*math.Asin(float64(res.Chord-in.Setting)/D)))
	}
	for i := range n {
		at := float64(in.First) + 2*math.Pi*float64(i)/float64(n)
		s, c := math.Sincos(at)
		res.Spots = append(res.Spots, PatternSpot{Spot{in.Centre.X + unit.Length(D/2*c), in.Centre.Y + unit.Length(D/2*s)}, chord(i)})
	}
	return res, nil
}
