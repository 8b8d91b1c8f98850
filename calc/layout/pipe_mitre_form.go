package layout

import (
	"math"
	"slices"
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// PipeMitre is the calculator pipe-mitre.
var PipeMitre = form.Declaration{Name: "pipe-mitre", Make: func() form.Calculator {
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	mark, angle := length(unit.Marking), form.Number[unit.Angle]("°", "°")
	return form.Calculator{
		Title: "Pipe mitre",
		About: "Lays out a bend of straight pieces of pipe: where to mark, and how long each piece is.",
		Place: "layout",
		Terms: []string{"elbow", "bend", "segment", "lobster back", "miter", "mitre", "two-piece turn", "corner", "template", "ordinates"},
		Fields: slices.Concat(pipeFields("", "Pipe"), []form.Field{
			{Key: "turn", Label: "The bend turns by", Help: "From straight on: a square corner is 90°", Takes: angle, Chips: []string{"90°", "60°", "45°", "30°"}, Limits: form.Within(2*unit.Degree, 180*unit.Degree)},
			{Key: "segments", Label: "Pieces", Help: "Both ends counted", Takes: form.Count(), Default: "2", Basis: source.CommonPractice, Chips: []string{"2", "3", "4", "5"}, Limits: form.WithinCount(2, 12)},
			{Key: "radius", Label: "Radius of the centre line", Help: "It touches each middle piece in its middle. Two pieces can do without", Takes: mark, Optional: true, Limits: form.Within(10*unit.Millimetre, 30*unit.Metre)},
			{Key: "leg", Label: "More straight pipe at each end", Takes: mark, Default: "0mm", Basis: source.Neutral, Fine: true, Limits: form.Within(0, 12*unit.Metre)},
			{Key: "lines", Label: "Lines round the pipe", Takes: form.OneOf("8", "8", "12", "12", "16", "16", "24", "24", "32", "32"), Default: "16", Fine: true},
			{Key: "kerf", Label: "Kerf", Known: "plan.kerf", Help: "Measured on a trial strip, or from the plan", Takes: length(unit.Kerf), Default: "1.5mm", Basis: source.CommonPractice, Fine: true, Limits: form.Within(0.3*unit.Millimetre, 15*unit.Millimetre)},
			paperField(), tapeField(),
		}),
		Results: []form.Result{
			{Key: "lean", Label: "Each cut leans from square by", Gives: angle, Main: true},
			{Key: "deepest", Label: "Cut back in the throat", Gives: mark, Main: true},
			{Key: "end_back", Label: "End piece along its back", Gives: mark, Main: true},
			{Key: "end_throat", Label: "End piece in the throat", Gives: mark},
			{Key: "end_centre", Label: "End piece along its centre", Gives: mark},
			{Key: "middle_back", Label: "Middle piece along its back", Gives: mark, Main: true},
			{Key: "middle_throat", Label: "Middle piece in the throat", Gives: mark},
			{Key: "middle_centre", Label: "Middle piece along its centre", Gives: mark},
			{Key: "stock", Label: "Pipe for all of it", Gives: mark},
			{Key: "girth", Label: "Girth", Gives: mark},
			{Key: "spacing", Label: "Lines apart, by tape", Gives: mark},
			{Key: "rows", Label: "Lines along the pipe", Gives: form.Rows("line", "Line", "round", "Round by tape", "back", "Back from the long point", "end", "End piece", "middle", "Middle piece")},
			{Key: "cut", Label: "Length of one cut", Gives: mark},
		},
		Sources: []source.ID{},
		Run:     runMitre,
	}
}}

func runMitre(r *form.Reader, a *form.Answer) error {
	in := MitreInput{
		Pipe: readPipe(r, ""), Turn: form.Get[unit.Angle](r, "turn"), Pieces: form.GetCount(r, "segments"), Radius: form.Get[unit.Length](r, "radius"),
		Leg: form.Get[unit.Length](r, "leg"), Kerf: form.Get[unit.Length](r, "kerf"),
	}
	paper := form.Get[unit.Length](r, "paper")
	in.Lines, _ = strconv.Atoi(form.GetWord(r, "lines"))
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeMitre(in)
	if err != nil {
		return err
	}
	form.Put(a, "lean", res.Lean)
	form.Put(a, "deepest", res.Deepest)
	if in.Radius > 0 {
		form.Put(a, "end_back", res.End.Back)
		form.Put(a, "end_throat", res.End.Throat)
		form.Put(a, "end_centre", res.End.Centre)
		form.Put(a, "stock", res.Stock)
	}
	if in.Pieces > 2 {
		form.Put(a, "middle_back", res.Middle.Back)
		form.Put(a, "middle_throat", res.Middle.Throat)
		form.Put(a, "middle_centre", res.Middle.Centre)
	}
	form.Put(a, "girth", res.Girth)
	form.Put(a, "spacing", res.Spacing)
	form.Put(a, "cut", res.Cut)
	putMitreLines(a, in, res)
	in.Pipe.cite(a)
	a.DrawLayout(mitreSide(a, in, res))
	a.DrawLayout(mitreFlat(a, in, res))
	a.AddTemplate(mitreTemplate(a, in, res, paper))
	a.AddCut(form.Onward{Name: "Mitre", Fields: map[string]string{"thickness": asTyped(a, res.Thickness, unit.Plate), "length": asTyped(a, res.Cut, unit.Marking), "pierces": "1", "count": strconv.Itoa(in.Pieces - 1)}})
	sayMitre(a, in, res)
	return nil
}

func putMitreLines(a *form.Answer, in MitreInput, res MitreResult) {
	mark := form.Number[unit.Length]("mm", "in").As(unit.Marking)
	var rows []*form.Row
	for i, l := range res.Lines {
		row := a.NewRow()
		row.PutWord("line", strconv.Itoa(i%in.Lines))
		form.PutCell(row, "round", mark, l.Round)
		form.PutCell(row, "back", mark, l.Back)
		if in.Radius > 0 {
			form.PutCell(row, "end", mark, l.End)
		}
		if in.Pieces > 2 {
			form.PutCell(row, "middle", mark, l.Middle)
		}
		rows = append(rows, row)
	}
	a.PutRows("rows", rows)
}

// mitreSide is the bend from the side, its throat above.
func mitreSide(a *form.Answer, in MitreInput, res MitreResult) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	r, lean := inMM(in.Pipe.OD)/2, float64(res.Lean)
	end, middle := inMM(res.End.Centre), inMM(res.Middle.Centre)
	if in.Radius == 0 {
		end = 2*r*math.Tan(lean) + 2*r // so much that the joint shows
	}
	d := drawing.Drawing{Title: "From the side", Says: strconv.Itoa(in.Pieces) + " pieces turn by " + form.Say(a, in.Turn) + ". Each joint leans " + form.Say(a, res.Lean) + " from square, and is cut back " + say(res.Deepest) + " in the throat."}
	at, turn := drawing.Point{}, 0.0
	var throat, back, centre []drawing.Point
	// mark adds what lies at a point of the centre line: both skins, in a plane that leans.
	mark := func(plane, out float64) {
		sin, cos := math.Sincos(plane)
		centre = append(centre, at)
		throat = append(throat, drawing.Point{X: at.X - sin*out, Y: at.Y + cos*out})
		back = append(back, drawing.Point{X: at.X + sin*out, Y: at.Y - cos*out})
	}
	mark(0, r)
	for i := range in.Pieces {
		long := middle
		if i == 0 || i == in.Pieces-1 {
			long = end
		}
		at.X += long * math.Cos(turn)
		at.Y += long * math.Sin(turn)
		if i < in.Pieces-1 {
			mark(turn+lean, r/math.Cos(lean))
			turn += 2 * lean
		}
	}
	mark(turn, r)
	d.Add(drawing.Metal, throat...)
	d.Add(drawing.Metal, back...)
	d.Add(drawing.Metal, throat[0], back[0])
	d.Add(drawing.Metal, throat[len(throat)-1], back[len(back)-1])
	d.Add(drawing.Centre, centre...)
	for i := 1; i < len(throat)-1; i++ {
		d.Add(drawing.Cut, throat[i], back[i])
	}
	if in.Radius > 0 {
		low, high := d.Box()
		under := low.Y - 0.12*max(high.X-low.X, high.Y-low.Y) // room for its text
		d.Measure(drawing.Point{X: 0, Y: under}, drawing.Point{X: back[1].X, Y: under}, say(res.End.Back))
	}
	return d
}

