package layout

import (
	"fmt"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// drawFlat is the strip before it is bent, the end of the first leg at the left.
func drawFlat(a *form.Answer, in BracketInput, res BracketResult, width unit.Length) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	long := inMM(res.Flat)
	wide := min(max(inMM(width), 0.15*long), 0.6*long)
	d := drawing.Drawing{Title: "Laid flat", Says: "A strip " + say(res.Flat) + " long, the end of the first leg at the left."}
	outlineFlat(&d, res, wide)
	step := 0.09 * long
	d.Measure(drawing.Point{X: 0, Y: -step}, drawing.Point{X: long, Y: -step}, say(res.Flat))
	for i, b := range res.Bends {
		d.Says += fmt.Sprintf(" Middle of bend %d at %s.", i+1, say(b.Middle))
		if len(res.Bends) <= 4 {
			d.Write(drawing.Point{X: inMM(b.Middle), Y: wide + step*(0.3+0.9*float64(i%2))}, "middle", say(b.Middle))
		}
	}
	return d
}

// outlineFlat draws the strip with the lines of its bends.
func outlineFlat(d *drawing.Drawing, res BracketResult, wide float64) {
	long := inMM(res.Flat)
	for _, b := range res.Bends {
		for i, x := range []unit.Length{b.Start, b.Middle, b.End} {
			d.Add([]drawing.Use{drawing.Station, drawing.Centre, drawing.Station}[i], drawing.Point{X: inMM(x), Y: 0}, drawing.Point{X: inMM(x), Y: wide})
		}
	}
	d.AddClosed(drawing.Cut, drawing.Point{X: 0, Y: 0}, drawing.Point{X: long, Y: 0}, drawing.Point{X: long, Y: wide}, drawing.Point{X: 0, Y: wide})
}

func flatTemplate(a *form.Answer, in BracketInput, res BracketResult, width unit.Length) drawing.Template {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	t := drawing.Template{Key: "flat", Notes: []string{
		"Strip " + say(res.Flat) + " by " + say(width) + ", " + form.SayAs(a, in.Thickness, unit.Plate) + " thick. The outline is the finished edge: the kerf lies outside it.",
		"Dashed: the middle of a bend. Thin: where it begins and ends.",
		"This side up. A bend up rises towards you.",
	}}
	t.Title = "Bracket, laid flat"
	wide := inMM(width)
	outlineFlat(&t.Drawing, res, wide)
	t.Write(drawing.Point{X: 2, Y: 2}, "start", "first leg")
	for i, b := range res.Bends {
		t.Texts = append(t.Texts, drawing.Text{At: drawing.Point{X: inMM(b.Middle) - 1, Y: wide / 2}, Text: in.name(a, i), Anchor: "middle", Turn: 90})
		t.Notes = append(t.Notes, fmt.Sprintf("Bend %s: inside radius %s, middle at %s from the end of the first leg.", in.name(a, i), say(in.Bends[i].Radius), say(b.Middle)))
	}
	return t
}
