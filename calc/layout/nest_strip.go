package layout

import (
	"fmt"
	"strconv"
	"strings"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// NestStrip is the calculator nest-strip.
var NestStrip = form.Declaration{Name: "nest-strip", Make: func() form.Calculator {
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	mark := length(unit.Marking)
	long := form.Within(5*unit.Millimetre, 30*unit.Metre)
	of := func(what string) *form.Only { return form.When("stock_is", what) }
	how := func() form.Field {
		return form.Field{Key: "count", Label: "How many", Takes: form.Count(), Default: "1", Basis: source.Neutral, Chips: []string{"1", "2", "4", "6", "8", "12"}, Limits: form.WithinCount(1, mostBarPieces)}
	}
	name := form.Field{Key: "name", Label: "Name", Takes: form.Text(), Optional: true}
	return form.Calculator{
		Title: "Pieces out of stock",
		About: "Lays out which pieces come out of which bar or plate. It counts the kerf and wastes the least.",
		Place: "layout",
		Terms: []string{"cut list", "nesting", "bar", "tube", "plate", "sheet", "off-cut", "drop", "waste", "stock", "yield", "frame"},
		Fields: []form.Field{
			{Key: "stock_is", Label: "Out of", Takes: form.OneOf("bars", "Bars or tube", "plates", "Plates"), Default: "bars"},
			{Key: "bars", Label: "Bars", Help: "What you have, off-cuts too", Only: of("bars"), Takes: form.List(form.EachRow{Name: "Bar", Shown: "{length} · {left?}", Bare: []string{"length"}, Most: 12},
				form.Field{Key: "length", Label: "Length", Takes: mark, Chips: []string{"6m", "3m", "1m"}, ChipsUS: []string{"20ft", "10ft", "4ft"}, Limits: long},
				form.Field{Key: "left", Label: "How many are there", Takes: form.Count(), Optional: true, Help: "Left empty: as many as it takes", Chips: []string{"1", "2", "3"}, Limits: form.WithinCount(1, 100)})},
			{Key: "lengths", Label: "Pieces", Only: of("bars"), Takes: form.List(form.EachRow{Name: "Piece", Shown: "{name} · {count} × {length}", Bare: []string{"length"}},
				form.Field{Key: "length", Label: "Length", Takes: mark, Limits: long}, how(), name)},
			{Key: "plate_length", Label: "Plate length", Only: of("plates"), Takes: mark, Chips: []string{"2m", "2.5m", "3m"}, ChipsUS: []string{"8ft", "10ft"}, Limits: long},
			{Key: "plate_width", Label: "Plate width", Only: of("plates"), Takes: mark, Chips: []string{"1m", "1250mm", "1.5m"}, ChipsUS: []string{"4ft", "5ft"}, Limits: long},
			{Key: "plates", Label: "How many plates are there", Help: "Left empty: as many as it takes", Only: of("plates"), Takes: form.Count(), Optional: true, Chips: []string{"1", "2"}, Limits: form.WithinCount(1, 100)},
			{Key: "rectangles", Label: "Pieces", Only: of("plates"), Takes: form.List(form.EachRow{Name: "Piece", Shown: "{name} · {count} × {length} × {width}", Bare: []string{"length", "width"}},
				form.Field{Key: "length", Label: "Length", Takes: mark, Limits: long},
				form.Field{Key: "width", Label: "Width", Takes: mark, Limits: long}, how(), name)},
			{Key: "turning", Label: "Pieces may lie", Takes: form.OneOf("any", "Either way", "along", "Only along the plate"), Default: "any", Only: of("plates")},
			{Key: "kerf", Label: "Kerf", Known: "plan.kerf", Help: "Measured on a trial strip, or from the plan", Takes: length(unit.Kerf), Default: "1.5mm", Basis: source.CommonPractice, Limits: form.Within(0, 15*unit.Millimetre)},
			{Key: "trim", Label: "Cut off first", Help: "From the end of each bar, or all round a plate, where it is bent or rough", Takes: mark, Default: "0mm", Basis: source.Neutral, Fine: true, Limits: form.Within(0, 500*unit.Millimetre)},
			{Key: "keep_from", Label: "Off-cuts worth keeping", Help: "From this length on; of a plate both ways", Takes: mark, Default: "300mm", Basis: source.CommonPractice, Fine: true, Limits: form.Within(0, 5*unit.Metre)},
			{Key: "thickness", Label: "Thickness or wall", Help: "For the plan and the job", Known: "plan.thickness", Takes: length(unit.Plate), Optional: true, Fine: true, Limits: form.Within(0.3*unit.Millimetre, 100*unit.Millimetre)},
			{Key: "across", Label: "One cut through a bar is as long as", Help: "Its width; of a tube all round", Takes: mark, Optional: true, Fine: true, Only: of("bars"), Limits: form.Within(3*unit.Millimetre, 3*unit.Metre)},
		},
		Results: []form.Result{
			{Key: "verdict", Label: "In short", Gives: form.Text(), Main: true},
			{Key: "takes", Label: "It takes", Gives: form.Count(), Main: true},
			{Key: "waste", Label: "Of the stock is left or kerf", Gives: form.Number[unit.Ratio]("%", "%"), Main: true},
			{Key: "least", Label: "At least", Gives: form.Count()},
			{Key: "least_by_sum", Label: "At least, by length alone", Gives: form.Count()},
			{Key: "simple", Label: "Longest first into the first bar with room", Gives: form.Count()},
			{Key: "proven", Label: "No plan takes less", Gives: form.YesNo()},
			{Key: "used", Label: "Stock used", Gives: mark},
			{Key: "largest", Label: "Longest off-cut", Gives: mark},
			{Key: "plan", Label: "Cut it so", Gives: form.Rows("stock", "Stock", "pieces", "Pieces in order", "marks", "Marks from one end", "left", "Left over")},
			{Key: "places", Label: "Where each piece lies", Gives: form.Rows("plate", "Plate", "piece", "Piece", "along", "From the left edge", "up", "From the lower edge")},
			{Key: "offcuts", Label: "Off-cuts to keep", Gives: form.Rows("what", "Off-cut", "from", "From")},
			{Key: "cut", Label: "Length of all cuts", Gives: mark},
		},
		Sources: []source.ID{source.CommonPractice},
		Run:     runNest,
	}
}}

func runNest(r *form.Reader, a *form.Answer) error {
	n := nestWords{a: a, keep: form.Get[unit.Length](r, "keep_from"), thickness: form.Get[unit.Length](r, "thickness")}
	stock := form.GetWord(r, "stock_is")
	kerf, trim, across := form.Get[unit.Length](r, "kerf"), form.Get[unit.Length](r, "trim"), form.Get[unit.Length](r, "across")
	bars := BarsInput{Kerf: kerf, Trim: trim}
	plate := PlateInput{Length: form.Get[unit.Length](r, "plate_length"), Width: form.Get[unit.Length](r, "plate_width"), Plates: form.GetCount(r, "plates"), Kerf: kerf, Edge: trim, Turn: form.GetWord(r, "turning") == "any"}
	for i, row := range r.Rows("bars") {
		bars.Stock = append(bars.Stock, Bar{Length: form.Get[unit.Length](row, "length"), Count: form.GetCount(row, "left")})
		if r.Err() == nil && bars.Stock[i].Length <= trim {
			r.Fail(fmt.Sprintf("bars.%d.length", i+1), problem.New(problem.Conflict, "", "nothing is left of it once its end is cut off", "Take it out of the list."))
		}
	}
	for _, row := range r.Rows("lengths") {
		bars.Pieces = append(bars.Pieces, BarPiece{Name: form.GetText(row, "name"), Length: form.Get[unit.Length](row, "length"), Count: form.GetCount(row, "count")})
	}
	for _, row := range r.Rows("rectangles") {
		plate.Pieces = append(plate.Pieces, PlatePiece{Name: form.GetText(row, "name"), Length: form.Get[unit.Length](row, "length"), Width: form.Get[unit.Length](row, "width"), Count: form.GetCount(row, "count")})
	}
	if err := r.Err(); err != nil {
		return err
	}
	a.Caution("Measure every mark from one end. The kerf lies beyond each mark, on the side of what is left.")
	a.Caution("Mill lengths and widths differ: measure each bar and plate before you mark it.")
	if stock == "plates" {
		res, err := ComputePlate(plate)
		if err != nil {
			return err
		}
		n.plates(plate, res)
	} else {
		res, err := ComputeBars(bars)
		if err != nil {
			return err
		}
		n.bars(bars, res, across)
	}
	a.Caution(safety.Return)
	return nil
}

// nestWords tells of a plan.
type nestWords struct {
	a               *form.Answer
	keep, thickness unit.Length
}

func (n nestWords) mm(l unit.Length) string { return form.SayAs(n.a, l, unit.Marking) }

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
		if b.Left == 0 {
			cuts--
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
			a.AddCut(form.Onward{Name: "Cut to length", Fields: map[string]string{"thickness": asTyped(a, n.thickness, unit.Plate), "length": asTyped(a, across, unit.Marking), "count": strconv.Itoa(cuts)}})
		}
	}
}

