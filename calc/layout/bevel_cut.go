package layout

import (
	"math"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// BevelInput is an edge that is bevelled by a leaning torch, cut from above.
type BevelInput struct {
	Thickness unit.Length // square through the plate
	Bevel     unit.Angle  // of the bevelled face, from square
	Land      unit.Length // what is left square under the bevel; 0 for a feather edge
	Under     bool        // the bevel opens away from the torch: its top leans over the waste
	Kerf      unit.Length // of an upright torch

	Guide   string      // "none", or what the straightedge lies on: "part" or "waste"
	Cup     unit.Length // outer diameter of the shield cup where it touches the guide
	Contact unit.Length // how high above the plate that is
}

// BevelResult is how the torch leans and where its lines lie.
type BevelResult struct {
	Slant    unit.Length // metal along the torch in the bevel pass
	Shift    unit.Length // across from the bevel's top edge to its bottom edge
	KerfTop  unit.Length // the leaning kerf's width on the plate's surface
	Passes   int         // 2 with a land: square through first, then the bevel
	Towards  bool        // the torch's top leans over the guide
	Offset   unit.Length // guide's edge to the line of the bevel; 0 without a guide
	Square   unit.Length // guide's edge to the line of the square pass; 0 without one
	LandGive unit.Length // how much the land changes with a line that is off by handWander
}

// handWander is how far a hand strays from its line, common practice.
const handWander = unit.Millimetre

// ComputeBevel lays out a bevel. With plate t, land f, bevel b from square, kerf k and
// h = t − f:
//
//	slant = h/cos b     shift = h·tan b     kerf on the surface = k/cos b
//
// A land takes two passes. The square one comes first: so the bevel burns through h
// alone, and leaves a marked edge below. The other way round the square pass would
// begin on a slope, far from the tip.
//
// A cup of radius c that touches the guide H above the plate leaves
//
//	from the guide to the middle of the kerf = c/cos b + H·tan b
//
// where the torch's top leans over the guide, and touches its upper edge; − H·tan b
// where it leans away, and touches with its rim. From there on it is an upright torch
// with a cup and a kerf so much wider: cutting.ComputeGuide, which this is at b = 0. Plane
// geometry; the offset at a lean is in no source that was looked into.
//
// Refused: a land with no bevel above it; a land at the side of the torch, where the jet
// would have to begin in the air beside the edge; a guide on what the first pass cuts off;
// and a touch so high that the guide lies in the kerf.
func ComputeBevel(in BevelInput) (BevelResult, error) {
	if in.Land >= in.Thickness {
		return BevelResult{}, problem.New(problem.Conflict, "land", "the land is as thick as the plate: no bevel is left", "Make it smaller than the plate.")
	}
	if in.Land > 0 && in.Under {
		return BevelResult{}, problem.New(problem.Refused, "land", "a land at the torch's side is no clean cut: the jet begins in the air beside it", "Turn the plate over, so that the bevel opens to the torch.")
	}
	if in.Land > 0 && in.Guide == "waste" {
		return BevelResult{}, problem.New(problem.Refused, "guide", "the square pass cuts off what the guide would lie on", "Clamp it on the part.")
	}
	tan, cos := math.Tan(float64(in.Bevel)), math.Cos(float64(in.Bevel))
	slanted := func(l unit.Length) unit.Length { return unit.Length(float64(l) / cos) }
	across := func(l unit.Length) unit.Length { return unit.Length(float64(l) * tan) }
	res := BevelResult{Slant: slanted(in.Thickness - in.Land), Shift: across(in.Thickness - in.Land), KerfTop: slanted(in.Kerf), Passes: 1}
	if in.Land > 0 {
		res.Passes = 2
		res.LandGive = unit.Length(float64(handWander) / tan)
	}
	if in.Guide == "none" {
		return res, nil
	}
	onWaste := in.Guide == "waste"
	res.Towards = onWaste == in.Under
	middle := slanted(in.Cup/2) - across(in.Contact)
	if res.Towards {
		middle = slanted(in.Cup/2) + across(in.Contact)
	}
	if middle <= res.KerfTop/2 {
		return BevelResult{}, problem.New(problem.Refused, "contact", "leaned so far, a cup that touches so high up cuts the guide", "Measure where it touches again, or clamp the guide at the other side of the line.")
	}
	leaned, err := cutting.ComputeGuide(cutting.GuideInput{Cup: 2 * middle, Kerf: res.KerfTop, Hole: onWaste, Shape: "straight"})
	if err != nil {
		return BevelResult{}, err
	}
	res.Offset = leaned.Offset
	if res.Passes == 2 {
		upright, err := cutting.ComputeGuide(cutting.GuideInput{Cup: in.Cup, Kerf: in.Kerf, Shape: "straight"})
		if err != nil {
			return BevelResult{}, err
		}
		res.Square = upright.Offset
	}
	return res, nil
}

// BevelCut is the calculator bevel-cut.
var BevelCut = form.Declaration{Name: "bevel-cut", Make: func() form.Calculator {
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	mark := length(unit.Marking)
	return form.Calculator{
		Title: "Bevel cut",
		About: "Says how to lean the torch for a bevel, what metal that is, and where the line goes.",
		Place: "layout",
		Terms: []string{"bevel", "chamfer", "weld prep", "groove", "land", "root face", "nose", "lean", "slant", "angle cut", "straightedge"},
		Fields: []form.Field{
			{Key: "thickness", Label: "Thickness", Known: "plan.thickness", Help: "Square through the plate", Takes: length(unit.Plate), Chips: []string{"6mm", "8mm", "10mm", "12mm"}, ChipsUS: []string{"1/4in", "5/16in", "3/8in", "1/2in"},
				Limits: form.Within(unit.Millimetre, 200*unit.Millimetre)},
			{Key: "bevel", Label: "Bevel", Help: "Of this edge, from square. A groove of 60° has two of 30°", Takes: form.Number[unit.Angle]("°", "°"), Chips: []string{"22.5°", "30°", "37.5°", "45°"}, Limits: form.Within(5*unit.Degree, 60*unit.Degree)},
			{Key: "land", Label: "Land", Help: "What stays square below the bevel, also called root face. 0 leaves a sharp edge", Takes: mark, Default: "0mm", Basis: source.Neutral, Chips: []string{"0mm", "2mm", "3mm"}, ChipsUS: []string{"0in", "1/16in", "1/8in"}, Limits: form.Within(0, 190*unit.Millimetre)},
			{Key: "opens", Label: "The bevel opens", Takes: form.OneOf("torch", "Up, to the torch", "under", "Down, away from the torch"), Default: "torch"},
			{Key: "guide", Label: "Straightedge", Takes: form.OneOf("none", "None", "part", "On the part", "waste", "On the waste"), Default: "none"},
			{Key: "cup", Label: "Cup diameter", Help: "Outside of the shield cup, where it touches the guide", Takes: mark, Only: form.When("guide", "part", "waste"), Limits: form.Within(5*unit.Millimetre, 80*unit.Millimetre)},
			{Key: "contact", Label: "Height of the touch", Help: "From the plate to where cup and guide touch. Leaning over the guide: the guide's thickness. Leaning away: the cup's rim", Takes: mark,
				Only: form.When("guide", "part", "waste"), Limits: form.Within(0, 100*unit.Millimetre)},
			{Key: "length", Label: "Length of the edge", Help: "Goes along into a plan or a job", Takes: mark, Optional: true, Chips: []string{"300mm", "500mm", "1m"}, ChipsUS: []string{"1ft", "2ft", "4ft"}, Limits: form.Within(5*unit.Millimetre, 100*unit.Metre)},
			{Key: "kerf", Label: "Kerf", Known: "plan.kerf", Help: "Measured on a trial strip, or from the plan", Takes: length(unit.Kerf), Default: "1.5mm", Basis: source.CommonPractice, Fine: true, Limits: form.Within(0.3*unit.Millimetre, 15*unit.Millimetre)},
		},
		Results: []form.Result{
			{Key: "lean", Label: "Lean the torch from upright", Gives: form.Number[unit.Angle]("°", "°"), Main: true},
			{Key: "over", Label: "Its top leans over", Gives: form.Text(), Main: true},
			{Key: "slant", Label: "Metal along the torch", Gives: length(unit.Plate), Main: true},
			{Key: "shift", Label: "Across, from top edge to bottom edge", Gives: mark, Main: true},
			{Key: "guide_offset", Label: "Guide to the bevel's line", Gives: mark, Main: true},
			{Key: "guide_square", Label: "Guide to the square line", Gives: mark},
			{Key: "order", Label: "Order", Gives: form.Text(), Main: true},
			{Key: "passes", Label: "Passes", Gives: form.Rows("pass", "Pass", "line", "Line back from the finished edge", "metal", "Metal along the torch", "guide", "Guide to its line")},
			{Key: "kerf_top", Label: "Kerf on the surface", Gives: length(unit.Kerf)},
			{Key: "land_give", Label: "What a hand's wander does to the land", Gives: length(unit.Slack)},
		},
		Sources: []source.ID{source.CommonPractice},
		Run:     runBevel,
	}
}}
