package handling

import (
	"math"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// CutInput is a cut by its shape and measures; those that the shape does not use
// are ignored.
type CutInput struct {
	Shape                 string // a word of CutShapeFields
	Length, Width, Height unit.Length
	Diameter, Bore        unit.Length
	Sweep                 unit.Angle  // of a ring; 360° for a whole one
	Wall                  unit.Length // of a box tube
}

// CutResult is how far the arc goes for one piece.
type CutResult struct {
	Length  unit.Length
	Pierces int // at least: outlines that meet no edge to begin at
}

// ComputeCut returns the length of the cut, along the line of the drawing; half a
// kerf beside it changes a closed outline by π times the kerf, which is left out.
// With length l, width b, height h, diameter D, bore d and corner radius R:
//
//	straight  l                     rectangle, window  2(l + b)
//	triangle  l + b + √(l² + b²)    disc, round hole, round tube  π·D
//	ring  π(D + d)                  part of one  (D + d)/2·sweep + D − d
//	slot  2(l − b) + π·b            box tube  2(b + h) − (8 − 2π)·R, R twice the wall
//
// A hole, the bore of a ring and a tube all round have no edge to begin at: one
// pierce. Plane geometry; no source needed.
func ComputeCut(in CutInput) (CutResult, error) {
	l, b, D, d := float64(in.Length), float64(in.Width), float64(in.Diameter), float64(in.Bore)
	conflict := func(field, msg, hint string) (CutResult, error) {
		return CutResult{}, problem.New(problem.Conflict, field, msg, hint)
	}
	cut := func(length float64, pierces int) (CutResult, error) {
		return CutResult{Length: unit.Length(length), Pierces: pierces}, nil
	}
	switch in.Shape {
	case "straight":
		return cut(l, 0)
	case "rectangle":
		return cut(2*(l+b), 0)
	case "window":
		return cut(2*(l+b), 1)
	case "triangle":
		return cut(l+b+math.Hypot(l, b), 0)
	case "disc":
		return cut(math.Pi*D, 0)
	case "round-hole", "round-tube":
		return cut(math.Pi*D, 1)
	case "slot":
		if b > l {
			return conflict("width", "the slot is wider than it is long", "The length goes over both round ends; the width is across.")
		}
		return cut(2*(l-b)+math.Pi*b, 1)
	case "ring":
		if d >= D {
			return conflict("bore", "the bore is as large as the outside", "Measure again: nothing is left of the ring.")
		}
		if in.Sweep < 360*unit.Degree {
			return cut((D+d)/2*float64(in.Sweep)+D-d, 0)
		}
		return cut(math.Pi*(D+d), 1)
	case "box-tube":
		R := cornerWalls * in.Wall
		if 2*R > min(in.Width, in.Height) {
			return conflict("thickness", "the corners overlap", "The wall of a box tube is at most a quarter of its narrow side here.")
		}
		return cut(float64(RoundedOutline(in.Width, in.Height, R)), 1)
	}
	return CutResult{}, problem.Newf(problem.Unknown, "shape", "%q is not a shape that can be reckoned", in.Shape).WithHint("Give the length of the cut as straight.")
}

// RoundedOutline is the length of a rectangle's outline with corners of that radius: of a
// slot, where the radius is half the width, and of a circle, where both sides are twice it.
func RoundedOutline(length, width, corner unit.Length) unit.Length {
	return 2*(length+width) - (8-2*math.Pi)*corner
}

// CutShapeFields are what ReadCut reads: the shape, then its measures. The first is
// the length, of a straight cut how far the arc goes.
func CutShapeFields() []form.Field {
	size := form.Number[unit.Length]("mm", "in").As(unit.Marking)
	return []form.Field{
		{Key: "shape", Label: "Shape", Default: "straight", Takes: form.OneOf("straight", "Straight", "rectangle", "Rectangle", "triangle", "Triangle", "disc", "Disc",
			"ring", "Ring", "round-hole", "Round hole", "window", "Oblong hole", "slot", "Slot", "round-tube", "Round tube", "box-tube", "Box tube")},
		{Key: "length", Label: "Length", Help: "Of the cut, or of the shape's long side", Takes: size, Chips: []string{"100mm", "200mm", "300mm", "500mm", "1m"}, ChipsUS: []string{"4in", "8in", "1ft", "2ft", "4ft"},
			Only: when("straight", "rectangle", "triangle", "window", "slot"), Limits: pieceLimits},
		{Key: "width", Label: "Width", Takes: size, Only: when("rectangle", "triangle", "window", "slot", "box-tube"), Limits: pieceLimits},
		{Key: "height", Label: "Height", Help: "The other side of the tube", Takes: size, Only: when("box-tube"), Limits: pieceLimits},
		{Key: "diameter", Label: "Outside diameter", Help: "Of a hole its own", Takes: size, Only: when("disc", "ring", "round-hole", "round-tube"), Limits: pieceLimits},
		{Key: "bore", Label: "Bore of the ring", Takes: size, Only: when("ring"), Limits: pieceLimits},
		{Key: "sweep", Label: "How much of the ring", Takes: form.Number[unit.Angle]("°", "°"), Default: "360°", Basis: source.Neutral, Chips: []string{"90°", "180°", "360°"},
			Only: when("ring"), Limits: form.Within(unit.Degree, 360*unit.Degree)},
	}
}

// ReadCut reads CutShapeFields; wall is the thickness that is cut. Troubles are r's.
func ReadCut(r *form.Reader, wall unit.Length) CutResult {
	in := CutInput{
		Shape:  form.GetWord(r, "shape"),
		Length: form.Get[unit.Length](r, "length"), Width: form.Get[unit.Length](r, "width"), Height: form.Get[unit.Length](r, "height"),
		Diameter: form.Get[unit.Length](r, "diameter"), Bore: form.Get[unit.Length](r, "bore"),
		Sweep: form.Get[unit.Angle](r, "sweep"), Wall: wall,
	}
	if r.Err() != nil {
		return CutResult{}
	}
	res, err := ComputeCut(in)
	if err != nil {
		r.Fail("", err)
	}
	return res
}
