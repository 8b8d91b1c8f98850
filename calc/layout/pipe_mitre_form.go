package layout

import (
	"slices"
	"strconv"

	"kerfside/calc/form"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// PipeMitre is the calculator pipe-mitre.
var PipeMitre = form.Declaration{Name: "pipe-mitre", Make: func() form.Calculator {
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	mark, angle := length(unit.Marking), form.Number[unit.Angle]("°", "°").As(unit.Marking)
	bend, frame := form.When("mitred", "bend"), form.When("mitred", "frame")
	outside := form.Within(30*unit.Millimetre, 20*unit.Metre)
	return form.Calculator{
		Title: "Pipe mitre",
		About: "Lays out a bend of straight pieces of pipe, or a mitred frame of pipe: where to mark, and how long each piece is.",
		Place: "layout",
		Terms: []string{"elbow", "bend", "segment", "lobster back", "miter", "mitre", "two-piece turn", "corner", "frame", "template", "ordinates"},
		Fields: slices.Concat(pipeFields("", "Pipe"), []form.Field{
			{Key: "mitred", Label: "What", Takes: form.OneOf("bend", "A bend", "frame", "A frame with four corners"), Default: "bend"},
			{Key: "wide", Label: "Frame, across", Help: "Outside, corner to corner", Takes: mark, Only: frame, Chips: []string{"500mm", "1m", "2m"}, ChipsUS: []string{"2ft", "3ft", "4ft"}, Limits: outside},
			{Key: "high", Label: "Frame, up", Help: "Outside, the other way", Takes: mark, Only: frame, Chips: []string{"500mm", "1m", "2m"}, ChipsUS: []string{"2ft", "3ft", "4ft"}, Limits: outside},
			{Key: "turn", Label: "The bend turns by", Help: "From straight on: a square corner is 90°", Takes: angle, Only: bend, Chips: []string{"90°", "60°", "45°", "30°"}, Limits: form.Within(2*unit.Degree, 180*unit.Degree)},
			{Key: "segments", Label: "Pieces", Help: "Both ends counted", Takes: form.Count(), Only: bend, Default: "2", Basis: source.CommonPractice, Chips: []string{"2", "3", "4", "5"}, Limits: form.WithinCount(2, 12)},
			{Key: "radius", Label: "Radius of the centre line", Help: "It touches each middle piece in its middle. Two pieces can do without", Takes: mark, Only: bend, Optional: true, Limits: form.Within(10*unit.Millimetre, 30*unit.Metre)},
			{Key: "leg", Label: "More straight pipe at each end", Help: "Of two pieces without a radius: from the corner, along the centre line", Takes: mark, Only: bend, Default: "0mm", Basis: source.Neutral, Fine: true, Limits: form.Within(0, 12*unit.Metre)},
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
			{Key: "pieces", Label: "Pieces of the frame", Gives: form.Rows("part", "Pieces", "long", "Long points", "centre", "Centre line", "short", "Short points")},
			{Key: "stock", Label: "Pipe for all of it", Gives: mark},
			{Key: "cuts", Label: "Cuts from the end of one pipe", Gives: form.Rows("part", "Cut", "zero", "On line 0", "opposite", "On the line opposite")},
			{Key: "kerf_along", Label: "The kerf takes along the pipe", Gives: length(unit.Kerf)},
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
		Pipe: readPipe(r, ""), Frame: form.GetWord(r, "mitred") == "frame", Wide: form.Get[unit.Length](r, "wide"), High: form.Get[unit.Length](r, "high"),
		Turn: form.Get[unit.Angle](r, "turn"), Pieces: form.GetCount(r, "segments"), Radius: form.Get[unit.Length](r, "radius"),
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
	cuts := max(len(res.Cuts), in.Pieces-1)
	putMitrePieces(a, in, res)
	form.Put(a, "girth", res.Girth)
	form.Put(a, "spacing", res.Spacing)
	form.Put(a, "cut", res.Cut)
	putMitreLines(a, in, res)
	in.Pipe.cite(a)
	if in.Frame {
		a.DrawLayout(drawFrame(a, FrameInput{Wide: in.Wide, High: in.High, Face: in.Pipe.OD}))
	} else {
		a.DrawLayout(mitreSide(a, in, res))
	}
	a.DrawLayout(mitreFlat(a, in, res))
	if len(res.Cuts) > 0 {
		a.DrawLayout(mitreStock(a, in, res))
	}
	a.AddTemplate(mitreTemplate(a, in, res, paper))
	addCut(a, "Mitre", res.Thickness, res.Cut, "1", cuts)
	sayMitre(a, in, res)
	return nil
}

// putMitrePieces tells lengths, and the cuts of one pipe for all of them.
func putMitrePieces(a *form.Answer, in MitreInput, res MitreResult) {
	var rows []*form.Row
	if in.Frame {
		for i, piece := range []Lengths{res.Across, res.Upright} {
			rows = append(rows, markRow(a, either(i == 0, "2 across", "2 up"), []string{"part", "long", "centre", "short"}, piece.Back, piece.Centre, piece.Throat))
		}
		a.PutRows("pieces", rows)
	}
	if res.End.Back > 0 {
		putLengths(a, "end", res.End)
	}
	if res.Middle.Back > 0 {
		putLengths(a, "middle", res.Middle)
	}
	if len(res.Cuts) == 0 {
		return
	}
	form.Put(a, "stock", res.Stock)
	form.Put(a, "kerf_along", in.alongPipe(res.Lean))
	rows = nil
	for i, cut := range res.Cuts {
		rows = append(rows, markRow(a, strconv.Itoa(i+1), []string{"part", "zero", "opposite"}, cut.Zero, cut.Opposite))
	}
	a.PutRows("cuts", rows)
}

// putLengths tells those of an end or a middle piece.
func putLengths(a *form.Answer, piece string, l Lengths) {
	form.Put(a, piece+"_back", l.Back)
	form.Put(a, piece+"_throat", l.Throat)
	form.Put(a, piece+"_centre", l.Centre)
}

func putMitreLines(a *form.Answer, in MitreInput, res MitreResult) {
	var rows []*form.Row
	for i, l := range res.Lines {
		told := []unit.Length{l.Round, l.Back}
		if res.End.Back > 0 {
			told = append(told, l.End)
		}
		if res.Middle.Back > 0 {
			told = append(told, l.Middle)
		}
		rows = append(rows, markRow(a, strconv.Itoa(i%in.Lines), []string{"line", "round", "back", "end", "middle"}, told...))
	}
	a.PutRows("rows", rows)
}