// mitreFlat is the skin of an end piece unrolled, the throat at both ends, its square end up.
func mitreFlat(a *form.Answer, in MitreInput, res MitreResult) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	wide, deep := inMM(res.Girth), inMM(res.Deepest)
	line := mitreLine(in, res, 1)
	beside := besideLine(line, inMM(in.Kerf))
	top, foot := deep+0.1*wide, -0.14*wide
	d := drawing.Drawing{Title: "Cut, laid flat", Says: "The pipe's skin unrolled, " + say(res.Girth) + " long, line 0 in the throat at both ends. The cut goes back " + say(res.Deepest) + " there, and nothing at the long point in the middle. Waste is below, and the kerf lies in it."}
	d.Fill(drawing.Kerf, band(line, beside)...)
	d.Fill(drawing.Waste, band(beside, []drawing.Point{{Y: foot}, {X: wide, Y: foot}})...)
	for i := range in.Lines + 1 {
		x := wide * float64(i) / float64(in.Lines)
		d.Add(drawing.Station, drawing.Point{X: x, Y: top}, drawing.Point{X: x, Y: inMM(res.Lines[i].Back)})
	}
	d.Add(drawing.Centre, drawing.Point{}, drawing.Point{X: wide})
	d.Add(drawing.Cut, line...)
	d.Measure(drawing.Point{X: 0.53 * wide}, drawing.Point{X: 0.53 * wide, Y: deep}, say(res.Deepest))
	d.Write(drawing.Point{X: wide / 2, Y: -0.08 * wide}, "middle", "long point")
	return d
}

