package cutting

import (
	"math"
	"strconv"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// faceRange is a range of ISO 9013: limit = base + slope · thickness.
type faceRange struct {
	base  unit.Length
	slope float64
}

func (f faceRange) at(a unit.Length) unit.Length { return f.base + unit.Length(f.slope)*a }

// The ranges of ISO 9013:2017 for perpendicularity or angularity u and for mean
// height of the profile Rz5, by thickness a in millimetres. u range 5 is seen in
// a printed worksheet only; Rz5 has no range 5.
var (
	squareRanges = []faceRange{{0.05e-3, 0.003}, {0.15e-3, 0.007}, {0.4e-3, 0.01}, {0.8e-3, 0.02}, {1.2e-3, 0.035}}
	roughRanges  = []faceRange{{10e-6, 0.6e-3}, {40e-6, 0.8e-3}, {70e-6, 1.2e-3}, {110e-6, 1.8e-3}}
)

// edgeLeftOut is Δa, the depth that is left out at the top and bottom edge when
// a face is measured (ISO 9013 table 4, from memory). Above 3 mm it depends on
// the thickness by steps.
func edgeLeftOut(a unit.Length) unit.Length {
	if a <= 3e-3 {
		return 0.1 * a
	}
	for _, s := range []struct{ to, out unit.Length }{{6e-3, 0.3e-3}, {10e-3, 0.6e-3}, {20e-3, 1e-3}, {40e-3, 1.5e-3}, {100e-3, 2e-3}} {
		if a <= s.to {
			return s.out
		}
	}
	return 3e-3
}

// FaceInput is a cut face as measured.
type FaceInput struct {
	Thickness unit.Length
	U         unit.Length // perpendicularity; 0 if not measured, or from Gap
	Gap       unit.Length // light under a square held to the face, at its widest
	Height    unit.Length // over which Gap was seen; 0 for the thickness
	Rz5       unit.Length // 0 if not measured
	Drag      unit.Length // n: how far a drag line trails from top to bottom; 0 if not measured
}

// FaceResult is the face's grade.
type FaceResult struct {
	U           unit.Length
	Square      int // range of u: 1 to 5, 6 for outside all, 0 for not measured
	Rough       int // range of Rz5: 1 to 4, 5 for outside all, 0 for not measured
	Designation string
	Limits      []unit.Length // of u at this thickness
	RoughLimits []unit.Length // of Rz5
	Slope       unit.Angle    // atan(u/a)
	Trail       unit.Angle    // drag angle atan(n/a)
	LeftOut     unit.Length
}

// faceThinnest and faceThickest are what ISO 9013:2017 covers for plasma cuts.
const (
	faceThinnest = 0.5 * unit.Millimetre
	faceThickest = 150 * unit.Millimetre
)

// ComputeFace grades a cut face by ISO 9013:2017 (formulae from second-hand
// copies; u confirmed against a printed worksheet).
//
//	u limits    0.05+0.003a  0.15+0.007a  0.4+0.01a  0.8+0.02a  1.2+0.035a   mm
//	Rz5 limits  10+0.6a      40+0.8a      70+1.2a    110+1.8a                µm
//
// a is the thickness in mm, 0.5 to 150. A value on a limit belongs to the better
// range. u from a square is its gap, scaled to the thickness if it was seen over
// less than that. The designation is u range, Rz5 range and x for the size
// class, which takes a drawing; 0 stands for what was not measured and "outside"
// for what no range holds.
func ComputeFace(in FaceInput) (FaceResult, error) {
	a := in.Thickness
	if in.U > 0 && in.Gap > 0 {
		return FaceResult{}, problem.New(problem.Conflict, "gap", "both u and a gap are given", "Enter one: u as measured, or the gap under a square.")
	}
	if in.Height > a {
		return FaceResult{}, problem.New(problem.Conflict, "height", "the gap was seen over more than the thickness", "Enter the height of face over which the square stood off.")
	}
	res := FaceResult{U: in.U, LeftOut: edgeLeftOut(a)}
	if in.Gap > 0 {
		res.U = in.Gap
		if in.Height > 0 {
			res.U *= a / in.Height
		}
	}
	if res.U == 0 && in.Rz5 == 0 && in.Drag == 0 {
		return FaceResult{}, problem.New(problem.Missing, "u", "nothing was measured", "Enter u, the gap under a square, the roughness Rz5 or the drag n.")
	}
	res.Limits, res.Square = grade(squareRanges, a, res.U)
	res.RoughLimits, res.Rough = grade(roughRanges, a, in.Rz5)
	if res.U > 0 || in.Rz5 > 0 {
		res.Designation = designation(res)
	}
	res.Slope = unit.Angle(math.Atan(float64(res.U / a)))
	res.Trail = unit.Angle(math.Atan(float64(in.Drag / a)))
	return res, nil
}

// grade returns the limits of the ranges at a, and which range v is in: 0 for
// no value, one past the last for outside all.
func grade(ranges []faceRange, a, v unit.Length) (limits []unit.Length, at int) {
	at = len(ranges) + 1
	for i := len(ranges) - 1; i >= 0; i-- {
		limit := ranges[i].at(a)
		limits = append([]unit.Length{limit}, limits...)
		if v <= limit*(1+1e-12) { // a value read at the limit is not past it
			at = i + 1
		}
	}
	if v == 0 {
		at = 0
	}
	return limits, at
}

func designation(res FaceResult) string {
	if res.Square > len(squareRanges) || res.Rough > len(roughRanges) {
		return "outside ISO 9013"
	}
	return "ISO 9013-" + strconv.Itoa(res.Square) + strconv.Itoa(res.Rough) + "x"
}

// FaceGrade is the calculator face-grade.
var FaceGrade = form.Declaration{Name: "face-grade", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Face grade",
		About: "Grades a cut face by ISO 9013. Takes a square and feeler gauge, a roughness figure and the trail of its lines.",
		Place: "cut",
		Terms: []string{"quality", "ISO 9013", "bevel", "square", "roughness", "Rz5", "perpendicularity", "angularity", "drag", "lag lines", "tolerance"},
		Fields: []form.Field{
			{Key: "thickness", Label: "Thickness", Takes: form.Number[unit.Length]("mm", "in").As(unit.Plate), Chips: []string{"6mm", "10mm", "20mm"}, ChipsUS: []string{"1/4in", "3/8in", "3/4in"}, Limits: form.Within(faceThinnest, faceThickest)},
			{Key: "u", Label: "Perpendicularity u", Help: "Band between two lines that hold the face, edges left out", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Optional: true, Fine: true, Limits: form.Within(unit.Micrometre, 50*unit.Millimetre)},
			{Key: "gap", Label: "Gap under a square", Help: "Widest light between square and face, by feeler gauge", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Optional: true, Limits: form.Within(10*unit.Micrometre, 50*unit.Millimetre)},
			{Key: "height", Label: "Seen over a height of", Help: "Left empty: the whole thickness", Takes: form.Number[unit.Length]("mm", "in"), Optional: true, Fine: true, Limits: form.Within(0.3*unit.Millimetre, faceThickest)},
			{Key: "rz5", Label: "Roughness Rz5", Help: "Mean height of the profile, from a tester or a comparison plate", Takes: form.Number[unit.Length]("µm", "thou"), Optional: true, Fine: true, Limits: form.Within(0.1*unit.Micrometre, 2*unit.Millimetre)},
			{Key: "n", Label: "Drag n", Help: "How far a line on the face trails from top to bottom", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Optional: true, Limits: form.Within(10*unit.Micrometre, 200*unit.Millimetre)},
		},
		Results: []form.Result{
			{Key: "designation", Label: "Designation", Gives: form.Text(), Main: true},
			{Key: "u", Label: "Perpendicularity u", Gives: form.Number[unit.Length]("mm", "in").As(unit.Kerf)},
			{Key: "u_range", Label: "Range of u", Gives: form.Count(), Main: true},
			{Key: "rz5_range", Label: "Range of Rz5", Gives: form.Count(), Main: true},
			{Key: "slope", Label: "Face off square by", Gives: form.Number[unit.Angle]("°", "°")},
			{Key: "drag_angle", Label: "Drag angle", Gives: form.Number[unit.Angle]("°", "°")},
			{Key: "left_out", Label: "Leave out at each edge", Gives: form.Number[unit.Length]("mm", "in").As(unit.Kerf)},
			{Key: "ranges", Label: "Ranges at this thickness", Gives: form.Rows("range", "Range", "u", "u up to", "rz5", "Rz5 up to")},
		},
		Sources: []source.ID{"iso-9013", "from-memory"},
		Run:     runFace,
	}
}}

