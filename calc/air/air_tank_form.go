package air

import (
	"kerfside/calc/form"
	"kerfside/calc/guess"
	"kerfside/calc/margin"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// AirTank is the calculator air-tank.
var AirTank = form.Declaration{Name: "air-tank", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Compressor and tank",
		About: "See whether the compressor keeps up, how long a full tank lasts, and how to cut and wait.",
		Place: "ready",
		Terms: []string{"compressor", "receiver", "free air delivered", "FAD", "pump up", "recovery", "cut-in", "cut-out", "run time", "altitude"},
		Fields: []form.Field{
			{Key: "free_air", Label: "Compressor's free air", Help: "What it delivers at pressure, by its plate. 0 for a tank without a compressor.",
				Takes: form.Number[unit.Flow]("l/min", "cfm"), Chips: []string{"120l/min", "200l/min", "300l/min"}, ChipsUS: []string{"5cfm", "10cfm"}, Limits: form.Within(0, largestFlow)},
			{Key: "tank", Label: "Tank", Takes: form.Number[unit.Volume]("l", "gal"), Chips: []string{"24l", "50l", "100l"}, ChipsUS: []string{"6gal", "20gal", "60gal"},
				Limits: form.Within(unit.Litre, 20*unit.CubicMetre)},
			{Key: "demand", Label: "Air need with the valve open", Known: "kept.air_need", Help: "The machine's plate, or what Air need tells.", Takes: form.Number[unit.Flow]("l/min", "cfm"),
				Chips: []string{"120l/min", "170l/min"}, ChipsUS: []string{"4.5cfm", "6.5cfm"}, Limits: form.Within(unit.LitrePerMinute, largestFlow)},
			{Key: "needed", Label: "Least pressure in the tank", Help: "What the torch needs at its inlet, and what Air hose says is lost.",
				Takes: form.Number[unit.Pressure]("bar", "psi"), Default: "6bar", Basis: "common-practice", Limits: form.Within(0*unit.Bar, 40*unit.Bar)},
			{Key: "cut_in", Label: "Compressor starts at", Help: "Cut-in on its switch, gauge.", Takes: form.Number[unit.Pressure]("bar", "psi"), Default: "6.5bar", Basis: "common-practice",
				Chips: []string{"6bar", "8bar"}, ChipsUS: []string{"90psi", "120psi"}, Limits: form.Within(0*unit.Bar, 40*unit.Bar)},
			{Key: "cut_out", Label: "Compressor stops at", Help: "Cut-out on its switch, gauge.", Takes: form.Number[unit.Pressure]("bar", "psi"), Default: "8bar", Basis: "common-practice",
				Chips: []string{"8bar", "10bar"}, ChipsUS: []string{"120psi", "150psi"}, Limits: form.Within(0.5*unit.Bar, 40*unit.Bar)},
			{Key: "share", Label: "Valve open", Help: "Share of the time, after-flow included. 100 % is cutting without a pause.",
				Takes: form.Number[unit.Ratio]("%", "%"), Default: "100%", Basis: source.Judged, Chips: []string{"25%", "50%", "75%", "100%"}, Limits: form.Within(unit.Percent, 100*unit.Percent)},
			{Key: "duty", Label: "Compressor may run", Known: "kept.compressor_duty", Help: "Share of the time, from its manual. Small piston compressors need to rest.", Takes: form.Number[unit.Ratio]("%", "%"), Default: "60%",
				Basis: "common-practice", Chips: []string{"50%", "60%", "75%", "100%"}, Limits: form.Within(5*unit.Percent, 100*unit.Percent)},
			{Key: "running", Label: "Compressor runs when the cut begins", Takes: form.YesNo(), Default: "no", Fine: true},
			{Key: "spell", Label: "Longest spell of open valve wanted", Takes: form.Number[unit.Duration]("s", "s"), Optional: true, Chips: []string{"30s", "60s", "2min", "5min"},
				Limits: form.Within(unit.Second, 8*unit.Hour)},
			{Key: "after_flow", Label: "After-flow", Takes: form.Number[unit.Duration]("s", "s"), Default: "20s", Basis: "from-memory", Fine: true,
				Limits: form.Within(0*unit.Second, 5*unit.Minute)},
			altitudeField(),
			{Key: "temperature", Label: "Temperature around the compressor", Takes: form.Number[unit.Temperature]("°C", "°F"), Default: "20°C", Basis: "iso-8787", Fine: true,
				Limits: form.Within(unit.Celsius(-40), unit.Celsius(60))},
			referenceField(),
		},
		Results: []form.Result{
			{Key: "verdict", Label: "Compressor against need", Gives: form.OneOf("ok", "Keeps up", "tight", "Only just keeps up", "fails", "Does not keep up", "doubt", "May not keep up"), Main: true},
			{Key: "margin", Label: "Air to spare", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "delivery", Label: "Free air on this site", Gives: form.Number[unit.Flow]("l/min", "cfm")},
			{Key: "derating", Label: "Left of the plate's figure", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "average", Label: "Average need", Gives: form.Number[unit.Flow]("l/min", "cfm")},
			{Key: "holds", Label: "The pressure never falls too low", Gives: form.YesNo()},
			{Key: "run_time", Label: "A full tank lasts, valve open", Gives: form.Number[unit.Duration]("", ""), Main: true},
			{Key: "cut", Label: "Cut for", Gives: form.Number[unit.Duration]("", ""), Main: true},
			{Key: "wait", Label: "then wait", Gives: form.Number[unit.Duration]("", ""), Main: true},
			{Key: "pump_up", Label: "Cut-in to cut-out", Gives: form.Number[unit.Duration]("", "")},
			{Key: "fill", Label: "Empty to full", Gives: form.Number[unit.Duration]("", "")},
			{Key: "most_share", Label: "Valve open at most, kept up for good", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "free_air_needed", Label: "Plate figure that would keep up", Gives: form.Number[unit.Flow]("l/min", "cfm")},
			{Key: "tank_needed", Label: "Tank for that spell", Gives: form.Number[unit.Volume]("l", "gal")},
		},
		Sources: []source.ID{"receiver", "iso-2533", "osha-169"},
		Run:     runTank,
	}
}}

