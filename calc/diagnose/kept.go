package diagnose

import (
	"strings"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// keptFields are what is kept of rig and site that a search needs to know. They
// are never asked for, and have the keys of the site check.
func keptFields() []form.Field {
	fields := append(form.Owned(form.OfPlate, "", []form.Field{
		{Key: "air_least", Label: "Least pressure at the machine's inlet", Takes: form.Number[unit.Pressure]("bar", "psi"), Limits: form.Within(unit.Bar, 15*unit.Bar)},
	}...), form.Owned(form.OfRig, "", []form.Field{
		{Key: "tips", Label: "Tips on the truck", Takes: cutting.TipPairs()},
		{Key: "fitted", Label: "Tip in the torch", Takes: form.Number[unit.Current]("A", "A"), Limits: form.Within(5*unit.Ampere, 1000*unit.Ampere)},
	}...)...)
	fields = append(fields, form.Owned(form.OfSite, "", []form.Field{
		{Key: "generator", Label: "Generator", Takes: form.Number[unit.ApparentPower]("kVA", "kVA"), Limits: form.Within(unit.ApparentPower(100), unit.ApparentPower(1e7))},
		{Key: "breaker", Label: "Breaker", Takes: form.Number[unit.Current]("A", "A"), Limits: form.Within(unit.Ampere, 800*unit.Ampere)},
		{Key: "temperature", Label: "Air temperature", Takes: form.Number[unit.Temperature]("°C", "°F"), Limits: form.Within(unit.Celsius(-40), unit.Celsius(60))},
	}...)...)
	for i := range fields {
		fields[i].Optional, fields[i].Fine = true, true
	}
	return fields
}

// iceFree is the temperature above which no line freezes, though air that
// expands cools: the authors' judgement.
var iceFree = unit.Celsius(8)

// growth is where a tip is changed by default: common practice, no published
// source.
const growth = 1.15

// kept are the numbers that the texts of checks take from the rig's plate.
type kept struct{ least, limit string }

func readKept(r *form.Reader, a *form.Answer, c *Context) kept {
	k := kept{least: "the least on its plate", limit: "The limit is 15 in 100 over new."}
	switch set, breaker := form.Get[unit.ApparentPower](r, "generator"), form.Get[unit.Current](r, "breaker"); {
	case set > 0:
		c.Supply = "generator"
	case breaker > 0:
		c.Supply = "mains"
	}
	c.Warm = r.Has("temperature") && form.Get[unit.Temperature](r, "temperature") > iceFree
	if least := form.Get[unit.Pressure](r, "air_least"); least > 0 {
		k.least = form.Rough(a, least, "bar", "psi")
	}
	fitted := form.Get[unit.Current](r, "fitted")
	for _, tip := range form.GetPairs[unit.Current, unit.Length](r, "tips") {
		if tip.Left == fitted && tip.Right > 0 {
			k.limit = "The limit for this tip: " + form.SayAs(a, tip.Right*growth, unit.Bore) + "."
		}
	}
	return k
}

// fill puts the numbers of the rig into the text of a check.
func (k kept) fill(text string) string {
	return strings.NewReplacer("{least}", k.least, "{limit}", k.limit, "{pit}", "The limit is 1.5 mm (1/16 in) or the depth of its insert.").Replace(text)
}
