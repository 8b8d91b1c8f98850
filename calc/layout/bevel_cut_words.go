package layout

import (
	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

func sayBevel(a *form.Answer, in BevelInput, res BevelResult) {
	say := func(l unit.Length) string { return form.Worked(a, l, "mm", "in") }
	b := form.Say(a, in.Bevel)
	deep := in.Thickness - in.Land
	if in.Land > 0 {
		a.Step("depth of the bevel = %s − %s = %s", say(in.Thickness), say(in.Land), say(deep))
	}
	a.Step("metal along the torch = %s ÷ cos %s = %s", say(deep), b, say(res.Slant))
	a.Step("top edge to bottom edge = %s × tan %s = %s", say(deep), b, say(res.Shift))
	a.Step("kerf on the surface = %s ÷ cos %s = %s", say(in.Kerf), b, say(res.KerfTop))
	if in.Guide == "none" {
		return
	}
	lean, kerf := "−", "−"
	if res.Towards {
		lean = "+"
	}
	if in.Guide == "waste" {
		kerf = "+"
	}
	a.Step("guide to the bevel's line = %s ÷ 2 ÷ cos %s %s %s × tan %s %s %s ÷ 2 = %s", say(in.Cup), b, lean, say(in.Contact), b, kerf, say(res.KerfTop), say(res.Offset))
	if res.Passes == 2 {
		a.Step("guide to the square line = %s ÷ 2 − %s ÷ 2 = %s", say(in.Cup), say(in.Kerf), say(res.Square))
	}
}

func cautionBevel(a *form.Answer, in BevelInput, res BevelResult) {
	a.Caution(safety.Rehearse)
	a.Caution("Leaned, the jet throws metal out sideways, under the plate. Clear that side, and stand on the other.")
	a.Caution("Current and speed go by the metal along the torch, not by the plate.")
	if in.Guide != "none" && !res.Towards {
		a.Caution("Leaning away, the rim of the cup must meet the guide's side. Take one thicker than %s.", form.SayAs(a, in.Contact, unit.Marking))
	}
	if res.Passes == 2 {
		give := form.SayAs(a, res.LandGive, unit.Slack)
		a.Caution("A hand wanders by 1 mm (1/32 in) or so, by common practice. The land then changes by about %s. Grind it to size.", give)
		if res.LandGive >= in.Land {
			a.Caution("A hand that wanders can cut this land away. Cut a larger one and grind it down.")
		}
	}
	if in.Bevel > 45*unit.Degree {
		a.Caution("Beyond 45° an arc is long and easily lost. Try it on scrap.")
	}
	a.Caution("Drawing or welding procedure set bevel, land and gap. Grind a face cut with air bright before it is welded.")
	a.Caution(safety.ArcOn)
}

func bevelSays(a *form.Answer, in BevelInput, res BevelResult) string {
	mark := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	says := "The torch's top leans over " + in.leansOver() + " by " + form.Say(a, in.Bevel) + ". The plate is " + form.SayAs(a, in.Thickness, unit.Plate) + " thick. The bevelled face is " + form.SayAs(a, res.Slant, unit.Plate) +
		" deep. Its bottom edge lies " + mark(res.Shift) + " across from its top edge."
	if in.Land > 0 {
		says += " A land of " + mark(in.Land) + " stays square below it."
	}
	if in.Guide != "none" {
		says += " The guide lies on the " + in.Guide + ", " + mark(res.Offset) + " from the bevel's line."
	}
	return says
}
