package layout

import (
	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

func sayBracket(a *form.Answer, in BracketInput, res BracketResult) {
	say := func(l unit.Length) string { return form.Worked(a, l, "mm", "in") }
	sum := say(res.Straight[0])
	for i, b := range res.Bends {
		turn := form.Say(a, in.Bends[i].Turn)
		a.Step("bend %d: %s × π ÷ 180° × (%s + %s × %s) = %s", i+1, turn, say(in.Bends[i].Radius), unit.Figures(b.K, 3), say(in.Thickness), say(b.Allowance))
		sum += " + " + say(b.Allowance) + " + " + say(res.Straight[i+1])
	}
	a.Step("flat = straight parts and bends = %s = %s", sum, say(res.Flat))
}

func cautionBracket(a *form.Answer, in BracketInput, res BracketResult) {
	a.Caution("The rules differ by up to %s here. Bend a strip of this sheet on this brake first, and measure it.", form.SayAs(a, res.Give, unit.Slack))
	a.Caution("Mark bend lines with chalk or pencil. A scribed line at the outside of a bend starts a crack.")
	a.Caution("An edge cut by plasma is hard and notched. Grind it smooth where a bend crosses it.")
	for _, b := range in.Bends {
		if b.Radius < in.Thickness {
			a.Caution("A radius below the thickness cracks many plates. Bend across the grain, or take a larger radius.")
			break
		}
	}
	if _, legs := bentOutline(in, res); crosses(legs) {
		a.Caution("Bent like that, the strip runs through itself. Check its legs, and which way each bend goes.")
	}
	a.Caution(safety.ArcOn)
}
