package layout

import (
	"fmt"
	"strings"

	"kerfside/calc/drawing"
)

// drawPlate shows one plate with its pieces.
func (n nestWords) drawPlate(in PlateInput, p PlatePlan, i int) drawing.Drawing {
	d := drawing.Drawing{Title: fmt.Sprintf("Plate %d", i+1)}
	box := func(o Placed) []drawing.Point {
		x, y, w, h := inMM(o.X), inMM(o.Y), inMM(o.Length), inMM(o.Width)
		return []drawing.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
	}
	for _, o := range p.Left {
		d.Fill(drawing.Waste, box(o)...)
	}
	for _, c := range p.Cuts {
		kerf := Placed{X: c.From, Y: c.At, Length: c.To - c.From, Width: in.Kerf}
		if c.Up {
			kerf = Placed{X: c.At, Y: c.From, Length: in.Kerf, Width: c.To - c.From}
		}
		d.Fill(drawing.Kerf, box(kerf)...)
	}
	if in.Edge > 0 {
		high := in.Width - 2*in.Edge
		for _, o := range []Placed{{Length: in.Length, Width: in.Edge}, {Y: in.Width - in.Edge, Length: in.Length, Width: in.Edge},
			{Y: in.Edge, Length: in.Edge, Width: high}, {X: in.Length - in.Edge, Y: in.Edge, Length: in.Edge, Width: high}} {
			d.Fill(drawing.Waste, box(o)...)
		}
	}
	var says []string
	for _, o := range p.Pieces {
		d.AddClosed(drawing.Cut, box(o)...)
		says = append(says, n.mm(o.Length)+" by "+n.mm(o.Width)+" at "+n.mm(o.X)+", "+n.mm(o.Y))
	}
	whole := Placed{Length: in.Length, Width: in.Width}
	d.AddClosed(drawing.Metal, box(whole)...)
	d.Says = "Pieces from the lower left corner: " + strings.Join(says, "; ") + ". What is left and the kerfs are hatched."
	return d
}
