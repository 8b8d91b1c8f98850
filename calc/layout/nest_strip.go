package layout

import (
	"fmt"

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
			{Key: "turns", Label: "Cuts in turn", Gives: form.Rows("plate", "Plate", "way", "It runs", "at", "Line to cut", "from", "From", "to", "To")},
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

func (n nestWords) offcut(what, from string) *form.Row {
	row := n.a.NewRow()
	row.PutWord("what", what)
	row.PutWord("from", from)
	return row
}
