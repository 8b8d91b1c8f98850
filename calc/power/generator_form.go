package power

import (
	"slices"

	"kerfside/calc/form"
	"kerfside/calc/guess"
	"kerfside/calc/margin"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

var setKeys = SetKeys{Rating: "rating", Motor: "compressor"}

// Generator is the calculator generator.
var Generator = form.Declaration{Name: "generator", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Generator",
		About: "See whether a generator carries the machine and a compressor, and how many amps it gives.",
		Place: "ready",
		Terms: []string{"genset", "kVA", "engine", "bogs", "idles down", "compressor start", "locked rotor", "altitude", "derating", "surge"},
		Fields: slices.Concat(machineFields(), SetFields(setKeys), MotorFields(setKeys), []form.Field{
			{Key: "altitude", Label: "Altitude of the site", Takes: form.Number[unit.Length]("m", "ft"), Default: "0m", Basis: source.Neutral, Fine: true, Limits: form.Within(-500*unit.Metre, 5000*unit.Metre)},
			{Key: "temperature", Label: "Air temperature", Takes: form.Number[unit.Temperature]("°C", "°F"), Default: "20°C", Basis: source.Neutral, Fine: true, Limits: form.Within(unit.Celsius(-40), unit.Celsius(60))},
		}),
		Results: []form.Result{
			{Key: "verdict", Label: "Verdict", Gives: form.OneOf("ok", "It carries this", "tight", "Only just", "fails", "Too small", "doubt", "May be too small"), Main: true},
			{Key: "margin", Label: "To spare", Gives: form.Number[unit.Ratio]("%", "%"), Main: true},
			{Key: "largest_current", Label: "Largest cutting current", Gives: form.Number[unit.Current]("A", "A"), Main: true},
			{Key: "apparent_power", Label: "Needed", Gives: form.Number[unit.ApparentPower]("kVA", "kVA")},
			{Key: "power", Label: "Needed, real power", Gives: form.Number[unit.Power]("kW", "kW")},
			{Key: "capacity", Label: "There, with headroom left", Gives: form.Number[unit.ApparentPower]("kVA", "kVA")},
			{Key: "capacity_power", Label: "There, real power", Gives: form.Number[unit.Power]("kW", "kW")},
			{Key: "left", Label: "Left of the rating on this site", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "rating_here", Label: "Rating on this site, real power", Gives: form.Number[unit.Power]("kW", "kW")},
			{Key: "start_while_cutting", Label: "Compressor starts while you cut", Gives: form.OneOf("ok", "carried", "tight", "only just", "fails", "stalls the set", "doubt", "may stall the set")},
			{Key: "start_before", Label: "Compressor starts before the cut", Gives: form.OneOf("ok", "carried", "tight", "only just", "fails", "stalls the set", "doubt", "may stall the set")},
			{Key: "start_power", Label: "Peak while it starts, arc burning", Gives: form.Number[unit.ApparentPower]("kVA", "kVA")},
		},
		Sources: []source.ID{"iec-60974-1", "tm-9-6115-673", "nec-430-7b"},
		Run:     runGenerator,
	}
}}

// readGenerator reads all fields.
func readGenerator(r *form.Reader) (GeneratorInput, error) {
	in := ReadSet(r, setKeys)
	in.Altitude, in.Temperature = form.Get[unit.Length](r, "altitude"), form.Get[unit.Temperature](r, "temperature")
	in.Machine, _, in.Current = getMachine(r)
	in.Volts = form.Get[unit.Voltage](r, "output_volts")
	if in.Rated == 0 && r.Err() == nil {
		r.Fail(setKeys.Rating, problem.New(problem.Missing, setKeys.Rating, "the generator is not known", "Enter the kVA of its plate, or the kW under rated_power."))
	}
	if !r.Given("output_current") {
		r.Fail("output_current", problem.New(problem.Missing, "output_current", "the cutting current is needed", "Enter the amps you mean to cut with."))
	}
	return in, r.Err()
}

func runGenerator(r *form.Reader, a *form.Answer) error {
	in, err := readGenerator(r)
	if err != nil {
		return err
	}
	res, err := ComputeGenerator(in)
	if err != nil {
		return err
	}
	putGenerator(a, in, res)
	judgeGenerator(r, a, in, res)
	return nil
}

