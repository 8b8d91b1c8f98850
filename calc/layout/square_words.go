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
		which := map[bool]string{true: "first", false: "other"}[res.Out > 0]
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
	worked := func(l unit.Length) string { return workedLength(a, l) }
	as := func(l unit.Length) string { return "(" + form.SayAs(a, l, unit.Marking) + ")²" }
	a.Step("square: √(%s + %s) = %s", as(in.A), as(in.B), worked(res.Diagonal))
	switch {
	case in.D1 == 0:
	case in.Frame:
		a.Step("out = (%s − %s) ÷ (4 × %s) = %s", as(in.D1), as(in.D2), form.SayAs(a, in.A, unit.Marking), worked(res.Out))
		a.Step("by the sides: √((%s + %s) ÷ 2) − %s = %s, and the tape makes %s of it at most", as(in.D1), as(in.D2), worked(res.Diagonal), worked(res.Sides), form.SayAs(a, res.SideSure, unit.Slack))
	default:
		a.Step("out = (%s − %s − %s) ÷ (2 × %s) = %s", as(in.D1), as(in.A), as(in.B), form.SayAs(a, in.A, unit.Marking), worked(res.Out))
	}
}
