package layout

import (
	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// drawDivide shows the length with its parts; its height says nothing.
func drawDivide(a *form.Answer, in DivideInput, res DivideResult) drawing.Drawing {
	long := inMM(in.Length)
	high := long / 8
	d := drawing.Drawing{Title: "Parts", Says: divideInWords(a, in, res)}
	box := func(from, to unit.Length) []drawing.Point {
		return []drawing.Point{{X: inMM(from)}, {X: inMM(to)}, {X: inMM(to), Y: high}, {X: inMM(from), Y: high}}
	}
	line := func(use drawing.Use, at unit.Length) {
		d.Add(use, drawing.Point{X: inMM(at)}, drawing.Point{X: inMM(at), Y: high})
	}
	last := in.Length - in.End
	for i, p := range res.At {
		switch {
		case in.Into == "pieces" && i+1 < len(res.At):
			d.Fill(drawing.Kerf, box(p.To, p.To+in.Kerf)...)
			line(drawing.Cut, p.To)
		case in.Into == "marks":
			line(drawing.Cut, p.From)
		case in.Into == "bars":
			d.Fill(drawing.Solid, box(p.From, p.To)...)
			d.AddClosed(drawing.Cut, box(p.From, p.To)...)
		}
	}
	for _, off := range []struct{ by, at, waste, kerf unit.Length }{
		{by: in.Start, at: in.Start, kerf: in.Start - in.Kerf},
		{by: in.End, at: last, waste: in.Length, kerf: last + in.Kerf},
	} {
		switch {
		case off.by > 0 && in.Into == "pieces":
			d.Fill(drawing.Kerf, box(off.kerf, off.at)...)
			d.Fill(drawing.Waste, box(off.waste, off.kerf)...)
			line(drawing.Cut, off.at)
		case off.by > 0:
			line(drawing.Station, off.at)
		}
	}
	d.AddClosed(drawing.Metal, box(0, in.Length)...)
	from, to := in.Start, in.Start+res.Each // the first piece, step or gap
	d.Measure(drawing.Point{X: inMM(from), Y: high * 1.3}, drawing.Point{X: inMM(to), Y: high * 1.3}, form.SayAs(a, res.Each, unit.Marking))
	return d
}
