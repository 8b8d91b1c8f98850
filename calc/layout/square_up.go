package layout

import (
	"math"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// SquareInput is a corner or a frame that is to be square.
type SquareInput struct {
	Frame bool        // four sides with two diagonals; else a corner of two legs
	A, B  unit.Length // the legs, or the length and the width of a frame
	D1    unit.Length // the diagonal as measured, 0 where none is
	D2    unit.Length // the other one of a frame
	Tape  unit.Length // by which each measure may be off
}

// SquareResult is what it should be, and how far it is from that.
type SquareResult struct {
	Diagonal unit.Length // of a square one
	Angle    unit.Angle  // as measured; of a frame that from which D1 runs
	Out      unit.Length // by which the end of B stands out of square: positive where a corner is too open, or D1 is the longer
	Doubt    unit.Length // of Out, by the tape
	Sides    unit.Length // of a frame: by which the diagonals are longer than the sides allow, on average
	SideSure unit.Length // what the tape alone makes of Sides at most
}

// ComputeSquare tells what the diagonal should be, and from measured ones how far out of
// square it is.
//
//	corner  cos γ = (a² + b² − c²)/(2ab)    out = −b·cos γ    doubt t·√(c² + b² + (a + out)²)/a
//	frame   out = (d₁² − d₂²)/(4a)           doubt t·√(d₁²/4 + d₂²/4 + out²)/a
//	        e = (d₁² + d₂² − 2a² − 2b²)/(4d), which the tape makes t·(1 + (a + b)/d) at most
//
// t is by how much a tape may be off: each measure by itself for the doubt, all of them the
// worst way for e, so that no side is blamed for the tape. By L. Euler's law of
// quadrilaterals the squares of all four sides are d₁² + d₂² and four times the square of
// what lies between the middles of the diagonals: e is over where a side is longer than
// told, flat or not, and short where one is shorter, where opposite sides differ, or where
// the frame is twisted. Plane geometry; no source needed.
func ComputeSquare(in SquareInput) (SquareResult, error) {
	a, b, d1, d2 := float64(in.A), float64(in.B), float64(in.D1), float64(in.D2)
	square := math.Hypot(a, b)
	res := SquareResult{Diagonal: unit.Length(square), Angle: math.Pi / 2}
	if d1 == 0 {
		return res, nil
	}
	refuse := func(field string) (SquareResult, error) {
		return SquareResult{}, problem.New(problem.Conflict, field, "no corner has a diagonal like that over such sides", "Measure all of them again, from the same points.")
	}
	if !in.Frame {
		cos := (a*a + b*b - d1*d1) / (2 * a * b)
		if cos < -1 || cos > 1 {
			return refuse("diagonal")
		}
		res.Angle = unit.Angle(math.Acos(cos))
		res.Out = unit.Length(-b * cos)
		res.Doubt = in.Tape * unit.Length(math.Hypot(math.Hypot(d1, b), a+float64(res.Out))/a)
		return res, nil
	}
	out := (d1*d1 - d2*d2) / (4 * a)
	if math.Abs(out) >= b {
		return refuse("other_diagonal")
	}
	mean := (d1 + d2) / 2
	res.Out = unit.Length(out)
	res.Angle = unit.Angle(math.Pi/2 - math.Asin(out/b))
	res.Doubt = in.Tape * unit.Length(math.Hypot(math.Hypot(d1, d2)/2, out)/a)
	res.Sides = unit.Length((d1*d1 + d2*d2 - 2*a*a - 2*b*b) / (4 * mean))
	res.SideSure = in.Tape * unit.Length(1+(a+b)/mean)
	return res, nil
}

// SquareUp is the calculator square-up.
var SquareUp = form.Declaration{Name: "square-up", Make: func() form.Calculator {
	mark := form.Number[unit.Length]("mm", "in").As(unit.Marking)
	limits := form.Within(20*unit.Millimetre, 100*unit.Metre)
	return form.Calculator{
		Title: "Square up",
		About: "Tells the diagonal of a square corner or frame, and which way to move a crooked one.",
		Place: "layout",
		Terms: []string{"3-4-5", "diagonal", "square corner", "right angle", "frame", "out of square", "rack", "diagonals"},
		Fields: []form.Field{
			{Key: "of", Label: "What is it", Takes: form.OneOf("corner", "A corner of two legs", "frame", "A frame of four sides"), Default: "corner"},
			{Key: "side", Label: "First leg, or length", Takes: mark, Chips: []string{"600mm", "900mm", "3m"}, ChipsUS: []string{"3ft", "6ft", "9ft"}, Limits: limits},
			{Key: "other_side", Label: "Second leg, or width", Takes: mark, Chips: []string{"800mm", "1200mm", "4m"}, ChipsUS: []string{"4ft", "8ft", "12ft"}, Limits: limits},
			{Key: "diagonal", Label: "Diagonal as measured", Help: "From the ends of both legs. Left empty: only what it should be", Takes: mark, Optional: true, Limits: form.Within(20*unit.Millimetre, 150*unit.Metre)},
			{Key: "other_diagonal", Label: "The other diagonal", Takes: mark, Optional: true, Only: form.When("of", "frame"), Limits: form.Within(20*unit.Millimetre, 150*unit.Metre)},
			{Key: "tape_error", Label: "A measure may be off by", Takes: mark, Default: "1mm", Basis: source.CommonPractice, Fine: true, Chips: []string{"0.5mm", "1mm", "2mm"}, ChipsUS: []string{"1/32in", "1/16in"}, Limits: form.Within(0, 20*unit.Millimetre)},
		},
		Results: []form.Result{
			{Key: "verdict", Label: "In short", Gives: form.Text(), Main: true},
			{Key: "should_be", Label: "A square one has the diagonal", Gives: mark, Main: true},
			{Key: "says", Label: "It is", Gives: form.OneOf("square", "square as far as the tape tells", "out", "out of square", "sides", "of sides that do not agree")},
			{Key: "out", Label: "Out of square by", Gives: mark, Main: true},
			{Key: "angle_off", Label: "Off a right angle by", Gives: form.Number[unit.Angle]("°", "°").As(unit.Kerf)},
			{Key: "doubt", Label: "Known by the tape to", Gives: form.Number[unit.Length]("mm", "in").As(unit.Slack)},
		},
		Sources: []source.ID{source.CommonPractice},
		Run:     runSquare,
	}
}}

func runSquare(r *form.Reader, a *form.Answer) error {
	in := SquareInput{
		Frame: form.GetWord(r, "of") == "frame", A: form.Get[unit.Length](r, "side"), B: form.Get[unit.Length](r, "other_side"),
		D1: form.Get[unit.Length](r, "diagonal"), Tape: form.Get[unit.Length](r, "tape_error"),
	}
	if d2 := form.Get[unit.Length](r, "other_diagonal"); in.Frame {
		in.D2 = d2
		if r.Given("diagonal") != r.Given("other_diagonal") {
			missing := either(r.Given("diagonal"), "other_diagonal", "diagonal")
			r.Fail(missing, problem.New(problem.Missing, "", "a frame is judged by both diagonals", "Measure the other one. Or choose a corner: one diagonal judges that by itself."))
		}
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeSquare(in)
	if err != nil {
		return err
	}
	form.Put(a, "should_be", res.Diagonal)
	if in.D1 > 0 {
		putSquare(a, in, res)
	}
	stepSquare(a, in, res)
	a.DrawLayout(drawSquare(a, in, res))
	a.Caution("Measure between the same points each time, on the same face: scribe them, do not go by a burr or a weld.")
	a.Caution("Measure in millimetres or in feet and inches, never in decimal feet read as inches.")
	a.Caution("Tack first, measure again, then weld: heat draws a frame out of square.")
	return nil
}

// putSquare tells how far out it is, where the measures can tell that: not where a square
// one may measure like this, nor where a side is wrong.
func putSquare(a *form.Answer, in SquareInput, res SquareResult) {
	says, verdict := squareVerdict(a, in, res)
	a.PutWord("verdict", verdict)
	a.PutWord("says", says)
	form.Put(a, "doubt", res.Doubt)
	if says != "out" {
		return
	}
	out, off := max(res.Out, -res.Out), max(res.Angle-math.Pi/2, math.Pi/2-res.Angle)
	turn := unit.Angle(res.Doubt / in.B)
	form.PutBetween(a, "out", max(0, out-res.Doubt), out, out+res.Doubt)
	form.PutBetween(a, "angle_off", max(0, off-turn), off, off+turn)
}
