package layout

import (
	"math"
	"slices"
	"strconv"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// mostStations is how many lines a hand can set out round a pipe.
const mostStations = 96

// PipeSaddle is the calculator pipe-saddle.
var PipeSaddle = form.Declaration{Name: "pipe-saddle", Make: func() form.Calculator {
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	mark, angle := length(unit.Marking), form.Number[unit.Angle]("°", "°")
	return form.Calculator{
		Title: "Pipe saddle",
		About: "Lays out a branch pipe that meets a header pipe at any angle: its cut, and the hole.",
		Place: "layout",
		Terms: []string{"fishmouth", "cope", "notch", "branch", "tee", "lateral", "stub", "rail", "post", "template", "wrap", "ordinates", "saddle"},
		Fields: slices.Concat(pipeFields("header", "Header pipe"), pipeFields("branch", "Branch pipe"), []form.Field{
			{Key: "angle", Label: "Angle between the pipes", Help: "Between their centre lines, the acute one. Square is 90°", Takes: angle, Chips: []string{"90°", "60°", "45°", "30°"}, Limits: form.Within(15*unit.Degree, 90*unit.Degree)},
			{Key: "fit", Label: "How it fits", Takes: form.OneOf(SaddleFits...), Default: "square", Help: "The torch always points at the branch's centre line"},
			{Key: "past", Label: "Goes in past the header's bore by", Takes: mark, Default: "0mm", Basis: source.Neutral, Only: form.When("fit", "in"), Chips: []string{"0mm", "2mm"}, ChipsUS: []string{"0mm", "1/16in"}, Limits: form.Within(0, 200*unit.Millimetre)},
			{Key: "hole", Label: "Hole in the header", Help: "A hole that nobody needs weakens a post", Takes: form.OneOf("none", "None: a post or a rail", "cut", "Cut one: something flows through"), Default: "none", Only: form.When("fit", "square", "bore", "outside")},
			{Key: "centre_length", Label: "Header's centre line to the branch's far end", Help: "Tells where the base line lies. Left empty: from the base line only", Takes: mark, Optional: true, Limits: form.Within(20*unit.Millimetre, 20*unit.Metre)},
			{Key: "offset", Label: "Branch beside the centre by", Help: "To the right as you face the acute side, far end up. Minus is to the left", Takes: mark, Default: "0mm", Basis: source.Neutral, Fine: true, Limits: form.Within(-unit.Metre, unit.Metre)},
			{Key: "gap", Label: "Gap for the weld", Help: "Set on: along the branch. Set in: round the hole", Takes: mark, Default: "0mm", Basis: source.Neutral, Fine: true, Chips: []string{"0mm", "2mm", "3mm"}, ChipsUS: []string{"0in", "1/16in", "1/8in"}, Limits: form.Within(0, 20*unit.Millimetre)},
			{Key: "stations", Label: "Lines round the branch", Takes: form.OneOf("8", "8", "12", "12", "16", "16", "24", "24", "32", "32", "step", "No wider apart than"), Default: "16", Basis: source.CommonPractice, Fine: true},
			{Key: "step", Label: "Widest step between lines", Help: "By tape, round the branch", Takes: mark, Only: form.When("stations", "step"), Fine: true, Chips: []string{"10mm", "20mm"}, ChipsUS: []string{"1/2in", "1in"}, Limits: form.Within(3*unit.Millimetre, unit.Metre)},
			{Key: "groove", Label: "Groove angle for the weld", Help: "From the welding procedure. Left empty: no bevel is told", Takes: angle, Optional: true, Fine: true, Chips: []string{"45°", "60°"}, Limits: form.Within(20*unit.Degree, 90*unit.Degree)},
			{Key: "kerf", Label: "Kerf", Known: "plan.kerf", Help: "Measured on a trial strip, or from the plan", Takes: length(unit.Kerf), Default: "1.5mm", Basis: source.CommonPractice, Fine: true, Limits: form.Within(0.3*unit.Millimetre, 15*unit.Millimetre)},
			paperField(), tapeField(),
		}),
		Results: []form.Result{
			{Key: "deepest", Label: "Deepest drop from the base line", Gives: mark, Main: true},
			{Key: "to_axis", Label: "Base line to the header's centre line", Gives: mark, Main: true},
			{Key: "to_skin", Label: "Base line to the header's skin, along the centre", Gives: mark},
			{Key: "base", Label: "Base line from the branch's far end", Gives: mark, Main: true},
			{Key: "stock", Label: "Branch pipe needed", Gives: mark},
			{Key: "girth", Label: "Girth of the branch", Gives: mark},
			{Key: "spacing", Label: "Lines apart, by tape", Gives: mark},
			{Key: "chord", Label: "Lines apart, by dividers", Gives: mark},
			{Key: "rows", Label: "Lines along the branch: down from the base line, or up from a square end", Gives: form.Rows("station", "Line", "round", "Round", "drop", "Down", "back", "Up")},
			{Key: "cut", Label: "Length of the cut", Gives: mark},
			{Key: "hole_along", Label: "Hole along the header", Gives: mark, Main: true},
			{Key: "hole_round", Label: "Hole round the header, by tape", Gives: mark, Main: true},
			{Key: "hole_across", Label: "Hole straight across", Gives: mark},
			{Key: "hole_rows", Label: "Points of the hole, from where the centre lines cross: round is by tape, across is straight", Gives: form.Rows("station", "Point", "along", "Along", "round", "Round", "across", "Across")},
			{Key: "hole_cut", Label: "Length of the hole's cut", Gives: mark},
			{Key: "sides", Label: "How the skins meet, what a straight cut opens, and the bevel for the groove", Gives: form.Rows("side", "Side", "dihedral", "Skins at", "opening", "Cut opens", "bevel", "Bevel")},
		},
		Sources: []source.ID{source.CommonPractice},
		Run:     runSaddle,
	}
}}

// paperField asks how thick a paper is that is wrapped round a pipe.
func paperField() form.Field {
	return form.Field{Key: "paper", Label: "Paper thickness", Help: "It is printed 3.14 times its thickness longer than the girth", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Default: "0.1mm", Basis: source.CommonPractice, Fine: true,
		Limits: form.Within(0, 3*unit.Millimetre)}
}

func runSaddle(r *form.Reader, a *form.Answer) error {
	in := SaddleInput{
		Header: readPipe(r, "header"), Branch: readPipe(r, "branch"),
		Angle: form.Get[unit.Angle](r, "angle"), Fit: form.GetWord(r, "fit"), Hole: form.GetWord(r, "hole") == "cut",
		Offset: form.Get[unit.Length](r, "offset"), Gap: form.Get[unit.Length](r, "gap"),
	}
	if past := form.Get[unit.Length](r, "past"); in.Fit == "in" {
		in.Past = past
	}
	far, groove := form.Get[unit.Length](r, "centre_length"), form.Get[unit.Angle](r, "groove")
	kerf, paper := form.Get[unit.Length](r, "kerf"), form.Get[unit.Length](r, "paper")
	in.Stations = stationsOf(r, in.Branch)
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeSaddle(in)
	if err != nil {
		return err
	}
	if far > 0 && far <= res.ToAxis {
		return problem.New(problem.Range, "centre_length", "the branch's far end would lie below its base line", "Measure from the header's centre line: the base line alone is "+form.SayAs(a, res.ToAxis, unit.Marking)+" from it.")
	}
	form.Put(a, "deepest", res.Deepest)
	form.Put(a, "to_axis", res.ToAxis)
	if in.Fit != "in" {
		form.Put(a, "to_skin", res.ToSkin)
	}
	if far > 0 {
		form.Put(a, "base", far-res.ToAxis)
		form.Put(a, "stock", far-res.ToAxis+res.Deepest)
	}
	form.Put(a, "girth", res.Girth)
	form.Put(a, "spacing", res.Spacing)
	form.Put(a, "chord", res.Chord)
	putStations(a, res)
	form.Put(a, "cut", res.Cut)
	addCut(a, "Saddle of the branch", in.Branch.Wall, res.Cut, "1", 1)
	if res.Hole != nil {
		putHole(a, res.Hole)
		addCut(a, "Hole in the header", res.Hole.Slant, res.Hole.Cut, "1", 1)
	}
	putSides(a, in, res, groove)
	drawSaddle(a, in, res, kerf)
	addSaddleTemplates(a, in, res, kerf, paper)
	saySaddle(a, in, res)
	in.Header.cite(a)
	in.Branch.cite(a)
	return nil
}

// stationsOf reads how many lines stand round the branch. By a step there are as few
// quarters' worth as keep it.
func stationsOf(r *form.Reader, branch Pipe) int {
	word, step := form.GetWord(r, "stations"), form.Get[unit.Length](r, "step")
	if word != "step" {
		n, _ := strconv.Atoi(word)
		return n
	}
	if step == 0 {
		return 4 // the reader has said so
	}
	n := 4 * math.Ceil(math.Pi*float64(branch.OD)/(4*float64(step))-1e-9)
	if n > mostStations {
		least := unit.Length(math.Pi*float64(branch.OD)) / mostStations
		r.Fail("step", problem.Newf(problem.Range, "", "steps that small are more lines than a hand can set out round this pipe").
			WithHint("Give %s or more, or print the template.", unit.In(unit.Length(math.Ceil(float64(least)*1000))*unit.Millimetre, "mm")))
		return 4
	}
	return max(int(n), 4)
}

func putStations(a *form.Answer, res SaddleResult) {
	var rows []*form.Row
	for i, s := range res.Stations {
		rows = append(rows, markRow(a, strconv.Itoa(i), []string{"station", "round", "drop", "back"}, s.Round, s.Drop, s.Back))
	}
	a.PutRows("rows", rows)
}

func putHole(a *form.Answer, h *SaddleHole) {
	form.Put(a, "hole_along", h.Along)
	form.Put(a, "hole_round", h.Round)
	form.Put(a, "hole_across", h.Across)
	form.Put(a, "hole_cut", h.Cut)
	var rows []*form.Row
	for i, m := range h.Marks {
		rows = append(rows, markRow(a, strconv.Itoa(i), []string{"station", "along", "round", "across"}, m.Along, m.Round, m.Across))
	}
	a.PutRows("hole_rows", rows)
}

// sideNames are the four sides in the order of the stations. Square pipes have no acute
// side: there both lie along the header.
func sideNames(in SaddleInput) [4]string {
	if in.Angle > 89.99*unit.Degree {
		return [4]string{"along the header, line 0", "right", "along the header, far side", "left"}
	}
	return [4]string{"acute side, line 0", "right", "obtuse side", "left"}
}

// putSides tells how the skins meet, what a straight cut leaves open, and the bevel that
// a groove then wants. A bevel opens outwards what the cut has not opened.
func putSides(a *form.Answer, in SaddleInput, res SaddleResult, groove unit.Angle) {
	angle := form.Number[unit.Angle]("°", "°")
	var rows []*form.Row
	for i, side := range res.Sides {
		row := a.NewRow()
		row.PutWord("side", sideNames(in)[i])
		form.PutCell(row, "dihedral", angle, side.Dihedral)
		form.PutCellSaid(row, "opening", side.Opening, opens(a, side.Opening))
		switch bevel := groove - side.Opening; {
		case groove == 0:
		case bevel < unit.Degree/2:
			form.PutCellSaid[unit.Angle](row, "bevel", 0, "none")
		default:
			form.PutCell(row, "bevel", angle, bevel)
		}
		rows = append(rows, row)
	}
	a.PutRows("sides", rows)
}

// opens says on which side a straight cut is open.
func opens(a *form.Answer, opening unit.Angle) string {
	switch {
	case opening > unit.Degree/2:
		return form.Say(a, opening) + " outside"
	case opening < -unit.Degree/2:
		return form.Say(a, -opening) + " inside"
	}
	return "flat"
}

func saySaddle(a *form.Answer, in SaddleInput, res SaddleResult) {
	n := in.Stations
	worked := func(l unit.Length) string { return workedLength(a, l) }
	R, surface := in.Header.OD/2, "outside"
	if in.Fit == "in" {
		R, surface = in.Header.Bore()/2-in.Past, "bore"
	}
	a.Step("header: %s; R = %s of its %s. Branch: %s", in.Header.Say(a), worked(R), surface, in.Branch.Say(a))
	a.Step("s = (√(R² − (offset + r × sin p)²) + r × cos p × cos T) ÷ sin T, p = 360° × line ÷ %d, T = %s", n, form.Say(a, in.Angle))
	for _, i := range []int{0, n / 4} {
		p := stationAngle(i, n)
		drop, touches := res.line(p)
		r := unit.Length(touches)
		s := res.ToAxis - unit.Length(drop)
		if in.Fit != "in" {
			s -= in.Gap / unit.Length(math.Sin(float64(in.Angle)))
		}
		a.Step("line %d: p = %s, r = %s, s = %s, down from the base line %s", i, form.Say(a, unit.Angle(p)), worked(r), worked(s), worked(unit.Length(drop)))
	}
	if in.Fit == "square" {
		a.Step("r is where the wall touches first: of %s to %s the radius with the largest s", worked(in.Branch.Bore()/2), worked(in.Branch.OD/2))
	}
	a.Step("girth = π × %s = %s; ÷ %d = %s", worked(in.Branch.OD), worked(res.Girth), n, worked(res.Spacing))
	if in.Gap > 0 && in.Fit != "in" {
		a.Step("gap: moved %s ÷ sin T up the branch leaves %s at the crown and %s at the sides", worked(in.Gap), worked(in.Gap), worked(res.SideGap))
	}
	if h := res.Hole; h != nil {
		a.Step("hole: along = cot T × √(R² − across²) + r × cos p ÷ sin T; by tape R × asin(across ÷ R), R = %s", worked(in.Header.OD/2))
	}
	a.Caution(safety.HollowStop)
	a.Caution("Know what the header holds and held. A line in service is shut off, drained and purged by its owner's rules first.")
	a.Caution("Pressure pipe and structure: the code and a qualified procedure decide the joint, the hole and what stiffens it.")
	if in.Angle < 45*unit.Degree {
		a.Cite("navedtra-14251-branch")
		a.Caution("Under 45° the acute side is hard to weld.")
	}
	if in.Angle < 30*unit.Degree {
		a.Caution("Under 30° hardly any torch or rod reaches into it. Ask whoever designs the joint.")
	}
	a.Caution("A hand cut wanders by 1 mm (1/32 in) or so, by common practice. Cut outside the line, fit, then grind.")
}
