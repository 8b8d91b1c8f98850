package layout

import (
	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

// cutoutName is what is cut, in a word or two.
func cutoutName(cutout string, disc bool) string {
	switch {
	case cutout == "round" && disc:
		return "Disc"
	case disc:
		return "Piece with round corners"
	case cutout == "round":
		return "Round hole"
	case cutout == "slot":
		return "Slot"
	}
	return "Opening"
}

func sayHole(a *form.Answer, guide string, in HoleInput, res HoleResult) {
	worked := func(l unit.Length) string { return checked(a, l) }
	if res.ByHand {
		sign := either(in.Disc, "+", "−")
		if guide != "free" {
			a.Step("pivot to the middle of the torch = %s %s %s ÷ 2 = %s", worked(in.Corner), sign, worked(in.Kerf), worked(res.Arm))
		}
		if res.Template > 0 {
			sign = either(in.Disc, "−", "+")
			a.Step("template = %s %s %s ÷ 2 = %s", worked(res.Arm), sign, worked(in.Cup), worked(res.Template))
		}
		a.Step("one cut = 2 × (%s + %s) − 1.72 × %s + lead-in %s = %s", worked(in.Length), worked(in.Width), worked(in.Corner), worked(res.Run), worked(res.Cut))
		a.Step("width off by √((2 × %s)² + (0.2 × %s)²) = %s: the setting on both sides, and a kerf that is a fifth other than reckoned", worked(in.Setting), worked(in.Kerf), worked(res.SizeOff))
		a.Step("the hand wanders %s either way, so the edge leaves its line by that up to twice that", worked(res.Wander))
		a.Step("smallest hole, lead-in, kerf's fifth and the hand's wander are common practice; nobody published them")
	}
	a.Caution(safety.MadeDead)
	if res.ByHand && !in.Disc {
		a.Caution("The slug falls, hot. Nothing and nobody is under it, and the arm's pivot does not stand on it.")
	}
	a.Caution("Holes of a frame, a lifting eye or a pressure part: the code may want them drilled or reamed.")
	if res.ByHand {
		a.Caution("A pierce blows metal back. Tilt the torch as it goes in, and stand clear of the spray.")
		turn := "against the clock round a hole"
		if in.Disc {
			turn = "with the clock round a disc"
		}
		a.Caution("Most torches cut squarer on their right: go %s. Try on scrap which side yours is.", turn)
	}
	a.Caution(safety.ArcOn)
}

func sayPattern(a *form.Answer, in PatternInput, p PatternResult) {
	worked := func(l unit.Length) string { return checked(a, l) }
	a.Step("from hole to next hole = %s × sin(180° ÷ %d) = %s", worked(in.Circle), in.Holes, worked(p.Chord))
	if p.Steps > 1 {
		a.Step("check over %d holes: %s × sin(180° × %d ÷ %d) = %s", p.Steps, worked(in.Circle), p.Steps, in.Holes, worked(p.Check))
	}
	if p.Closing > 0 {
		a.Step("a setting %s off adds up to %s after %d steps", form.SayAs(a, in.Setting, unit.Slack), form.SayAs(a, p.Closing, unit.Slack), in.Holes)
		a.Caution("Set out each hole from hole 1 or from the centre lines. Steps from hole to hole add their errors up.")
	}
	if p.Web < in.Diameter {
		a.Caution("Less metal than one hole's width is left between holes. Ask whoever designs the joint.")
	}
}
