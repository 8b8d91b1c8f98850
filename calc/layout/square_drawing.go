package layout

import (
	"math"

	"kerfside/calc/drawing"
	"kerfside/calc/unit"
)

// drawSquare shows the corner or the frame as it was measured, over a square one.
func drawSquare(in SquareInput, res SquareResult, say func(unit.Length) string) drawing.Drawing {
	a, b := inMM(in.A), inMM(in.B)
	sin, cos := math.Sincos(float64(res.Angle))
	top := drawing.Point{X: b * cos, Y: b * sin}
	d := drawing.Drawing{Title: "As it is", Says: "Legs of " + say(in.A) + " and " + say(in.B) + ". A square corner has a diagonal of " + say(res.Diagonal) + "."}
	end := drawing.Point{X: a}
	if in.Frame {
		d.AddClosed(drawing.Hidden, drawing.Point{}, drawing.Point{X: a}, drawing.Point{X: a, Y: b}, drawing.Point{Y: b})
		d.AddClosed(drawing.Cut, drawing.Point{}, end, drawing.Point{X: a + top.X, Y: top.Y}, top)
		d.Add(drawing.Centre, drawing.Point{}, drawing.Point{X: a + top.X, Y: top.Y})
	} else {
		d.Add(drawing.Hidden, drawing.Point{}, drawing.Point{Y: b})
		d.Add(drawing.Cut, end, drawing.Point{}, top)
	}
	d.Add(drawing.Centre, end, top)
	d.Measure(drawing.Point{Y: -b / 8}, drawing.Point{X: a, Y: -b / 8}, say(in.A))
	d.Write(drawing.Point{X: (a + top.X) / 2, Y: top.Y/2 + b/20}, "middle", say(res.Diagonal))
	return d
}