func (n nestWords) offcut(what, from string) *form.Row {
	row := n.a.NewRow()
	row.PutWord("what", what)
	row.PutWord("from", from)
	return row
}

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
	d.Says = strings.Join(says, ". ") + ". What is left is hatched."
	return d
}

// plates tells a plan of plates.
func (n nestWords) plates(in PlateInput, res PlateResult) {
	a := n.a
	of := unit.Count(len(res.Plates), "plate", "plates")
	if res.Proven {
		a.PutWord("verdict", upper(of)+". Fewer have not the area.")
	} else {
		a.PutWord("verdict", upper(of)+", the best plan found. By area alone it would be "+strconv.Itoa(res.Least)+".")
	}
	a.PutYes("proven", res.Proven)
	a.PutCount("takes", len(res.Plates))
	a.PutCount("least", res.Least)
	form.Put(a, "waste", unit.Ratio(1-float64(res.Pieces/res.Used)))
	form.Put(a, "cut", res.Cut)
	mark := form.Number[unit.Length]("mm", "in").As(unit.Marking)
	var rows, kept []*form.Row
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
	a.PutRows("offcuts", kept)
	a.Step("a piece takes its length and width and a kerf of %s each way; edge to edge, %s", form.SayAs(a, in.Kerf, unit.Kerf), unit.Count(res.Cuts, "cut", "cuts"))
	a.Caution("Cut edge to edge in turn: each cut parts what is left in two. Heat draws long thin strips: let them cool between.")
	if n.thickness > 0 {
		a.AddCut(form.Onward{Name: "Pieces out of plate", Fields: map[string]string{"thickness": asTyped(a, n.thickness, unit.Plate), "length": asTyped(a, res.Cut, unit.Marking), "count": "1"}})
	}
}

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
