package layout

import (
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

func sayArc(a *form.Answer, in ArcInput, res ArcResult, arm, kerf unit.Length, hole bool) {
	worked := func(l unit.Length) string { return checked(a, l) }
	radius := worked(res.Radius)
	if res.RadiusOff > 0 {
		radius = inDoubt(a, res.Radius, res.RadiusOff)
	}
	switch in.Given {
	case "chord-rise":
		a.Step("R = chord² ÷ (8 × rise) + rise ÷ 2 = %s² ÷ (8 × %s) + %s ÷ 2 = %s", worked(res.Chord), worked(res.Rise), worked(res.Rise), radius)
		a.Step("chord and rise %s off, each the worse way, make it %s more or less", form.SayAs(a, in.Tape, unit.Slack), form.SayAs(a, res.RadiusOff, unit.Slack))
	case "arc-angle":
		a.Step("R = length ÷ angle in radians = %s × 57.3 ÷ %s = %s", worked(res.Arc), form.Say(a, res.Angle), radius)
	case "chord-angle":
		a.Step("R = chord ÷ (2 × sin(angle ÷ 2)) = %s ÷ (2 × sin(%s ÷ 2)) = %s", worked(res.Chord), form.Say(a, res.Angle), radius)
	default:
		a.Step("rise = R − √(R² − (chord ÷ 2)²) = %s, with R = %s and chord = %s", worked(res.Rise), radius, worked(res.Chord))
	}
	if i := in.Spaces / 4; i > 0 {
		o := res.Points[i]
		a.Step("point %d: %s from the left end, x = %s from the middle: down x² ÷ (R + √(R² − x²)) = %s, up %s − that = %s", i, worked(o.Along), worked(res.Chord/2-o.Along), worked(o.Down), worked(res.Rise), worked(o.Up))
	}
	if res.RadiusOff == 0 {
		sign := either(hole, "−", "+")
		a.Step("centre to the middle of the torch = R %s %s ÷ 2 = %s", sign, form.SayAs(a, kerf, unit.Kerf), worked(arm))
	}
	a.Caution("Measure every point from the one end and the one line. Steps from point to point add their errors up.")
	if res.RadiusOff > res.Radius/20 {
		a.Caution("The rise is too small to tell the radius well. Measure over a longer chord: twice as long is four times as good.")
	}
}
