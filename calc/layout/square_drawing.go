package layout

import (
	"math"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// drawSquare shows the corner or the frame as it was measured, over a square one.
func drawSquare(a *form.Answer, in SquareInput, res SquareResult) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	long, high := inMM(in.A), inMM(in.B)
	sin, cos := math.Sincos(float64(res.Angle))
	top := drawing.Point{X: high * cos, Y: high * sin}
	d := drawing.Drawing{Title: "As it is", Says: squareInWords(a, in, res)}
	end, far := drawing.Point{X: long}, drawing.Point{X: long + top.X, Y: top.Y}
	across, up := in.D1, 0.6 // from the end of one leg to that of the other, and how far up that is told
	if across == 0 {
		across, d.Title = res.Diagonal, "A square one"
	}
	if in.Frame {
		d.AddClosed(drawing.Hidden, drawing.Point{}, drawing.Point{X: long}, drawing.Point{X: long, Y: high}, drawing.Point{Y: high})
		d.AddClosed(drawing.Cut, drawing.Point{}, end, far, top)
		d.Add(drawing.Centre, drawing.Point{}, far)
		if in.D2 > 0 { // else both are alike, and told once
			d.Write(drawing.Point{X: 0.85 * far.X, Y: 0.8*far.Y + high/20}, "end", say(in.D1))
			across, up = in.D2, 0.8
		}
	} else {
		d.Add(drawing.Hidden, drawing.Point{}, drawing.Point{Y: high})
		d.Add(drawing.Cut, end, drawing.Point{}, top)
	}
	d.Add(drawing.Centre, end, top)
	d.Write(drawing.Point{X: (1-up)*long + up*top.X, Y: up*top.Y + high/20}, "start", say(across))
	under := -max(long, high) / 8
	d.Measure(drawing.Point{Y: under}, drawing.Point{X: long, Y: under}, say(in.A))
	d.Write(drawing.Point{X: top.X/2 + long/40, Y: 0.45 * top.Y}, "start", say(in.B))
	return d
}

// squareInWords is the drawing for who cannot see it.
func squareInWords(a *form.Answer, in SquareInput, res SquareResult) string {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	said := "Legs of " + say(in.A) + " and " + say(in.B) + ". A square corner has a diagonal of " + say(res.Diagonal) + "."
	if in.D1 > 0 {
		said += " As measured: " + say(in.D1)
	}
	if in.D2 > 0 {
		said += " and " + say(in.D2)
	}
	return said
}
