package layout

import (
	"fmt"
	"strings"

	"kerfside/calc/drawing"
	"kerfside/calc/unit"
)

// mostDrawn is how many bars or plates a drawing shows.
const mostDrawn = 8

// drawBars shows the bars below one another, each as long as it is; their height says
// nothing.
func (n nestWords) drawBars(in BarsInput, res BarsResult) drawing.Drawing {
	longest := unit.Length(0)
	for _, b := range res.Bars {
		longest = max(longest, b.Length)
	}
	high := inMM(longest) / 14
	d := drawing.Drawing{Title: "Bars"}
	var says []string
	for i, b := range res.Bars[:min(len(res.Bars), mostDrawn)] {
		y := -1.9 * high * float64(i)
		box := func(from, to unit.Length) []drawing.Point {
			return []drawing.Point{{X: inMM(from), Y: y}, {X: inMM(to), Y: y}, {X: inMM(to), Y: y + high}, {X: inMM(from), Y: y + high}}
		}
		if in.Trim > 0 {
			d.Fill(drawing.Kerf, box(0, in.Trim)...)
		}
		for _, p := range b.Pieces {
			d.Fill(drawing.Kerf, box(p.To, min(p.To+in.Kerf, b.Length))...)
			d.Add(drawing.Cut, drawing.Point{X: inMM(p.To), Y: y}, drawing.Point{X: inMM(p.To), Y: y + high})
		}
		if b.Left > 0 {
			d.Fill(drawing.Waste, box(b.Length-b.Left, b.Length)...)
		}
		d.AddClosed(drawing.Metal, box(0, b.Length)...)
		says = append(says, fmt.Sprintf("Bar %d: %s, %s left", i+1, unit.Count(len(b.Pieces), "piece", "pieces"), n.mm(b.Left)))
	}
	if more := len(res.Bars) - mostDrawn; more > 0 {
		says = append(says, unit.Count(more, "bar is", "bars are")+" not drawn")
	}
	d.Says = strings.Join(says, ". ") + ". What is left is hatched."
	return d
}
