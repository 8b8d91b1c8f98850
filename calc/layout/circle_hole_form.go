package layout

import (
	"strconv"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// mostHoles is how many holes of a pattern a hand sets out.
const mostHoles = 200

// CircleHole is the calculator circle-hole.
var CircleHole = form.Declaration{Name: "circle-hole", Make: func() form.Calculator {
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	mark, slack := length(unit.Marking), length(unit.Slack)
	sizes := form.Within(unit.Millimetre, 5*unit.Metre)
	round, circle := form.When("cutout", "round"), form.When("pattern", "circle")
	return form.Calculator{
		Title: "Hole or disc",
		About: "Lays out round holes, discs, slots and openings: where to pierce, the arm, bolt holes round a circle.",
		Place: "layout",
		Terms: []string{"bolt circle", "flange", "slot", "window", "opening", "circle", "pierce", "lead-in", "chord", "pitch circle", "washer", "drill", "template"},
		Fields: []form.Field{
			{Key: "cutout", Label: "What is cut", Takes: form.OneOf("round", "Round", "slot", "Slot with round ends", "opening", "Opening with round corners"), Default: "round"},
			{Key: "diameter", Label: "Diameter", Help: "Of the finished hole or disc", Takes: mark, Only: round, Chips: []string{"20mm", "50mm", "100mm"}, ChipsUS: []string{"3/4in", "2in", "4in"}, Limits: sizes},
			{Key: "length", Label: "Length", Help: "Over all, finished", Takes: mark, Only: form.When("cutout", "slot", "opening"), Limits: sizes},
			{Key: "width", Label: "Width", Help: "Across, finished", Takes: mark, Only: form.When("cutout", "slot", "opening"), Limits: sizes},
			{Key: "corner", Label: "Radius of the corners", Help: "A sharp inside corner is where cracks begin", Takes: mark, Only: form.When("cutout", "opening"), Chips: []string{"10mm", "20mm"}, ChipsUS: []string{"3/8in", "3/4in"}, Limits: sizes},
			{Key: "thickness", Label: "Thickness", Known: "plan.thickness", Help: "Of the plate at the hole", Takes: length(unit.Plate), Chips: []string{"3mm", "6mm", "10mm"}, ChipsUS: []string{"1/8in", "1/4in", "3/8in"}, Limits: form.Within(0.3*unit.Millimetre, 200*unit.Millimetre)},
			{Key: "kept", Label: "What is kept", Help: "The kerf lies on the other side of the line", Takes: form.OneOf("plate", "The plate with the hole", "piece", "The piece that comes out"), Default: "plate"},
			{Key: "led_by", Label: "Guide", Help: "The template lies on what is kept: the waste may drop away from it", Takes: form.OneOf("arm", "Circle arm with a pivot", "template", "Template that the cup runs along", "free", "None, freehand"), Default: "arm"},
			{Key: "cup", Label: "Cup diameter", Help: "Outside of the shield cup, where it runs on the template", Takes: mark, Only: form.When("led_by", "template"), Limits: form.Within(5*unit.Millimetre, 80*unit.Millimetre)},
			{Key: "pattern", Label: "How many", Takes: form.OneOf("one", "One", "circle", "Holes evenly round a circle"), Default: "one", Only: round},
			{Key: "holes", Label: "Holes round the circle", Takes: form.Count(), Only: circle, Chips: []string{"3", "4", "6", "8", "12"}, Limits: form.WithinCount(2, mostHoles)},
			{Key: "circle", Label: "Diameter of the circle", Help: "Through the holes' centres", Takes: mark, Only: circle, Limits: form.Within(5*unit.Millimetre, 20*unit.Metre)},
			{Key: "first", Label: "Angle of hole 1", Help: "From the centre line to the right, turning to the left. Straight up is 90°", Takes: form.Number[unit.Angle]("°", "°"), Default: "0°", Basis: source.Neutral, Chips: []string{"0°", "30°", "45°", "90°"}, Only: circle, Limits: form.Within(-360*unit.Degree, 360*unit.Degree)},
			{Key: "centre_x", Label: "The circle's centre, from the left edge", Help: "0 measures the holes from the circle's own centre lines", Takes: mark, Default: "0mm", Basis: source.Neutral, Only: circle, Fine: true, Limits: form.Within(0, 20*unit.Metre)},
			{Key: "centre_y", Label: "The circle's centre, up from the lower edge", Help: "0 measures the holes from the circle's own centre lines", Takes: mark, Default: "0mm", Basis: source.Neutral, Only: circle, Fine: true, Limits: form.Within(0, 20*unit.Metre)},
			{Key: "kerf", Label: "Kerf", Known: "plan.kerf", Help: "Measured on a trial strip, or from the plan", Takes: length(unit.Kerf), Default: "1.5mm", Basis: source.CommonPractice, Fine: true, Limits: form.Within(0.3*unit.Millimetre, 15*unit.Millimetre)},
			{Key: "setting", Label: "A mark or setting may be off by", Help: "Arm, tape or dividers, either way", Takes: slack, Default: "0.5mm", Basis: source.CommonPractice, Fine: true, Limits: form.Within(0, 5*unit.Millimetre)},
			{Key: "wander", Label: "The hand wanders by", Help: "Either way. Left empty: 0.5 mm (0.02 in) along a guide, 1 mm (0.04 in) freehand", Takes: slack, Optional: true, Basis: source.CommonPractice, Fine: true, Limits: form.Within(0.1*unit.Millimetre, 5*unit.Millimetre)},
			{Key: "least", Label: "Smallest hole, in thicknesses", Help: "Left empty: 2 along a guide, 3 freehand. Never under 10 mm (3/8 in), freehand 20 mm (13/16 in)", Takes: form.Number[unit.Ratio]("×", "×"), Optional: true, Basis: source.CommonPractice, Fine: true, Limits: form.Within[unit.Ratio](1, 10)},
			{Key: "lead", Label: "Pierce so far from the line", Help: "Left empty: the thickness, 3 kerfs, or 5 mm (3/16 in), whichever is most", Takes: mark, Optional: true, Basis: source.CommonPractice, Fine: true, Limits: form.Within(2*unit.Millimetre, 100*unit.Millimetre)},
		},
		Results: []form.Result{
			{Key: "how", Label: "In short", Gives: form.Text(), Main: true},
			{Key: "arm", Label: "Pivot to the middle of the torch", Gives: mark, Main: true},
			{Key: "template_radius", Label: "Radius of the template", Gives: mark, Main: true},
			{Key: "lead_in", Label: "Pierce, away from the line by", Gives: mark, Main: true},
			{Key: "run", Label: "Length of the lead-in", Gives: mark},
			{Key: "smallest", Label: "Smallest that a hand cuts here", Gives: mark},
			{Key: "along", Label: "Between the centres, along", Gives: mark},
			{Key: "across", Label: "Between the centres, across", Gives: mark},
			{Key: "diagonal", Label: "Diagonal, to the sharp corners", Gives: mark},
			{Key: "size_off", Label: "Width may be off by, either way", Gives: slack},
			{Key: "out_of_round", Label: "Edge leaves its line by", Gives: slack},
			{Key: "passes", Label: "A pin goes through up to", Gives: mark},
			{Key: "cut", Label: "Length of one cut", Gives: mark},
			{Key: "chord", Label: "From hole to next hole", Gives: mark, Main: true},
			{Key: "check_steps", Label: "Check over so many holes", Gives: form.Count()},
			{Key: "check", Label: "Straight across those", Gives: mark, Main: true},
			{Key: "closing", Label: "A setting that is off misses hole 1 by", Gives: slack},
			{Key: "web", Label: "Metal between two holes", Gives: mark},
			{Key: "rows", Label: "Centres of the holes", Gives: form.Rows("hole", "Hole", "across", "To the right", "up", "Up", "from_first", "From hole 1")},
		},
		Sources: []source.ID{source.CommonPractice},
		Run:     runCircleHole,
	}
}}

// readHole reads what is cut; the cutout's sides come from its shape.
func readHole(r *form.Reader) HoleInput {
	in := HoleInput{
		Disc: form.GetWord(r, "kept") == "piece", Free: form.GetWord(r, "led_by") == "free",
		Thickness: form.Get[unit.Length](r, "thickness"), Kerf: form.Get[unit.Length](r, "kerf"),
		Least: form.Get[unit.Ratio](r, "least"), Lead: form.Get[unit.Length](r, "lead"),
		Wander: form.Get[unit.Length](r, "wander"), Setting: form.Get[unit.Length](r, "setting"),
	}
	diameter, length, width, corner, cup := form.Get[unit.Length](r, "diameter"), form.Get[unit.Length](r, "length"), form.Get[unit.Length](r, "width"), form.Get[unit.Length](r, "corner"), form.Get[unit.Length](r, "cup")
	if form.GetWord(r, "led_by") == "template" {
		in.Cup = cup
	}
	switch form.GetWord(r, "cutout") {
	case "round":
		in.Length, in.Width, in.Corner = diameter, diameter, diameter/2
	case "slot":
		in.Length, in.Width, in.Corner = length, width, width/2
	case "opening":
		in.Length, in.Width, in.Corner = length, width, corner
	}
	switch {
	case in.Length == 0 || in.Width == 0: // the reader has said so
	case in.Width > in.Length:
		r.Fail("width", problem.New(problem.Conflict, "", "it is wider than it is long", "The length is the longer side."))
	case 2*in.Corner > in.Width:
		r.Fail("corner", problem.New(problem.Conflict, "", "the corners overlap", "The radius is at most half the width; a slot has just that."))
	}
	return in
}

func runCircleHole(r *form.Reader, a *form.Answer) error {
	in := readHole(r)
	cutout, guide := form.GetWord(r, "cutout"), form.GetWord(r, "led_by")
	round := cutout == "round" && form.GetWord(r, "pattern") == "circle"
	holes := PatternInput{
		Holes: form.GetCount(r, "holes"), Circle: form.Get[unit.Length](r, "circle"), First: form.Get[unit.Angle](r, "first"),
		Centre:   Spot{form.Get[unit.Length](r, "centre_x"), form.Get[unit.Length](r, "centre_y")},
		Diameter: in.Length, Setting: in.Setting,
	}
	if round && in.Disc {
		r.Fail("kept", problem.New(problem.Conflict, "", "holes round a circle leave no disc to keep", "Lay out one disc, or keep the plate."))
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeHole(in)
	if err != nil {
		return err
	}
	count := 1
	var pattern *PatternResult
	if round {
		p, err := ComputePattern(holes)
		if err != nil {
			return err
		}
		pattern, count = &p, holes.Holes
	}
	a.PutWord("how", how(a, cutout, in, res))
	form.Put(a, "smallest", res.Smallest)
	putHoleSize(a, cutout, guide, in, res)
	if res.ByHand {
		a.AddCut(form.Onward{Name: cutoutName(cutout, in.Disc), Fields: map[string]string{"thickness": asTyped(a, in.Thickness, unit.Plate), "length": asTyped(a, res.Cut, unit.Marking),
			"pierces": "1", "count": strconv.Itoa(count), "start": "pierce"}})
	}
	a.DrawLayout(holeDrawing(a, cutout, in, res))
	if pattern != nil {
		putPattern(a, *pattern)
		a.DrawLayout(patternDrawing(a, holes, *pattern))
		addPatternTemplate(a, in, res, holes, *pattern)
	} else {
		addHoleTemplate(a, cutout, in, res)
	}
	sayHole(a, guide, in, res)
	if pattern != nil {
		sayPattern(a, holes, *pattern)
	}
	return nil
}

// how says in short how it is made.
func how(a *form.Answer, cutout string, in HoleInput, res HoleResult) string {
	small := "too small for the torch by hand"
	switch {
	case res.ByHand && res.Middle:
		return "by hand: pierce in the middle, lead straight out to the line"
	case res.ByHand:
		return "by hand: pierce " + form.SayAs(a, res.Lead, unit.Marking) + " into the waste, come to the line at a slant"
	case in.Disc:
		return small + ": saw it"
	case cutout == "slot":
		return small + ": drill both ends, cut between the holes"
	case cutout == "opening":
		return small + ": drill the corners, cut between them"
	}
	return small + ": drill it"
}

// putHoleSize puts how one hole is set out, and how true it gets.
func putHoleSize(a *form.Answer, cutout, guide string, in HoleInput, res HoleResult) {
	if cutout != "round" {
		form.Put(a, "along", res.Along)
	}
	if cutout == "opening" {
		form.Put(a, "across", res.Across)
		form.Put(a, "diagonal", res.Diagonal)
	}
	if !res.ByHand {
		return
	}
	if guide == "arm" {
		form.Put(a, "arm", res.Arm)
	}
	if res.Template > 0 {
		form.Put(a, "template_radius", res.Template)
	}
	form.Put(a, "lead_in", res.Lead)
	form.Put(a, "run", res.Run)
	form.Put(a, "size_off", res.SizeOff)
	form.PutBetween(a, "out_of_round", res.Wander, 1.5*res.Wander, 2*res.Wander)
	if res.Passes > 0 && cutout != "opening" {
		form.Put(a, "passes", res.Passes)
	}
	form.Put(a, "cut", res.Cut)
}

func putPattern(a *form.Answer, p PatternResult) {
	form.Put(a, "chord", p.Chord)
	if p.Steps > 1 {
		a.PutCount("check_steps", p.Steps)
		form.Put(a, "check", p.Check)
	}
	if p.Closing > 0 {
		form.Put(a, "closing", p.Closing)
	}
	form.Put(a, "web", p.Web)
	var rows []*form.Row
	for i, s := range p.Spots {
		rows = append(rows, markRow(a, strconv.Itoa(i+1), []string{"hole", "across", "up", "from_first"}, s.X, s.Y, s.FromFirst))
	}
	a.PutRows("rows", rows)
}

// checked is a length of the working: as a calculator shows it, in inches as a rule does,
// for 63/64 in is on none.
func checked(a *form.Answer, l unit.Length) string {
	if a.System() == unit.US {
		return form.SayAs(a, l, unit.Marking)
	}
	return form.Worked(a, l, "mm", "in")
}
