package layout

import (
	"fmt"
	"strconv"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// plates tells a plan of plates.
func (n nestWords) plates(in PlateInput, res PlateResult) {
	a := n.a
	of := unit.Count(len(res.Plates), "plate", "plates")
	if res.Proven {
		a.PutWord("verdict", upper(of)+". Fewer do not have the area.")
	} else {
		a.PutWord("verdict", upper(of)+", the best plan found. By area alone it would be "+strconv.Itoa(res.Least)+".")
	}
	a.PutYes("proven", res.Proven)
	a.PutCount("takes", len(res.Plates))
	a.PutCount("least", res.Least)
	form.Put(a, "waste", unit.Ratio(1-float64(res.Pieces/res.Used)))
	form.Put(a, "cut", res.Cut)
	mark := form.Number[unit.Length]("mm", "in").As(unit.Marking)
	var rows, turns, kept []*form.Row
	size := func(p Placed) string { return n.mm(p.Length) + " × " + n.mm(p.Width) }
	for i, p := range res.Plates {
		for _, o := range p.Pieces {
			row := a.NewRow()
			row.PutWord("plate", strconv.Itoa(i+1))
			row.PutWord("piece", strings.TrimSpace(o.Name+" "+size(o)))
			form.PutCell(row, "along", mark, o.X)
			form.PutCell(row, "up", mark, o.Y)
			rows = append(rows, row)
		}
		if in.Edge > 0 {
			turns = append(turns, n.turn(i, "all round", in.Edge, 0, 0))
		}
		for _, c := range p.Cuts {
			turns = append(turns, n.turn(i, either(c.Up, "up", "along"), c.At, c.From, c.To))
		}
		for _, o := range p.Left {
			if o.Length >= n.keep && o.Width >= n.keep {
				kept = append(kept, n.offcut(size(o), fmt.Sprintf("plate %d", i+1)))
			}
		}
		if i < 2 {
			a.DrawLayout(n.drawPlate(in, p, i))
		}
	}
	a.PutRows("places", rows)
	a.PutRows("turns", turns)
	a.PutRows("offcuts", kept)
	a.Step("a piece takes its length and width and a kerf of %s each way; edge to edge, %s", form.SayAs(a, in.Kerf, unit.Kerf), unit.Count(res.Cuts, "cut", "cuts"))
	a.Caution("Cut edge to edge in turn: each cut parts what is left in two. Heat draws long thin strips: let them cool between.")
	if n.thickness > 0 {
		addCut(a, "Pieces out of plate", n.thickness, res.Cut, "", 1)
	}
}

// turn is a row of the cuts in turn.
func (n nestWords) turn(plate int, way string, at, from, to unit.Length) *form.Row {
	mark := form.Number[unit.Length]("mm", "in").As(unit.Marking)
	row := n.a.NewRow()
	row.PutWord("plate", strconv.Itoa(plate+1))
	row.PutWord("way", way)
	form.PutCell(row, "at", mark, at)
	if to > 0 {
		form.PutCell(row, "from", mark, from)
		form.PutCell(row, "to", mark, to)
	}
	return row
}
