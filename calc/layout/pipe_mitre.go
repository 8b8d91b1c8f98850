package layout

import (
	"math"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// MitreInput is a bend of straight pieces of one pipe, or a frame with four corners.
type MitreInput struct {
	Pipe   Pipe
	Frame  bool
	Wide   unit.Length // of a frame, outside
	High   unit.Length
	Turn   unit.Angle  // from straight on
	Pieces int         // 2 or more, both ends counted
	Radius unit.Length // of the centre line, which touches each middle piece in its middle; 0 for two pieces without one
	Leg    unit.Length // more straight pipe at each end; without a radius from the corner of the centre line, or 0
	Lines  int         // round the pipe
	Kerf   unit.Length
}

// MitreLine is one line along the pipe, line 0 in the throat.
type MitreLine struct {
	Round  unit.Length // by tape from line 0
	Back   unit.Length // from the square line through the long point to the cut
	End    unit.Length // length of an end piece along the line; 0 where it is not known
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
	Across    Lengths // of a frame: a piece across
	Upright   Lengths
	Cuts      []MitreCut // out of one pipe; none where lengths are not known
	Stock     unit.Length
	Cut       unit.Length // round one joint, on the skin
	Thickness unit.Length // along the torch at throat and back, held as a saw is
	Lines     []MitreLine
}

// Lengths are those of a piece along its back, its centre line and its throat.
type Lengths struct{ Back, Centre, Throat unit.Length }

// mostLean is the steepest cut that is laid out: beyond it the metal along the torch is more
// than twice the wall, and the cut runs along the pipe more than it crosses it (common
// practice, no published source).
const mostLean = 60 * unit.Degree

// ComputeMitre lays out a mitred bend, or a frame.
//
//	n = pieces − 1 joints    a = turn/(2n), the lean of each cut from square
//	cut back = r·tan a·(1 + cos p)    p round the pipe from the throat, r half its outside
//	end piece: back (R + r)·tan a, throat (R − r)·tan a; a middle piece is twice that
//	frame: a = 45°; long w outside, short w − 4r
//
// R is the radius at which the centre line touches a middle piece in its middle; through
// the joints it is R/cos a. Two pieces without a radius meet in a corner: R = 0, and the leg
// is all there is. The cut is a plane, so one line on the outside serves bore and outside
// alike, with the torch held as a saw, parallel to the cut, not at the pipe's middle.
// Geometry; no source needed but for the steepest lean.
func ComputeMitre(in MitreInput) (MitreResult, error) {
	n := in.Pieces - 1
	a := float64(in.Turn) / float64(2*n)
	if in.Frame {
		a = math.Pi / 4
	}
	r, radius := in.Pipe.OD/2, in.Radius
	tan := unit.Length(math.Tan(a))
	if err := in.possible(unit.Angle(a), tan); err != nil {
		return MitreResult{}, err
	}
	res := MitreResult{
		Lean: unit.Angle(a), Deepest: 2 * r * tan, Girth: math.Pi * in.Pipe.OD, Spacing: math.Pi * in.Pipe.OD / unit.Length(in.Lines),
		Thickness: in.Pipe.Wall / unit.Length(math.Cos(a)), Cut: mitreCut(float64(r), a),
	}
	switch {
	case in.Frame:
		res.Across = Lengths{Back: in.Wide, Centre: in.Wide - 2*r, Throat: in.Wide - 4*r}
		res.Upright = Lengths{Back: in.High, Centre: in.High - 2*r, Throat: in.High - 4*r}
	case in.knowsLengths():
		res.End = Lengths{Back: (radius+r)*tan + in.Leg, Centre: radius*tan + in.Leg, Throat: (radius-r)*tan + in.Leg}
		if in.Pieces > 2 {
			res.Middle = Lengths{Back: 2 * (radius + r) * tan, Centre: 2 * radius * tan, Throat: 2 * (radius - r) * tan}
		}
	}
	res.layOut(in)
	for i := range in.Lines + 1 {
		cos := unit.Length(math.Cos(stationAngle(i, in.Lines)))
		l := MitreLine{Round: res.Girth * unit.Length(i) / unit.Length(in.Lines), Back: r * tan * (1 + cos)}
		if !in.Frame && in.knowsLengths() {
			l.End = (radius-r*cos)*tan + in.Leg
		}
		if !in.Frame && in.Pieces > 2 {
			l.Middle = 2 * (radius - r*cos) * tan
		}
		res.Lines = append(res.Lines, l)
	}
	return res, nil
}

// possible refuses what cannot be cut or has no throat.
func (in MitreInput) possible(lean unit.Angle, tan unit.Length) error {
	r := in.Pipe.OD / 2
	switch {
	case in.Frame && 4*r >= min(in.Wide, in.High):
		return problem.New(problem.Conflict, either(in.Wide <= in.High, "wide", "high"), "two pipes are as wide as the frame: nothing is left inside", "Give the outside of the frame.")
	case in.Frame:
		return nil
	case lean > mostLean+1e-9:
		return problem.Newf(problem.Refused, "segments", "each cut would lean %s from square", sayLean(lean)).
			WithHint("At most %s: take %d pieces or more.", sayLean(mostLean), 1+int(math.Ceil(float64(in.Turn/(2*mostLean))-1e-9)))
	case in.Pieces > 2 && in.Radius == 0:
		return problem.New(problem.Missing, "radius", "a bend of more than two pieces needs its radius", "Of the centre line: from the drawing, or 1-1/2 times the pipe's size for a usual bend.")
	case in.Radius > 0 && in.Radius <= r:
		return problem.Newf(problem.Conflict, "radius", "the pieces would have no throat: the radius is within the pipe").
			WithHint("More than half the outside diameter: over %s.", unit.In(r, "mm"))
	case in.Radius == 0 && in.Leg > 0 && in.Leg <= r*tan:
		return problem.New(problem.Conflict, "leg", "the legs would have no throat: they end within the joint", "Without a radius it is measured from the corner, where the centre lines meet. Give that, or a radius.")
	}
	return nil
}

// knowsLengths is whether a bend says where its pieces end.
func (in MitreInput) knowsLengths() bool { return in.Radius > 0 || in.Leg > 0 }

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
