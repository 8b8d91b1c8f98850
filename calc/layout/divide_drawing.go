package layout

import (
	"fmt"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// drawDivide shows the length with its parts; its height says nothing.
func drawDivide(a *form.Answer, in DivideInput, res DivideResult) drawing.Drawing {
	long := inMM(in.Length)
	high := long / 8
	d := drawing.Drawing{Title: "Parts", Says: fmt.Sprintf("%d parts, each %s, from one to the next %s.", res.Count, form.SayAs(a, res.Each, unit.Marking), form.SayAs(a, res.Step, unit.Marking))}
	box := func(from, to unit.Length) []drawing.Point {
		return []drawing.Point{{X: inMM(from)}, {X: inMM(to)}, {X: inMM(to), Y: high}, {X: inMM(from), Y: high}}
	}
	for i, p := range res.At {
		switch {
		case in.Into == "pieces" && i+1 < len(res.At):
			d.Fill(drawing.Kerf, box(p.To, p.To+in.Kerf)...)
			d.Add(drawing.Cut, drawing.Point{X: inMM(p.To)}, drawing.Point{X: inMM(p.To), Y: high})
		case in.Into == "marks":
			d.Add(drawing.Cut, drawing.Point{X: inMM(p.From)}, drawing.Point{X: inMM(p.From), Y: high})
		case in.Into == "bars":
			d.Fill(drawing.Solid, box(p.From, p.To)...)
			d.AddClosed(drawing.Cut, box(p.From, p.To)...)
		}
	}
	if in.Start > 0 {
		d.Fill(drawing.Waste, box(0, in.Start)...)
	}
	if in.End > 0 {
		d.Fill(drawing.Waste, box(in.Length-in.End, in.Length)...)
	}
	d.AddClosed(drawing.Metal, box(0, in.Length)...)
	from, to := in.Start, in.Start+res.Each // the first piece, step or gap
	d.Measure(drawing.Point{X: inMM(from), Y: high * 1.3}, drawing.Point{X: inMM(to), Y: high * 1.3}, form.SayAs(a, res.Each, unit.Marking))
	return d
}
