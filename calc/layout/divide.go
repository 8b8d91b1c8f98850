package layout

import (
	"math"
	"strconv"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// DivideInput is a length to part alike.
type DivideInput struct {
	Length     unit.Length
	Into       string      // "pieces", "marks" or "bars"
	Count      int         // of pieces, marks or bars; 0 to go by Widest
	Widest     unit.Length // a piece, a step or a gap at most
	Bar        unit.Length // width of a bar that stands in the length
	Start, End unit.Length // kept off both ends
	Kerf       unit.Length // between pieces
}

// DivideResult is how it parts.
type DivideResult struct {
	Count int
	Cuts  int         // that make pieces: between two, and where something is kept off an end
	Each  unit.Length // a piece, a step from mark to mark, or a gap
	Step  unit.Length // from the beginning of one to that of the next
	At    []Part
}

// Part is a piece or a bar by its ends from the left one, or a mark, whose ends are one.
type Part struct{ From, To unit.Length }

// ComputeDivide parts a length alike. With L the length without what is kept off, n the
// count, k the kerf and w the width of a bar:
//
//	pieces  (L − (n − 1)·k)/n        n at least (L + k)/(widest + k)
//	marks   L/(n − 1), on both ends   n at least L/widest + 1
//	bars    gap (L − n·w)/(n + 1)     n at least (L − widest)/(w + widest)
//
// Each place is reckoned from the left end. What is kept off a piece's end is cut off, with
// the kerf in it. Arithmetic; no source needed.
func ComputeDivide(in DivideInput) (DivideResult, error) {
	long := in.Length - in.Start - in.End
	if long <= 0 {
		return DivideResult{}, problem.New(problem.Conflict, "off_left", "nothing is left between what is kept off both ends", "Keep off less, or measure again.")
	}
	// up is how many it takes at least; a millionth more is none.
	up := func(n unit.Length) int { return int(math.Ceil(float64(n) - 1e-6)) }
	n := in.Count
	if n == 0 {
		switch in.Into {
		case "pieces":
			n = max(1, up((long+in.Kerf)/(in.Widest+in.Kerf)))
		case "marks":
			n = max(2, up(long/in.Widest)+1)
		default:
			if long <= in.Widest {
				return DivideResult{}, problem.New(problem.Refused, "widest", "the whole gap is no wider than that without a bar", "Leave it open, or allow less.")
			}
			n = up((long - in.Widest) / (in.Bar + in.Widest))
		}
	}
	if n > mostDivisions {
		return DivideResult{}, problem.Newf(problem.Refused, "widest", "it would take %d", n).WithHint("At most %d: allow more between them.", mostDivisions)
	}
	res := DivideResult{Count: n}
	whole := unit.Length(n)
	switch in.Into {
	case "pieces":
		res.Each = (long - (whole-1)*in.Kerf) / whole
		res.Step = res.Each + in.Kerf
		res.Cuts = n - 1
		for _, off := range []struct {
			field string
			by    unit.Length
		}{{"off_left", in.Start}, {"off_right", in.End}} {
			switch {
			case off.by > 0 && off.by < in.Kerf:
				return DivideResult{}, problem.New(problem.Conflict, off.field, "the kerf is wider than what is to come off there", "Keep off nothing, or at least a kerf.")
			case off.by > 0:
				res.Cuts++
			}
		}
	case "marks":
		if n < 2 {
			return DivideResult{}, problem.New(problem.Range, "count", "marks on both ends are two at least", "For one mark take half the length.")
		}
		res.Each = long / (whole - 1)
		res.Step = res.Each
	default:
		res.Each = (long - whole*in.Bar) / (whole + 1)
		res.Step = res.Each + in.Bar
	}
	if res.Each <= 0 {
		return DivideResult{}, problem.Newf(problem.Refused, "count", "%d do not go into it: nothing is left between them", n).WithHint("Fewer, or narrower ones.")
	}
	for i := range n {
		from := in.Start + unit.Length(i)*res.Step
		to := from
		switch in.Into {
		case "pieces":
			to += res.Each
		case "bars":
			from += res.Each
			to = from + in.Bar
		}
		res.At = append(res.At, Part{From: from, To: to})
	}
	return res, nil
}

const mostDivisions = 200

// Divide is the calculator divide.
var Divide = form.Declaration{Name: "divide", Make: func() form.Calculator {
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	mark := length(unit.Marking)
	off := form.Within(0, 10*unit.Metre)
	return form.Calculator{
		Title: "Equal parts",
		About: "Parts a length alike: pieces with the kerf, marks for holes or posts, bars with equal gaps.",
		Place: "layout",
		Terms: []string{"equal spaces", "spacing", "divide", "pickets", "balusters", "posts", "hole spacing", "centres", "gap"},
		Fields: []form.Field{
			{Key: "length", Label: "Length", Help: "All of it; for bars the clear length between both posts", Takes: mark, Chips: []string{"1m", "2m", "3m"}, ChipsUS: []string{"4ft", "8ft", "10ft"}, Limits: form.Within(20*unit.Millimetre, 100*unit.Metre)},
			{Key: "into", Label: "Into", Takes: form.OneOf("pieces", "Pieces, cut from it", "marks", "Marks: holes, posts", "bars", "Bars with equal gaps"), Default: "pieces"},
			{Key: "divisions", Label: "How many", Help: "Or say the widest below", Takes: form.Count(), Optional: true, Chips: []string{"2", "3", "4", "5", "6"}, Limits: form.WithinCount(1, mostDivisions)},
			{Key: "widest", Label: "Or at most so wide", Help: "A piece, the step between marks, or the gap between bars", Takes: mark, Optional: true, Limits: form.Within(2*unit.Millimetre, 20*unit.Metre)},
			{Key: "bar", Label: "Width of a bar", Help: "As you see it from the front", Takes: mark, Only: form.When("into", "bars"), Chips: []string{"12mm", "16mm", "20mm"}, ChipsUS: []string{"1/2in", "5/8in", "3/4in"}, Limits: form.Within(2*unit.Millimetre, unit.Metre)},
			{Key: "off_left", Label: "Kept off the left end", Help: "Of pieces it is cut off", Takes: mark, Default: "0mm", Basis: source.Neutral, Fine: true, Limits: off},
			{Key: "off_right", Label: "Kept off the right end", Help: "Of pieces it is cut off", Takes: mark, Default: "0mm", Basis: source.Neutral, Fine: true, Limits: off},
			{Key: "kerf", Label: "Kerf", Known: "plan.kerf", Help: "Measured on a trial strip, or from the plan", Takes: length(unit.Kerf), Default: "1.5mm", Basis: source.CommonPractice, Only: form.When("into", "pieces"), Limits: form.Within(0, 15*unit.Millimetre)},
			{Key: "thickness", Label: "Thickness or wall", Help: "For the plan and the job", Known: "plan.thickness", Takes: length(unit.Plate), Optional: true, Fine: true, Only: form.When("into", "pieces"), Limits: form.Within(0.3*unit.Millimetre, 100*unit.Millimetre)},
			{Key: "across", Label: "One cut is as long as", Help: "The width; of a tube all round", Takes: mark, Optional: true, Fine: true, Only: form.When("into", "pieces"), Limits: form.Within(3*unit.Millimetre, 3*unit.Metre)},
		},
		Results: []form.Result{
			{Key: "each", Label: "Each piece, step or gap", Gives: mark, Main: true},
			{Key: "parts", Label: "How many", Gives: form.Count(), Main: true},
			{Key: "step", Label: "From one to the next", Gives: mark},
			{Key: "rows", Label: "Mark from the left end", Gives: form.Rows("part", "No.", "from", "Begins", "to", "Ends")},
		},
		Sources: []source.ID{source.CommonPractice},
		Run:     runDivide,
	}
}}

func runDivide(r *form.Reader, a *form.Answer) error {
	in := DivideInput{
		Length: form.Get[unit.Length](r, "length"), Into: form.GetWord(r, "into"), Count: form.GetCount(r, "divisions"), Widest: form.Get[unit.Length](r, "widest"),
		Bar: form.Get[unit.Length](r, "bar"), Start: form.Get[unit.Length](r, "off_left"), End: form.Get[unit.Length](r, "off_right"), Kerf: form.Get[unit.Length](r, "kerf"),
	}
	thickness, across := form.Get[unit.Length](r, "thickness"), form.Get[unit.Length](r, "across")
	switch {
	case !r.Given("divisions") && !r.Given("widest"):
		r.Fail("divisions", problem.New(problem.Missing, "", "how many, or how wide at most", "Enter one of the two."))
	case r.Given("divisions") && r.Given("widest"):
		r.Fail("widest", problem.New(problem.Conflict, "", "how many and how wide are two ways to say the same", "Clear one of the two."))
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeDivide(in)
	if err != nil {
		if p := problem.From(err); p.Field == "count" {
			p.Field = either(in.Count > 0, "divisions", "widest")
			return p
		}
		return err
	}
	form.Put(a, "each", res.Each)
	a.PutCount("parts", res.Count)
	if res.Count > 1 {
		form.Put(a, "step", res.Step)
	}
	var rows []*form.Row
	for i, p := range res.At {
		lengths := []unit.Length{p.From, p.To}
		if in.Into == "marks" {
			lengths = lengths[:1]
		}
		rows = append(rows, markRow(a, strconv.Itoa(i+1), []string{"part", "from", "to"}, lengths...))
	}
	a.PutRows("rows", rows)
	sayDivide(a, in, res)
	a.DrawLayout(drawDivide(a, in, res))
	if thickness > 0 && across > 0 && res.Cuts > 0 {
		addCut(a, "Cut into equal pieces", thickness, across, "", res.Cuts)
	}
	return nil
}
