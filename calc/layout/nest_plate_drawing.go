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
	var says []string
	for _, o := range p.Pieces {
		d.AddClosed(drawing.Cut, box(o)...)
		says = append(says, n.mm(o.Length)+" by "+n.mm(o.Width)+" at "+n.mm(o.X)+", "+n.mm(o.Y))
	}
	whole := Placed{Length: in.Length, Width: in.Width}
	d.AddClosed(drawing.Metal, box(whole)...)
	d.Says = "Pieces from the lower left corner: " + strings.Join(says, "; ") + ". What is left is hatched."
	return d
}
