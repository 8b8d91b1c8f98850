package layout

import (
	"fmt"
	"strings"

	"kerfside/calc/drawing"
	"kerfside/calc/unit"
)

// draw shows the piece from the side with its holds, the cuts in their best order, and
// where what is left balances.
func (w releaseWords) draw() drawing.Drawing {
	long := unit.Value(w.in.Length, "mm")
	high := long / 12
	x := func(l unit.Length) float64 { return unit.Value(l, "mm") }
	d := drawing.Drawing{Title: "The piece, its holds and its cuts"}
	var says []string
	d.AddClosed(drawing.Metal, drawing.Point{}, drawing.Point{X: long}, drawing.Point{X: long, Y: high}, drawing.Point{Y: high})
	for i, h := range w.in.Holds {
		at := x(h.At)
		switch h.Kind {
		case Stand:
			d.AddClosed(drawing.Metal, drawing.Point{X: at}, drawing.Point{X: at - high/2, Y: -high}, drawing.Point{X: at + high/2, Y: -high})
		case Strap:
			top := drawing.Point{X: at, Y: 4 * high}
			if w.in.Hook != nil {
				top = drawing.Point{X: x(w.in.Hook.At), Y: 4 * high}
			}
			d.Add(drawing.Metal, drawing.Point{X: at, Y: high}, top)
		case BuiltIn:
			d.Fill(drawing.Solid, drawing.Point{X: at - high/2, Y: -high}, drawing.Point{X: at + high/2, Y: -high}, drawing.Point{X: at + high/2, Y: 2 * high}, drawing.Point{X: at - high/2, Y: 2 * high})
		default:
			d.AddCircle(drawing.Hidden, drawing.Point{X: at, Y: high / 2}, high/2)
		}
		says = append(says, w.hold(i))
	}
	for n, c := range w.res.Order {
		cut := w.in.Cuts[c]
		at := x(cut.At)
		if cut.Holds > 0 {
			at = x(w.in.Holds[cut.Holds-1].At)
		}
		d.Add(drawing.Cut, drawing.Point{X: at, Y: -high / 2}, drawing.Point{X: at, Y: 1.5 * high})
		d.Write(drawing.Point{X: at, Y: -2 * high}, "middle", fmt.Sprint(n+1))
		says = append(says, fmt.Sprintf("%d: %s", n+1, w.cut(c)))
	}
	for _, b := range w.res.Best[len(w.res.Best)-1].Bodies {
		at := drawing.Point{X: x(b.At), Y: high / 2}
		d.AddCircle(drawing.Station, at, high/4)
		d.Add(drawing.Centre, drawing.Point{X: at.X, Y: -high / 4}, drawing.Point{X: at.X, Y: 1.25 * high})
		says = append(says, upper(w.piece(b))+" balances at "+w.mm(b.At))
	}
	d.Says = strings.Join(says, ". ") + "."
	return d
}
