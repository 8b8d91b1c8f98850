package handling

import (
	"slices"

	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// PieceInput is a piece by its shape and measures; those that the shape does
// not use are ignored.
type PieceInput struct {
	Shape                                     string
	Density                                   unit.Density
	Length, Width, Height                     unit.Length
	Thickness, Flange, Diameter, Bore, Radius unit.Length
	Sweep                                     unit.Angle // of a ring; 360° for a whole one
	Area                                      unit.Area
	Corners                                   []Point
	Count                                     int // pieces, ≥ 1
}

// PieceResult is what the piece weighs and where it balances.
type PieceResult struct {
	Face      unit.Area   // of the plate's outline or the bar's section
	Depth     unit.Length // thickness or length
	Volume    unit.Volume
	Weight    unit.Mass        // of one piece
	Total     unit.Mass        // of all pieces
	PerLength unit.LineDensity // of a bar
	PerArea   unit.AreaDensity // of plate
	IsBar     bool
	Balance   Balance
	sum       string
}

// ComputePiece weighs a piece:
//
//	weight = density × face × depth
//
// where face and depth are outline and thickness of plate, or section and
// length of bar (formulas at solidOf). Mill tolerance, paint, rust, weld and
// root fillets are not in it. Plane geometry; densities from package material.
func ComputePiece(in PieceInput) (PieceResult, error) {
	if in.Density <= 0 || in.Count < 1 {
		return PieceResult{}, problem.New(problem.Range, "density", "a piece needs a density and a number of pieces above nothing", "Leave the density empty to take the metal's own.")
	}
	s, err := solidOf(in)
	if err != nil {
		return PieceResult{}, err
	}
	res := PieceResult{Face: s.face, Depth: s.depth, Volume: unit.Volume(float64(s.face) * float64(s.depth)), Balance: s.balance, sum: s.sum}
	res.Weight = unit.Mass(float64(in.Density) * float64(res.Volume))
	res.Total = res.Weight * unit.Mass(in.Count)
	res.IsBar = slices.Contains(bars, in.Shape)
	if res.IsBar {
		res.PerLength = unit.LineDensity(float64(in.Density) * float64(s.face))
	} else {
		res.PerArea = unit.AreaDensity(float64(in.Density) * float64(s.depth))
	}
	return res, nil
}

// OneHand is the most that one person should lift even in the best posture:
// the load constant of the NIOSH lifting equation, 51 lb, from memory.
const OneHand = 23 * unit.Kilogram

// PieceWeight is the calculator piece-weight.
var PieceWeight = form.Declaration{Name: "piece-weight", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Piece weight",
		About: "Weigh a piece before you cut it loose, and see where it balances.",
		Place: "cut",
		Terms: []string{"drop-off", "drop", "weight", "lift", "centre of gravity", "heavy", "mass", "plate", "bar", "beam", "gusset", "flange"},
		Fields: []form.Field{
			{Key: "shape", Label: "Shape", Default: "plate", Takes: form.OneOf(
				"plate", "Plate, sheet", "triangle", "Triangle, gusset", "disc", "Disc", "ring", "Ring or part of one", "outline", "Odd outline",
				"flat", "Flat bar", "round", "Round bar", "square", "Square bar", "hex", "Hexagon bar", "octagon", "Octagon bar",
				"round-tube", "Round tube, pipe", "box-tube", "Box tube", "angle", "Angle", "channel", "Channel", "beam", "Beam")},
			{Key: "metal", Label: "Metal", Takes: material.Choice(), Default: string(material.MildSteel)},
			{Key: "length", Label: "Length", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking), Chips: []string{"300mm", "1m", "2m"}, ChipsUS: []string{"12in", "4ft"},
				Only: when("plate", "triangle", "flat", "round", "square", "hex", "octagon", "round-tube", "box-tube", "angle", "channel", "beam"), Limits: pieceLimits},
			{Key: "width", Label: "Width", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking), Help: "Of a bar its side or the distance across its flats; of an angle one leg; of channel and beam the flange",
				Only: when("plate", "triangle", "flat", "square", "hex", "octagon", "box-tube", "angle", "channel", "beam"), Limits: pieceLimits},
			{Key: "height", Label: "Height", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking), Help: "Of an angle the other leg",
				Only: when("box-tube", "angle", "channel", "beam"), Limits: pieceLimits},
			{Key: "diameter", Label: "Outside diameter", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking), Only: when("disc", "ring", "round", "round-tube"), Limits: pieceLimits},
			{Key: "bore", Label: "Bore of the ring", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking), Only: when("ring"), Limits: pieceLimits},
			{Key: "sweep", Label: "How much of the ring", Takes: form.Number[unit.Angle]("°", "°"), Default: "360°", Basis: source.Neutral, Chips: []string{"90°", "180°", "360°"},
				Only: when("ring"), Limits: form.Within(unit.Degree, 360*unit.Degree)},
			{Key: "area", Label: "Area of the outline", Takes: form.Number[unit.Area]("mm²", "in²"), Optional: true, Only: when("outline"),
				Help: "Or give the corners", Limits: form.Within(unit.SquareMillimetre, 300*unit.SquareMetre)},
			{Key: "corners", Label: "Corners, going round", Takes: form.Pairs(form.Number[unit.Length]("mm", "in"), form.Number[unit.Length]("mm", "in"), form.Each{Name: "Corner", Left: "across", Right: "up", Row: "{left} across · {right} up"}), Optional: true,
				Only: when("outline"), Help: "How far across and up each corner lies from any one point.", Limits: form.Within(-30*unit.Metre, 30*unit.Metre)},
			{Key: "thickness", Label: "Thickness or wall", Takes: form.Number[unit.Length]("mm", "in").As(unit.Plate), Gauge: true, Help: "A gauge may stand here: 16ga. Of channel and beam the web",
				Chips: []string{"1.5mm", "3mm", "6mm", "10mm"}, ChipsUS: []string{"16ga", "1/8in", "1/4in", "3/8in", "1/2in"},
				Only: when("plate", "triangle", "disc", "ring", "outline", "flat", "round-tube", "box-tube", "angle", "channel", "beam"), Limits: form.Within(0.1*unit.Millimetre, 500*unit.Millimetre)},
			{Key: "flange", Label: "Thickness of a flange", Takes: form.Number[unit.Length]("mm", "in").As(unit.Plate), Only: when("channel", "beam"), Limits: form.Within(0.5*unit.Millimetre, 200*unit.Millimetre)},
			{Key: "radius", Label: "Outside corner radius", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking), Optional: true, Fine: true, Only: when("box-tube"),
				Help: "Left empty: twice the wall", Basis: source.CommonPractice, Limits: form.Within(0, 200*unit.Millimetre)},
			{Key: "count", Label: "Pieces", Takes: form.Count(), Default: "1", Basis: source.Neutral, Limits: form.WithinCount(1, 10000)},
			{Key: "density", Label: "Density", Takes: form.Number[unit.Density]("kg/m³", "lb/in³"), Optional: true, Fine: true, Help: "Left empty: the metal's own",
				Chips: []string{"7850kg/m3"}, ChipsUS: []string{"489.6lb/ft3"}, Limits: form.Within[unit.Density](500, 25000)},
		},
		Results: []form.Result{
			{Key: "weight", Label: "One piece weighs", Gives: form.Number[unit.Mass]("kg", "lb"), Main: true},
			{Key: "total", Label: "All pieces weigh", Gives: form.Number[unit.Mass]("kg", "lb"), Main: true},
			{Key: "lift", Label: "To lift it", Gives: form.Text(), Main: true},
			{Key: "per_length", Label: "Per length", Gives: form.Number[unit.LineDensity]("kg/m", "lb/ft")},
			{Key: "per_area", Label: "Per area", Gives: form.Number[unit.AreaDensity]("kg/m²", "lb/ft²")},
			{Key: "area", Label: "Face or section", Gives: form.Number[unit.Area]("mm²", "in²")},
			{Key: "volume", Label: "Volume", Gives: form.Number[unit.Volume]("cm³", "in³")},
			{Key: "balance_from", Label: "Balances, measured from", Gives: form.Text()},
			{Key: "balance_along", Label: "Along", Gives: form.Number[unit.Length]("mm", "in").As(unit.Marking)},
			{Key: "balance_across", Label: "Across", Gives: form.Number[unit.Length]("mm", "in").As(unit.Marking)},
			{Key: "balance_up", Label: "Up", Gives: form.Number[unit.Length]("mm", "in").As(unit.Marking)},
		},
		Sources: []source.ID{"niosh-lifting"},
		Run:     runPiece,
	}
}}

var pieceLimits = form.Within(unit.Millimetre, 30*unit.Metre)

func when(shapes ...string) *form.Only { return form.When("shape", shapes...) }