// judgeGenerator fills in the verdicts: on what runs, and on the compressor's
// start while the arc burns and before.
func judgeGenerator(r *form.Reader, a *form.Answer, in GeneratorInput, res GeneratorResult) {
	judge := func(key, what string, spare func(GeneratorResult) unit.Ratio, guesses ...string) margin.Verdict {
		v := guess.Judge(a, r, what, margin.Judge(spare(res)), guess.Of(guesses...), func(r *form.Reader) (margin.Verdict, bool) {
			in, err := readGenerator(r)
			if err != nil {
				return "", false
			}
			res, err := ComputeGenerator(in)
			return margin.Judge(spare(res)), err == nil
		})
		a.PutWord(key, string(v))
		return v
	}
	judge("verdict", "The generator", func(res GeneratorResult) unit.Ratio { return res.Margin }, "power_factor", "efficiency=machine_efficiency", "headroom", "stretch")
	if in.Starting == 0 {
		return
	}
	while := judge("start_while_cutting", "The compressor's start while you cut", func(res GeneratorResult) unit.Ratio { return res.StartArcMargin }, "start_factor", "power_factor", "efficiency=machine_efficiency", "stretch")
	before := judge("start_before", "The compressor's start before the cut", func(res GeneratorResult) unit.Ratio { return res.StartFirstMargin }, "start_factor", "power_factor", "efficiency=machine_efficiency", "stretch")
	switch {
	case while == margin.Fails && before != margin.Fails:
		a.Caution("Let the compressor fill its tank before the cut. Started while you cut, it stalls the generator.")
	case while == margin.Doubt && before != margin.Fails:
		a.Caution("Let the compressor fill its tank before the cut. Started while you cut, it may stall the generator.")
	}
}

// drawGenerator shows each need as a share of what there is for it.
func drawGenerator(a *form.Answer, in GeneratorInput, res GeneratorResult) {
	bars := []form.Bar{
		share("kVA, running", form.Say(a, res.Apparent), form.Say(a, res.CapacityS), margin.Of(res.CapacityS, res.Apparent)),
		share("kW, running", form.Say(a, res.Power), form.Say(a, res.Capacity), margin.Of(res.Capacity, res.Power)),
	}
	if in.Starting > 0 {
		there := form.Say(a, res.Surge)
		bars = append(bars, share("starting, in a cut", form.Say(a, res.StartArc), there, res.StartArcMargin),
			share("starting, before it", form.Say(a, res.StartFirst), there, res.StartFirstMargin))
	}
	a.DrawBars("What the set carries", "Each need as a share of what the set has for it on this site.", bars, form.Bar{Label: "all there is", Value: 1, Text: "100 %"})
}

// share is a bar of what is needed of what there is; spare is what is left over
// the need.
func share(label, need, there string, spare unit.Ratio) form.Bar {
	return form.Bar{Label: label, Value: float64(margin.Used(spare)), Text: need + " of " + there, Over: spare < 0}
}

func putGenerator(a *form.Answer, in GeneratorInput, res GeneratorResult) {
	form.Put(a, "margin", res.Margin)
	form.Put(a, "largest_current", res.Largest)
	form.Put(a, "apparent_power", res.Apparent)
	form.Put(a, "power", res.Power)
	form.Put(a, "capacity", res.CapacityS)
	form.Put(a, "capacity_power", res.Capacity)
	form.Put(a, "left", res.Left)
	form.Put(a, "rating_here", unit.Power(float64(res.Capacity)/(1-float64(in.Headroom))))
	drawGenerator(a, in, res)
	p, s := in.arc(in.Current)
	a.Step("machine = %.3g × U2·I2 ÷ η = %s = %s at λ %.3g", float64(in.Stretch), form.Say(a, p), form.Say(a, s), float64(in.Machine.PowerFactor))
	if in.Running > 0 {
		a.Step("with the compressor running: %s + %s = %s", form.Say(a, s), form.Say(a, in.Running), form.Say(a, res.Apparent))
	}
	if res.Left < 1 {
		a.Step("left on this site = (1 − %.3g %% × %.0f m above %.0f m / 100 m) × (1 − %.3g %% × %.3g °C over %.3g °C) = %s",
			100*deratePer100m, max(0, float64(in.Altitude-derateFrom)), float64(derateFrom), 100*deratePerDeg, max(0, in.Temperature.Celsius()-derateHeat), derateHeat, form.Say(a, res.Left))
		a.Caution("That loss is a 2 kW diesel's, from an army manual: the book of this set wins.")
	}
	a.Step("there = %s × %s left on this site × (1 − %s) = %s", form.Say(a, in.Rated), form.Say(a, res.Left), form.Say(a, in.Headroom), form.Say(a, res.CapacityS))
	a.Step("to spare = the smaller of %s ÷ %s and %s ÷ %s, less 1 = %s", form.Say(a, res.CapacityS), form.Say(a, res.Apparent), form.Say(a, res.Capacity), form.Say(a, res.Power), form.Say(a, res.Margin))
	if in.Starting > 0 {
		form.Put(a, "start_power", res.StartArc)
		a.Step("starting with the arc burning: %s + %s = %s", form.Say(a, s), form.Say(a, in.Starting), form.Say(a, res.StartArc))
	}
	if in.PowerAlone {
		a.Caution(PowerAloneCaution)
	}
	a.Caution("Run the set outdoors, away from doors and windows: its exhaust kills. " + Protected + " Its test button proves nothing on a set whose neutral floats: bonding and earthing are a licensed electrician's and the set's manual's.")
}