// readTank reads all fields but the after-flow.
func readTank(r *form.Reader) (TankInput, error) {
	in := TankInput{
		Free:        form.Get[unit.Flow](r, "free_air"),
		Volume:      form.Get[unit.Volume](r, "tank"),
		Demand:      form.Get[unit.Flow](r, "demand"),
		Needed:      form.Get[unit.Pressure](r, "needed"),
		CutIn:       form.Get[unit.Pressure](r, "cut_in"),
		CutOut:      form.Get[unit.Pressure](r, "cut_out"),
		Share:       form.Get[unit.Ratio](r, "share"),
		Duty:        form.Get[unit.Ratio](r, "duty"),
		Running:     form.GetYes(r, "running"),
		Spell:       form.Get[unit.Duration](r, "spell"),
		Altitude:    form.Get[unit.Length](r, "altitude"),
		Temperature: form.Get[unit.Temperature](r, "temperature"),
		Reference:   getReference(r),
	}
	return in, r.Err()
}

func runTank(r *form.Reader, a *form.Answer) error {
	afterFlow := form.Get[unit.Duration](r, "after_flow")
	in, err := readTank(r)
	if err != nil {
		return err
	}
	res, err := ComputeTank(in)
	if err != nil {
		return err
	}
	a.PutWord("verdict", string(guess.Judge(a, r, "The compressor", res.Verdict, guess.Of("duty=compressor_duty", "cut_in", "cut_out"), func(r *form.Reader) (margin.Verdict, bool) {
		in, err := readTank(r)
		if err != nil {
			return "", false
		}
		res, err := ComputeTank(in)
		return res.Verdict, err == nil
	})))
	putTank(a, in, res, afterFlow)
	workTank(a, in, res)
	return nil
}