// mitreLine is the cut on the skin, up from the square line through the long point.
func mitreLine(in MitreInput, res MitreResult, stretch float64) []drawing.Point {
	n := 16 * in.Lines
	line := make([]drawing.Point, n+1)
	for i := range line {
		line[i] = drawing.Point{X: inMM(res.Girth) * stretch * float64(i) / float64(n), Y: inMM(res.Deepest) / 2 * (1 + math.Cos(stationAngle(i, n)))}
	}
	return line
}

// mitreTemplate is the wrap for one cut; turned over it serves the other side of it.
func mitreTemplate(a *form.Answer, in MitreInput, res MitreResult, paper unit.Length) drawing.Template {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	stretch := float64((in.Pipe.OD + paper) / in.Pipe.OD)
	line := mitreLine(in, res, stretch)
	wide, deep := inMM(res.Girth)*stretch, inMM(res.Deepest)
	const over, tab = 30, 12 // mm
	t := drawing.Template{Key: "cut", Drawing: drawing.Drawing{Title: "Mitre, " + in.Pipe.Name}, Notes: []string{
		"For " + in.Pipe.Say(a) + ", girth " + say(res.Girth) + ". " + strconv.Itoa(in.Pieces) + " pieces turn by " + form.Say(a, in.Turn) + ", each cut leans " + form.Say(a, res.Lean) + ".",
		"Printed side out. The straight edge points to the piece that is kept. Line 0 is in the throat, inside the bend.",
		"Line 0 at the right lies on line 0 at the left; the strip beyond is to glue.",
		"The line is the finished edge. Waste is below it: the middle of the arc runs " + form.SayAs(a, in.Kerf/2, unit.Kerf) + " into it.",
		"Torch held as a saw, parallel to the cut all round, not at the pipe's middle.",
	}}
	for i := range in.Lines + 1 {
		x := wide * float64(i) / float64(in.Lines)
		t.Add(drawing.Station, drawing.Point{X: x, Y: deep + over}, drawing.Point{X: x, Y: inMM(res.Lines[i].Back)})
		t.Write(drawing.Point{X: x + 0.8, Y: deep + over - 5}, "start", strconv.Itoa(i%in.Lines))
	}
	t.Add(drawing.Metal, line[0], drawing.Point{Y: deep + over}, drawing.Point{X: wide + tab, Y: deep + over}, drawing.Point{X: wide + tab, Y: deep}, line[len(line)-1])
	t.Add(drawing.Cut, line...)
	return t
}

func sayMitre(a *form.Answer, in MitreInput, res MitreResult) {
	worked := func(l unit.Length) string { return workedLength(a, l) }
	a.Step("%s; r = %s", in.Pipe.Say(a), worked(in.Pipe.OD/2))
	a.Step("lean = %s ÷ (2 × %d joints) = %s", form.Say(a, in.Turn), in.Pieces-1, form.Say(a, res.Lean))
	a.Step("cut back in the throat = 2 × %s × tan %s = %s", worked(in.Pipe.OD/2), form.Say(a, res.Lean), worked(res.Deepest))
	a.Step("line p: r × tan a × (1 + cos p), p = 360° × line ÷ %d", in.Lines)
	if in.Radius > 0 {
		a.Step("end piece: back (%s + r) × tan a, throat (%s − r) × tan a; a middle piece is twice that", worked(in.Radius), worked(in.Radius))
		a.Step("pipe for all: the centre lines, and %d cuts of %s ÷ cos a", in.Pieces-1, form.SayAs(a, in.Kerf, unit.Kerf))
	}
	a.Caution("Snap a line along the pipe first: it is line 0 for one piece, the long point for the next. So the pieces come out of one pipe, each turned half over.")
	a.Caution("Mark every line from line 0, and every length from one end.")
	a.Caution("Pressure pipe and structure: the code and a qualified procedure decide whether a mitre is allowed, and its smallest pieces.")
	a.Caution("A hand cut wanders by 1 mm (1/32 in) or so, by common practice. Cut outside the line, fit, then grind.")
	a.Caution(safety.HollowStop)
}