func runFace(r *form.Reader, a *form.Answer) error {
	in := FaceInput{
		Thickness: form.Get[unit.Length](r, "thickness"),
		U:         form.Get[unit.Length](r, "u"),
		Gap:       form.Get[unit.Length](r, "gap"),
		Height:    form.Get[unit.Length](r, "height"),
		Rz5:       form.Get[unit.Length](r, "rz5"),
		Drag:      form.Get[unit.Length](r, "n"),
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeFace(in)
	if err != nil {
		return err
	}
	a.Draw("square-face", map[string]any{"thickness": a.MM(in.Thickness, unit.Plate), "u": a.MM(res.U, unit.Kerf), "drag": a.MM(in.Drag, unit.Kerf)})
	if res.Designation != "" {
		a.PutWord("designation", res.Designation)
	}
	if res.U > 0 {
		form.Put(a, "u", res.U)
		a.PutCount("u_range", res.Square)
		form.Put(a, "slope", res.Slope)
		if in.Height > 0 {
			a.Step("u = %s × %s ÷ %s = %s", form.SayIn(a, in.Gap, "mm", "in"), form.SayIn(a, in.Thickness, "mm", "in"), form.SayIn(a, in.Height, "mm", "in"), form.SayIn(a, res.U, "mm", "in"))
		}
		stepRange(a, "u", squareRanges, in.Thickness, res.Square, "mm")
	}
	if in.Rz5 > 0 {
		a.PutCount("rz5_range", res.Rough)
		stepRange(a, "Rz5", roughRanges, in.Thickness, res.Rough, "µm")
	}
	if in.Drag > 0 {
		form.Put(a, "drag_angle", res.Trail)
		a.Step("drag angle = arc tan(%s ÷ %s) = %s", form.SayIn(a, in.Drag, "mm", "in"), form.SayIn(a, in.Thickness, "mm", "in"), form.Say(a, res.Trail))
	}
	form.Put(a, "left_out", res.LeftOut)
	rows := make([]*form.Row, len(res.Limits))
	for i := range rows {
		rows[i] = a.NewRow()
		rows[i].PutFactor("range", float64(i+1))
		form.PutCell(rows[i], "u", form.Number[unit.Length]("mm", "in").As(unit.Kerf), res.Limits[i])
		if i < len(res.RoughLimits) {
			form.PutCell(rows[i], "rz5", form.Number[unit.Length]("µm", "thou"), res.RoughLimits[i])
		}
	}
	a.PutRows("ranges", rows)
	if res.Square > len(squareRanges) || res.Rough > len(roughRanges) {
		a.Caution("The face is outside every range: square up the torch, look at tip and standoff, and cut again. " + safety.MadeDead)
	}
	a.Caution("A face just cut is hot, and its edges are sharp: gloves on, and let it cool first.")
	a.Caution("Measure where neither start, corner nor end spoils the face. Where a grade is in a contract, the bought standard decides.")
	return nil
}

// stepRange shows the limit that decides, in the formula's own unit.
func stepRange(a *form.Answer, name string, ranges []faceRange, thickness unit.Length, at int, in string) {
	i := min(at, len(ranges)) - 1
	word := "is within range " + strconv.Itoa(at)
	if at > len(ranges) {
		word = "is past range " + strconv.Itoa(len(ranges))
	}
	a.Step("%s %s: limit = %s + %s × %s = %s", name, word, unit.In(ranges[i].base, in), unit.Figures(ranges[i].slope, 3),
		unit.In(thickness, "mm"), unit.In(ranges[i].at(thickness), in))
}
