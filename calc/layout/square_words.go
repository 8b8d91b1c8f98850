package layout

import (
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// squareVerdict is the verdict and its word.
func squareVerdict(a *form.Answer, in SquareInput, res SquareResult) (says, verdict string) {
	say := func(l unit.Length) string { return form.SayAs(a, max(l, -l), unit.Marking) }
	slack := form.SayAs(a, res.Doubt, unit.Slack)
	side := "the end of the second leg"
	if in.Frame {
		side = "one length along the other"
	}
	switch {
	case in.Frame && max(res.Sides, -res.Sides) > res.SideSure:
		more := map[bool]string{true: "longer", false: "shorter"}[res.Sides > 0]
		return "sides", "A side is wrong, or it does not lie flat. The diagonals are " + say(res.Sides) + " " + more + " than these sides allow. Measure the sides again first."
	case max(res.Out, -res.Out) <= res.Doubt:
		return "square", "Square as far as the tape tells: within " + slack + "."
	case in.Frame:
		which := map[bool]string{true: "first", false: "other"}[res.Out > 0]
		return "out", "Push the ends of the " + which + " diagonal together: it is the longer one. Shift " + side + " by " + say(res.Out) + "."
	case res.Out > 0:
		return "out", "The corner is too open. Move " + side + " in by " + say(res.Out) + "."
	}
	return "out", "The corner is too closed. Move " + side + " out by " + say(res.Out) + "."
}
