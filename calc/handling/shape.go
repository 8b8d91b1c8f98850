package handling

import (
	"math"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// solid is a piece as a flat face with a depth: the outline of a plate and its
// thickness, or the section of a bar and its length.
type solid struct {
	face    unit.Area
	depth   unit.Length
	balance Balance
	sum     string // the face, for the working; {key} stands for a measure
}

// Balance is where a piece balances. For a flat piece Along and Across lie in
// its face; for a bar Along runs down its length, Across and Up lie in its
// section.
type Balance struct {
	Along, Across, Up unit.Length
	From              string // what they are measured from; "" if not known
}

// bars are the shapes that are reckoned as section × length; all others are
// face × thickness.
var bars = []string{"flat", "round", "square", "hex", "octagon", "round-tube", "box-tube", "angle", "channel", "beam"}

// Corner and fillet rules, common practice: the outside corner of a box tube
// turns on twice its wall; root fillets of rolled sections are left out, which
// makes them read 1 to 2 % light.
const cornerWalls = 2

// solidOf measures the shape. Sections, with width b, height h, thickness or
// wall or web t, flange thickness f, diameter D, bore d and across-flats width s:
//
//	plate, flat  b·t            triangle  b·l/2        disc, round  π·D²/4
//	ring  (D² − d²)·sweep/8     square  s²             hex  (√3/2)·s²
//	octagon  2(√2 − 1)·s²       round tube  π(D − t)·t
//	box tube  b·h − (b−2t)(h−2t) − (4−π)(R² − r²), R outside corner, r = max(R − t, 0)
//	angle  t(b + h − t)         channel, beam  2·b·f + (h − 2f)·t
func solidOf(in PieceInput) (solid, error) {
	if err := in.fits(); err != nil {
		return solid{}, err
	}
	l, b, h, t := float64(in.Length), float64(in.Width), float64(in.Height), float64(in.Thickness)
	D := float64(in.Diameter)
	middle := Balance{Along: in.Length / 2, From: "one end, on the centre line"}
	switch in.Shape {
	case "plate":
		return solid{face: unit.Area(l * b), depth: in.Thickness, balance: Balance{Along: in.Length / 2, Across: in.Width / 2, Up: in.Thickness / 2, From: "a corner"}, sum: "{length} × {width}"}, nil
	case "triangle":
		return solid{face: unit.Area(l * b / 2), depth: in.Thickness, balance: Balance{Along: in.Length / 3, Across: in.Width / 3, Up: in.Thickness / 2, From: "the square corner"}, sum: "½ × {length} × {width}"}, nil
	case "disc":
		return solid{face: unit.Area(math.Pi / 4 * D * D), depth: in.Thickness, balance: Balance{From: "the centre"}, sum: "π/4 × ({diameter})²"}, nil
	case "ring":
		return ring(in), nil
	case "outline":
		return outline(in)
	case "flat":
		return solid{face: unit.Area(b * t), depth: in.Length, balance: middle, sum: "{width} × {thickness}"}, nil
	case "round":
		return solid{face: unit.Area(math.Pi / 4 * D * D), depth: in.Length, balance: middle, sum: "π/4 × ({diameter})²"}, nil
	case "square":
		return solid{face: unit.Area(b * b), depth: in.Length, balance: middle, sum: "({width})²"}, nil
	case "hex":
		return solid{face: unit.Area(math.Sqrt(3) / 2 * b * b), depth: in.Length, balance: middle, sum: "0.8660 × ({width})²"}, nil
	case "octagon":
		return solid{face: unit.Area(2 * (math.Sqrt2 - 1) * b * b), depth: in.Length, balance: middle, sum: "0.8284 × ({width})²"}, nil
	case "round-tube":
		return solid{face: unit.Area(math.Pi * (D - t) * t), depth: in.Length, balance: middle, sum: "π × ({diameter} − {thickness}) × {thickness}"}, nil
	case "box-tube":
		R := float64(in.Radius)
		r := max(R-t, 0)
		return solid{face: unit.Area(b*h - (b-2*t)*(h-2*t) - (4-math.Pi)*(R*R-r*r)), depth: in.Length, balance: middle, sum: "{width} × {height} outside, less the inside of {thickness} walls and what the corners of {radius} round off"}, nil
	case "angle":
		area := t * (b + h - t)
		across := (b*t*b/2 + (h-t)*t*t/2) / area
		up := (b*t*t/2 + (h-t)*t*(h+t)/2) / area
		return solid{face: unit.Area(area), depth: in.Length, balance: Balance{Along: in.Length / 2, Across: unit.Length(across), Up: unit.Length(up), From: "one end and the backs of the legs"}, sum: "{thickness} × ({width} + {height} − {thickness})"}, nil
	case "channel", "beam":
		f := float64(in.Flange)
		area := 2*b*f + (h-2*f)*t
		balance := middle
		if in.Shape == "channel" {
			across := (2*b*f*b/2 + (h-2*f)*t*t/2) / area
			balance = Balance{Along: in.Length / 2, Across: unit.Length(across), Up: in.Height / 2, From: "one end, the back of the web and one flange"}
		}
		return solid{face: unit.Area(area), depth: in.Length, balance: balance, sum: "2 × {width} × {flange} + ({height} − 2 × {flange}) × {thickness}"}, nil
	}
	return solid{}, problem.Newf(problem.Unknown, "shape", "%q is not a shape that can be reckoned", in.Shape).WithHint("Give its area as an outline.")
}

// ring is a ring or a part of one. A part balances on its middle line, at
//
//	⅔ · (sin α)/α · (R³ − r³)/(R² − r²)     α half the sweep
//
// from the centre. Plane geometry; no source needed.
func ring(in PieceInput) solid {
	R, r, sweep := float64(in.Diameter)/2, float64(in.Bore)/2, float64(in.Sweep)
	s := solid{face: unit.Area((R*R - r*r) * sweep / 2), depth: in.Thickness, balance: Balance{From: "the centre"}, sum: "π/4 × (({diameter})² − ({bore})²) × {sweep} ÷ 360°"}
	if in.Sweep < 360*unit.Degree {
		a := sweep / 2
		s.balance = Balance{Along: unit.Length(2.0 / 3 * math.Sin(a) / a * (R*R + R*r + r*r) / (R + r)), From: "the centre, on the middle line"}
	}
	return s
}

// outline is an odd shape by its area or by its corners.
func outline(in PieceInput) (solid, error) {
	if len(in.Corners) == 0 {
		return solid{face: in.Area, depth: in.Thickness, balance: Balance{}, sum: "as given"}, nil
	}
	area, at, err := polygon(in.Corners)
	if err != nil {
		return solid{}, err
	}
	return solid{face: area, depth: in.Thickness, balance: Balance{Along: at.X, Across: at.Y, Up: in.Thickness / 2, From: "0:0 of the corners"}, sum: "½ Σ (x·y′ − x′·y) over the corners"}, nil
}

// fits checks that the measures make a piece with metal in it.
func (in PieceInput) fits() error {
	conflict := func(field, msg, hint string) error { return problem.New(problem.Conflict, field, msg, hint) }
	switch in.Shape {
	case "ring":
		if in.Bore >= in.Diameter {
			return conflict("bore", "the bore is as large as the outside", "Measure again: nothing is left of the ring.")
		}
	case "round-tube":
		if 2*in.Thickness > in.Diameter {
			return conflict("thickness", "the walls overlap", "The wall is at most half the diameter; for solid bar pick round.")
		}
	case "box-tube":
		small := min(in.Width, in.Height)
		if 2*in.Thickness > small {
			return conflict("thickness", "the walls overlap", "The wall is at most half the narrow side; for solid bar pick flat or square.")
		}
		if 2*in.Radius > small {
			return conflict("radius", "the corners overlap", "The outside corner radius is at most half the narrow side.")
		}
	case "angle":
		if in.Thickness >= min(in.Width, in.Height) {
			return conflict("thickness", "the leg is thicker than it is long", "Measure the thickness of a leg, not its length.")
		}
	case "channel", "beam":
		if 2*in.Flange >= in.Height {
			return conflict("flange", "the flanges overlap", "Measure the thickness of one flange.")
		}
		if in.Thickness >= in.Width {
			return conflict("thickness", "the web is thicker than the flange is wide", "Measure the thickness of the web.")
		}
	case "outline":
		if (in.Area > 0) == (len(in.Corners) > 0) {
			if in.Area > 0 {
				return conflict("area", "an area and corners are two ways to say the same", "Enter one of them.")
			}
			return problem.New(problem.Missing, "area", "an outline needs its area or its corners", "Enter the area, or the corners going round: 0:0, 300mm:0, 0:200mm.")
		}
	}
	return nil
}
