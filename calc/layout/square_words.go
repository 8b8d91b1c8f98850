package layout

import (
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// squareVerdict is the verdict and its word.
func squareVerdict(a *form.Answer, in SquareInput, res SquareResult) (says, verdict string) {
	say := func(l unit.Length) string { return form.SayAs(a, max(l, -l), unit.Marking) }
	switch {
	case in.Frame && res.Sides > res.SideSure:
		return "sides", "A side is longer than you said. The diagonals are " + say(res.Sides) + " longer than such sides allow, flat or twisted. Measure all four sides again first."
	case in.Frame && -res.Sides > res.SideSure:
		return "sides", "A side is shorter than you said, or opposite sides differ, or it does not lie flat. The diagonals are " + say(res.Sides) + " shorter than such sides allow. Measure all four sides again first, and sight across for a twist."
	case max(res.Out, -res.Out) <= res.Doubt:
		return "square", "Square as far as the tape tells: within " + form.SayAs(a, res.Doubt, unit.Slack) + "."
	case in.Frame:
		which := either(res.Out > 0, "first", "other")
		return "out", "Push the ends of the " + which + " diagonal together: it is the longer one. Shift one length along the other by about " + say(res.Out) + ", until both diagonals are alike."
	}
	is, way := "open", "in"
	if res.Out < 0 {
		is, way = "closed", "out"
	}
	return "out", "The corner is too " + is + ". Move the end of the second leg " + way + " by about " + say(res.Out) + ", until the diagonal reads " + say(res.Diagonal) + "."
}

// stepSquare is the sum as somebody checks it: with what was measured as it was entered,
// for differences of squares lose what is rounded.
func stepSquare(a *form.Answer, in SquareInput, res SquareResult) {
	as := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	long, other, d1, d2, square := as(in.A), as(in.B), as(in.D1), as(in.D2), workedLength(a, res.Diagonal)
	a.Step("square: √((%s)² + (%s)²) = %s", long, other, square)
	if in.D1 == 0 {
		return
	}
	out := workedLength(a, res.Out)
	if !in.Frame {
		a.Step("out = ((%s)² − (%s)² − (%s)²) ÷ (2 × %s) = %s", d1, long, other, long, out)
		return
	}
	a.Step("out = ((%s)² − (%s)²) ÷ (4 × %s) = %s", d1, d2, long, out)
	a.Step("by the sides: √(((%s)² + (%s)²) ÷ 2) − %s = %s, and the tape makes %s of it at most", d1, d2, square, workedLength(a, res.Sides), form.SayAs(a, res.SideSure, unit.Slack))
}
