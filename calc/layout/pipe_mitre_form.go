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
