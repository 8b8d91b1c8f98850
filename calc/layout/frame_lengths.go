package layout

import (
	"math"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// FrameInput is a rectangular frame of one bar, given by its outside.
type FrameInput struct {
	Bar        string      // "flat" lying, "edge" standing, "angle", "square" or "rect"
	Wide, High unit.Length // outside
	Face       unit.Length // of the bar, in the plane of the frame; of a flat on edge its thickness
	Depth      unit.Length // of the bar across that plane; of square tube as Face
	Wall       unit.Length
	Butt       bool // else mitred
	HighRuns   bool // of a butted one: the uprights run through
	Frames     int
	Kerf       unit.Length
}

// FramePiece is one length of bar.
type FramePiece struct {
	Count       int
	Long, Short unit.Length // between the long points and the short points of its ends
}

// FrameResult is what a frame is cut from.
type FrameResult struct {
	Pieces   []FramePiece // those across, then the uprights; one entry where they are the same
	Diagonal unit.Length  // outside
	Ends     int          // cuts, one for each end
	Cut      unit.Length  // how far the arc goes at one end
	Thick    unit.Length  // metal along the torch, where it is most
	Bar      unit.Length  // all pieces end to end, and the kerfs
}

// ComputeFrame cuts a frame of outside b × h from a bar with face f in its plane:
//
//	mitred   b and h at the long points, 2·f less at the short points
//	butted   what runs through has its full length, what stands between it 2·f less
//	an end   mitred: √2·f along each face, and the depth at each side, where the torch
//	         leans by 45° and the wall is √2 times as thick along it
//
// A flat on edge is cut by the leaning torch alone. Rounded corners of tube are counted
// as square. Refused: a bar too wide for the frame, and butted angle, which needs a
// notch. Plane geometry; no source needed.
func ComputeFrame(in FrameInput) (FrameResult, error) {
	if 2*in.Face >= min(in.Wide, in.High) {
		field := "face"
		if in.Bar == "edge" {
			field = "thickness"
		}
		return FrameResult{}, problem.New(problem.Conflict, field, "two bars are as wide as the frame: nothing is left inside", "Give the outside of the frame, and the bar as it lies in it.")
	}
	if in.Butt && in.Bar == "angle" {
		return FrameResult{}, problem.New(problem.Refused, "corner", "angle cannot be butted square: one leg is in the way", "Mitre it, or notch one leg by hand.")
	}
	across, upright := FramePiece{Count: 2 * in.Frames, Long: in.Wide, Short: in.Wide - 2*in.Face}, FramePiece{Count: 2 * in.Frames, Long: in.High, Short: in.High - 2*in.Face}
	if in.Butt {
		across.Short, upright.Long = across.Long, upright.Short
		if in.HighRuns {
			across.Long, across.Short = in.Wide-2*in.Face, in.Wide-2*in.Face
			upright.Long, upright.Short = in.High, in.High
		}
	}
	res := FrameResult{Pieces: []FramePiece{across, upright}, Diagonal: unit.Length(math.Hypot(float64(in.Wide), float64(in.High))), Ends: 8 * in.Frames, Thick: in.Wall}
	if across.Long == upright.Long && across.Short == upright.Short {
		across.Count *= 2
		res.Pieces = []FramePiece{across}
	}
	stretch := unit.Length(math.Sqrt2)
	if in.Butt {
		stretch = 1
	}
	faces := map[string]unit.Length{"flat": 1, "angle": 1, "square": 2, "rect": 2}[in.Bar]
	sides := map[string]unit.Length{"edge": 1, "angle": 1, "square": 2, "rect": 2}[in.Bar]
	res.Cut = faces*stretch*in.Face + sides*in.Depth
	if sides > 0 {
		res.Thick *= stretch
	}
	for _, p := range res.Pieces {
		res.Bar += unit.Length(p.Count) * (p.Long + 2*stretch*in.Kerf)
	}
	return res, nil
}

// GussetInput is a gusset in a corner.
type GussetInput struct {
	Leg, Other unit.Length // along the two sides of the corner
	Corner     unit.Angle
	Snip       unit.Length // cut off the corner, along each leg
	Nose       unit.Length // of each toe, square to its leg
}

// GussetResult is its outline.
type GussetResult struct {
	Points []drawing.Point // from the corner's cut along Leg and round, mm; Leg lies along x
	Edge   unit.Length     // the long one
	Cut    unit.Length     // all round
}

// ComputeGusset draws a gusset with legs a and b at a corner of angle c, a snip s and a
// nose n: its points are (s, 0), (a, 0), (a, n), then n inward of b's end, b's end, and s
// along b. Without snip and nose it is a triangle, its long edge √(a² + b² − 2ab·cos c).
// Refused where nothing convex is left.
func ComputeGusset(in GussetInput) (GussetResult, error) {
	if in.Snip >= min(in.Leg, in.Other) {
		return GussetResult{}, problem.New(problem.Conflict, "snip", "the snip cuts off a whole leg", "It only clears the weld in the corner: 10 to 20 mm (3/8 to 3/4 in) do for most.")
	}
	sin, cos := math.Sincos(float64(in.Corner))
	a, b, s, n := inMM(in.Leg), inMM(in.Other), inMM(in.Snip), inMM(in.Nose)
	all := []drawing.Point{{X: s, Y: 0}, {X: a, Y: 0}, {X: a, Y: n}, {X: b*cos + n*sin, Y: b*sin - n*cos}, {X: b * cos, Y: b * sin}, {X: s * cos, Y: s * sin}}
	res := GussetResult{Edge: unit.Length(math.Hypot(all[3].X-all[2].X, all[3].Y-all[2].Y)) * unit.Millimetre}
	for i, p := range all {
		next := all[(i+1)%6]
		long := math.Hypot(next.X-p.X, next.Y-p.Y)
		res.Cut += unit.Length(long) * unit.Millimetre
		if long > 1e-6 {
			res.Points = append(res.Points, p)
		}
	}
	for i, p := range res.Points {
		q, r := res.Points[(i+1)%len(res.Points)], res.Points[(i+2)%len(res.Points)]
		if (q.X-p.X)*(r.Y-q.Y)-(q.Y-p.Y)*(r.X-q.X) <= 0 {
			return GussetResult{}, problem.New(problem.Conflict, "nose", "with such noses no long edge is left", "About the thickness of the plate does where a toe is sharp. One of 90° or more needs none.")
		}
	}
	return res, nil
}

// FrameLengths is the calculator frame-lengths.
var FrameLengths = form.Declaration{Name: "frame-lengths", Make: func() form.Calculator {
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	mark := length(unit.Marking)
	frames := form.When("make", "square", "rect", "angle", "flat", "edge")
	gusset := form.When("make", "gusset")
	size, bar := form.Within(10*unit.Millimetre, 20*unit.Metre), form.Within(3*unit.Millimetre, unit.Metre)
	return form.Calculator{
		Title: "Frame and gusset",
		About: "Cut lengths of a mitred or butted frame, long points and short points. Or a gusset with its corner snipped.",
		Place: "layout",
		Terms: []string{"frame", "mitre", "miter", "picture frame", "square tube", "box section", "angle iron", "gusset", "brace", "snip", "long point", "short point"},
		Fields: []form.Field{
			{Key: "make", Label: "What", Takes: form.OneOf("square", "Frame of square tube", "rect", "Frame of rectangular tube", "angle", "Frame of angle", "flat", "Frame of flat bar, lying", "edge", "Frame of flat bar, on edge", "gusset", "Gusset"), Default: "square"},
			{Key: "wide", Label: "Frame, across", Help: "Outside, corner to corner", Takes: mark, Only: frames, Chips: []string{"500mm", "1m", "2m"}, ChipsUS: []string{"2ft", "3ft", "4ft"}, Limits: size},
			{Key: "high", Label: "Frame, up", Help: "Outside, the other way", Takes: mark, Only: frames, Chips: []string{"500mm", "1m", "2m"}, ChipsUS: []string{"2ft", "3ft", "4ft"}, Limits: size},
			{Key: "face", Label: "Face of the bar", Help: "Its width as you look at the frame. Measure it", Takes: mark, Only: form.When("make", "square", "rect", "angle", "flat"), Chips: []string{"30mm", "40mm", "50mm"}, ChipsUS: []string{"1in", "1-1/2in", "2in"}, Limits: bar},
			{Key: "bar_depth", Label: "Depth of the bar", Help: "From the front of the frame to its back", Takes: mark, Only: form.When("make", "rect", "angle", "edge"), Chips: []string{"30mm", "40mm", "50mm"}, ChipsUS: []string{"1in", "1-1/2in", "2in"}, Limits: bar},
			{Key: "thickness", Label: "Thickness or wall", Known: "plan.thickness", Takes: length(unit.Plate), Chips: []string{"2mm", "3mm", "5mm", "6mm"}, ChipsUS: []string{"1/16in", "1/8in", "3/16in", "1/4in"}, Limits: form.Within(0.5*unit.Millimetre, 60*unit.Millimetre)},
			{Key: "corner", Label: "Corners", Takes: form.OneOf("mitre", "Mitred, 45°", "butt", "Butted, square"), Default: "mitre", Only: frames},
			{Key: "through", Label: "Running through", Takes: form.OneOf("wide", "The bars across", "high", "The uprights"), Default: "wide", Only: form.When("corner", "butt")},
			{Key: "frames", Label: "How many frames", Takes: form.Count(), Default: "1", Basis: source.Neutral, Only: frames, Limits: form.WithinCount(1, 100)},
			{Key: "leg", Label: "Leg", Help: "Along one side of the corner", Takes: mark, Only: gusset, Chips: []string{"100mm", "150mm", "200mm"}, ChipsUS: []string{"4in", "6in", "8in"}, Limits: size},
			{Key: "other_leg", Label: "Other leg", Help: "Along the second side", Takes: mark, Only: gusset, Chips: []string{"100mm", "150mm", "200mm"}, ChipsUS: []string{"4in", "6in", "8in"}, Limits: size},
			{Key: "snip", Label: "Snip at the corner", Help: "Along each leg. It clears the weld that runs through", Takes: mark, Default: "0mm", Basis: source.Neutral, Only: gusset, Chips: []string{"0mm", "10mm", "20mm"}, ChipsUS: []string{"0in", "3/8in", "3/4in"}, Limits: form.Within(0, unit.Metre)},
			{Key: "nose", Label: "Nose of the toes", Help: "Square to each leg. A sharp toe burns away under the weld", Takes: mark, Default: "0mm", Basis: source.Neutral, Only: gusset, Chips: []string{"0mm", "6mm", "10mm"}, ChipsUS: []string{"0in", "1/4in", "3/8in"}, Limits: form.Within(0, unit.Metre)},
			{Key: "corner_angle", Label: "Angle of the corner", Takes: form.Number[unit.Angle]("°", "°"), Default: "90°", Basis: source.Neutral, Only: gusset, Fine: true, Limits: form.Within(20*unit.Degree, 160*unit.Degree)},
			{Key: "count", Label: "Pieces", Takes: form.Count(), Default: "1", Basis: source.Neutral, Only: gusset, Limits: form.WithinCount(1, 200)},
			{Key: "kerf", Label: "Kerf", Known: "plan.kerf", Help: "Measured on a trial strip, or from the plan", Takes: length(unit.Kerf), Default: "1.5mm", Basis: source.CommonPractice, Fine: true, Only: frames, Limits: form.Within(0.3*unit.Millimetre, 15*unit.Millimetre)},
		},
		Results: []form.Result{
			{Key: "pieces", Label: "Pieces", Gives: form.Rows("count", "How many", "long", "Long points", "short", "Short points")},
			{Key: "how", Label: "How each end is cut", Gives: form.Text()},
			{Key: "diagonal", Label: "Outside diagonal, both the same", Gives: mark, Main: true},
			{Key: "bar", Label: "Bar for all, end to end", Gives: mark, Main: true},
			{Key: "ends", Label: "Ends to cut", Gives: form.Count()},
			{Key: "edge", Label: "Long edge", Gives: mark, Main: true},
			{Key: "points", Label: "Corners, from where the legs meet", Gives: form.Rows("point", "Corner", "along", "Along the leg", "off", "Square off it")},
			{Key: "cut", Label: "Length of one cut", Gives: mark},
			{Key: "thick", Label: "Metal along the torch, at most", Gives: length(unit.Plate)},
		},
		Sources: []source.ID{source.CommonPractice},
		Run:     runFrame,
	}
}}
