package layout

import (
	"fmt"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// bars tells a plan of bars.
func (n nestWords) bars(in BarsInput, res BarsResult, across unit.Length) {
	a := n.a
	of := unit.Count(len(res.Bars), "bar", "bars")
	switch {
	case res.Proven:
		a.PutWord("verdict", upper(of)+". No plan takes less stock.")
	case res.Looked:
		a.PutWord("verdict", upper(of)+".")
	default:
		a.PutWord("verdict", upper(of)+", the best plan found. Not every plan was looked through.")
	}
	a.PutYes("proven", res.Proven)
	a.PutCount("takes", len(res.Bars))
	form.Put(a, "waste", unit.Ratio(1-float64(res.Pieces/res.Used)))
	if len(in.Stock) == 1 && in.Stock[0].Count == 0 {
		a.PutCount("least", res.Least)
		a.PutCount("least_by_sum", res.LeastSum)
	}
	if res.Simple > 0 {
		a.PutCount("simple", res.Simple)
	}
	form.Put(a, "used", res.Used)
	cuts, largest := 0, unit.Length(0)
	var rows, kept []*form.Row
	for i, b := range res.Bars {
		row := a.NewRow()
		row.PutWord("stock", fmt.Sprintf("%d: %s", i+1, n.mm(b.Length)))
		var names, marks []string
		for _, p := range b.Pieces {
			names = append(names, strings.TrimSpace(p.Name+" "+n.mm(p.To-p.From)))
			marks = append(marks, n.mm(p.To))
		}
		row.PutWord("pieces", strings.Join(names, ", "))
		row.PutWord("marks", strings.Join(marks, ", "))
		form.PutCell(row, "left", form.Number[unit.Length]("mm", "in").As(unit.Marking), b.Left)
		rows = append(rows, row)
		cuts += len(b.Pieces)
		if in.Trim > 0 {
			cuts++
		}
		if b.Length-b.Pieces[len(b.Pieces)-1].To < tick {
			cuts-- // the last piece ends where the bar does
		}
		largest = max(largest, b.Left)
		if b.Left >= n.keep && b.Left > 0 {
			kept = append(kept, n.offcut(n.mm(b.Left), fmt.Sprintf("bar %d", i+1)))
		}
	}
	a.PutRows("plan", rows)
	a.PutRows("offcuts", kept)
	if largest > 0 {
		form.Put(a, "largest", largest)
	}
	a.Step("pieces %s out of %s: %s is left or kerf", n.mm(res.Pieces), n.mm(res.Used), n.mm(res.Used-res.Pieces))
	if len(in.Stock) == 1 && in.Stock[0].Count == 0 {
		a.Step("each piece takes its length and a kerf of %s, a bar has %s for them: %d bars at least by the sum, %d with the long ones counted apart",
			form.SayAs(a, in.Kerf, unit.Kerf), n.mm(in.Stock[0].Length-in.Trim+in.Kerf), res.LeastSum, res.Least)
	}
	a.DrawLayout(n.drawBars(in, res))
	if across > 0 {
		form.Put(a, "cut", across*unit.Length(cuts))
		if n.thickness > 0 {
			addCut(a, "Cut to length", n.thickness, across, "", cuts)
		}
	}
}
