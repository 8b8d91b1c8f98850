package layout

import (
	"math"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// MitreInput is a bend of straight pieces of one pipe.
type MitreInput struct {
	Pipe   Pipe
	Turn   unit.Angle  // from straight on
	Pieces int         // 2 or more, both ends counted
	Radius unit.Length // of the centre line, which touches each middle piece in its middle; 0 for two pieces without one
	Leg    unit.Length // more straight pipe at each end
	Lines  int         // round the pipe
	Kerf   unit.Length
}

// MitreLine is one line along the pipe, line 0 in the throat.
type MitreLine struct {
	Round  unit.Length // by tape from line 0
	Back   unit.Length // from the square line through the long point to the cut
	End    unit.Length // length of an end piece along the line; 0 where there is no radius
	Middle unit.Length // of a middle piece; 0 where there is none
}

// MitreResult is the bend laid out.
type MitreResult struct {
	Lean      unit.Angle  // of each cut from square
	Deepest   unit.Length // cut back in the throat
	Girth     unit.Length
	Spacing   unit.Length
	End       Lengths // of an end piece
	Middle    Lengths // of a middle piece; zero where there is none
	Stock     unit.Length
	Cut       unit.Length // round one joint, on the skin
	Thickness unit.Length // along the torch at throat and back, held as a saw is
	Lines     []MitreLine
}

// Lengths are those of a piece along its back, its centre line and its throat.
type Lengths struct{ Back, Centre, Throat unit.Length }

// ComputeMitre lays out a mitred bend.
//
//	n = pieces − 1 joints    a = turn/(2n), the lean of each cut from square
//	cut back = r·tan a·(1 + cos p)    p round the pipe from the throat, r half its outside
//	end piece: back (R + r)·tan a, throat (R − r)·tan a; a middle piece is twice that
//
// R is the radius at which the centre line touches a middle piece in its middle; through
// the joints it is R/cos a. The cut is a plane, so one line on the outside serves bore and
// outside alike, with the torch held as a saw, parallel to the cut, not at the pipe's
// middle. Stock: the pieces one after the other out of one pipe, each turned over, one cut
// between two, which takes kerf/cos a of it. Geometry; no source needed.
func ComputeMitre(in MitreInput) (MitreResult, error) {
	n := in.Pieces - 1
	a := float64(in.Turn) / float64(2*n)
	r, radius := in.Pipe.OD/2, in.Radius
	tan := unit.Length(math.Tan(a))
	switch {
	case in.Pieces > 2 && radius == 0:
		return MitreResult{}, problem.New(problem.Missing, "radius", "a bend of more than two pieces needs its radius", "Of the centre line: from the drawing, or 1-1/2 times the pipe's size for a usual bend.")
	case radius > 0 && radius <= r:
		return MitreResult{}, problem.Newf(problem.Conflict, "radius", "the pieces would have no throat: the radius is within the pipe").
			WithHint("More than half the outside diameter: over %s.", unit.In(r, "mm"))
	}
	res := MitreResult{
		Lean: unit.Angle(a), Deepest: 2 * r * tan, Girth: math.Pi * in.Pipe.OD, Spacing: math.Pi * in.Pipe.OD / unit.Length(in.Lines),
		Thickness: in.Pipe.Wall / unit.Length(math.Cos(a)), Cut: mitreCut(float64(r), a),
	}
	if radius > 0 {
		res.End = Lengths{Back: (radius+r)*tan + in.Leg, Centre: radius*tan + in.Leg, Throat: (radius-r)*tan + in.Leg}
		res.Stock = 2*res.End.Centre + unit.Length(n)*in.Kerf/unit.Length(math.Cos(a))
		if in.Pieces > 2 {
			res.Middle = Lengths{Back: 2 * (radius + r) * tan, Centre: 2 * radius * tan, Throat: 2 * (radius - r) * tan}
			res.Stock += unit.Length(in.Pieces-2) * res.Middle.Centre
		}
	}
	for i := range in.Lines + 1 {
		cos := unit.Length(math.Cos(stationAngle(i, in.Lines)))
		l := MitreLine{Round: res.Girth * unit.Length(i) / unit.Length(in.Lines), Back: r * tan * (1 + cos)}
		if radius > 0 {
			l.End = (radius-r*cos)*tan + in.Leg
		}
		if in.Pieces > 2 {
			l.Middle = 2 * (radius - r*cos) * tan
		}
		res.Lines = append(res.Lines, l)
	}
	return res, nil
}

// mitreCut is how long the cut is on the skin: ∫ r·√(1 + tan²a·sin²p) dp once round, by the
// trapezoid rule, which is exact to rounding for a smooth line that closes.
func mitreCut(r, a float64) unit.Length {
	const n = 720
	sum := 0.0
	for i := range n {
		slope := math.Tan(a) * math.Sin(stationAngle(i, n))
		sum += math.Sqrt(1 + slope*slope)
	}
	return unit.Length(2 * math.Pi * r * sum / n)
}
