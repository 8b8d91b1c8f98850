package power

import (
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Duty is the calculator duty.
var Duty = form.Declaration{Name: "duty", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Duty cycle",
		About: "See how many minutes in ten the arc may burn, by the rating plate.",
		Place: "ready",
		Terms: []string{"duty cycle", "heat light", "thermal", "overheated", "minutes in ten", "rest", "cool down"},
		Fields: []form.Field{
			{Key: "points", Label: "Duty cycle on the plate", Help: "Rating plate, X: one to three figures, each with its amps.",
				Takes: DutyPairs()},
			{Key: "current", Label: "Cutting current", Known: "plan.current", Takes: form.Number[unit.Current]("A", "A"), Chips: []string{"20A", "30A", "40A"}, Limits: form.Within(5*unit.Ampere, 400*unit.Ampere)},
			{Key: "wanted", Label: "or: duty cycle wanted", Help: "You are told the current for it.", Takes: form.Number[unit.Ratio]("%", "%"), Optional: true, Chips: []string{"50%", "60%", "100%"},
				Limits: form.Within(unit.Percent, 100*unit.Percent)},
			{Key: "temperature", Label: "Air around the machine", Help: "In the sun or a closed truck it is hotter than the weather says.", Takes: form.Number[unit.Temperature]("°C", "°F"), Default: "40°C", Basis: "iec-60974-1",
				Chips: []string{"20°C", "40°C", "45°C"}, ChipsUS: []string{"70°F", "105°F", "115°F"}, Limits: form.Within(unit.Celsius(-40), unit.Celsius(60))},
			{Key: "guard", Label: "Temperature of the heat guard", Takes: form.Number[unit.Temperature]("°C", "°F"), Default: "90°C", Basis: "common-practice", Fine: true,
				Limits: form.Within(unit.Celsius(65), unit.Celsius(180))},
		},
		Results: []form.Result{
			{Key: "on", Label: "Arc on, in ten minutes", Gives: form.Number[unit.Duration]("min", "min"), Main: true},
			{Key: "rest", Label: "Rest, in ten minutes", Gives: form.Number[unit.Duration]("min", "min"), Main: true},
			{Key: "duty", Label: "Duty cycle", Gives: form.Number[unit.Ratio]("%", "%"), Main: true},
			{Key: "by_plate", Label: "By the plate, at 40 °C", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "continuous", Label: "Largest current without a rest", Gives: form.Number[unit.Current]("A", "A")},
			{Key: "current_for", Label: "Largest current for the duty wanted", Gives: form.Number[unit.Current]("A", "A")},
		},
		Sources: []source.ID{"iec-60974-1", "nec-630-11"},
		Run:     runDuty,
	}
}}

func runDuty(r *form.Reader, a *form.Answer) error {
	in := DutyInput{
		Plate:  getPlate(r, "points"),
		Want:   form.Get[unit.Current](r, "current"),
		Air:    form.Get[unit.Temperature](r, "temperature"),
		Limit:  form.Get[unit.Temperature](r, "guard"),
		Wanted: form.Get[unit.Ratio](r, "wanted"),
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeDuty(in)
	if err != nil {
		return err
	}
	form.Put(a, "on", res.On)
	form.Put(a, "rest", res.Rest)
	form.Put(a, "duty", res.Duty)
	form.Put(a, "by_plate", res.ByPlate)
	form.Put(a, "continuous", res.Continuous)
	if in.Wanted > 0 {
		form.Put(a, "current_for", res.ForWanted)
	}
	drawDuty(a, in, res)
	workDuty(a, in, res)
	a.Caution("Let the fan run between cuts: do not switch off. Keep dust and sparks off the vents.")
	a.Caution("Heat light on? Leave the machine on, its fan running. Look at the vents. Wait until it goes out.")
	a.Caution("The plate and the manual win. The plate holds up to 40 °C (104 °F). On a cold day you get no more.")
	return nil
}

// DutyPairs is the type of the duty cycles on a plate.
func DutyPairs() *form.Type {
	return form.Pairs(form.Number[unit.Current]("A", "A"), form.Number[unit.Ratio]("%", "%"), form.Each{Name: "Duty cycle", Left: "amps", Right: "percent", Row: "{right} at {left}",
		LeftChips: []string{"20A", "25A", "30A", "35A", "40A", "45A", "60A"}, RightChips: []string{"20%", "35%", "50%", "60%", "80%", "100%"}}) // common practice
}

// getPlate reads the pairs of a plate.
func getPlate(r *form.Reader, key string) Plate {
	var plate Plate
	for _, pair := range form.GetPairs[unit.Current, unit.Ratio](r, key) {
		plate = append(plate, DutyPoint{pair.Left, pair.Right})
	}
	if plate == nil {
		return nil
	}
	sorted, err := plate.Check()
	if err != nil {
		blamed := *problem.From(err)
		blamed.Field = key
		r.Fail(key, &blamed)
	}
	return sorted
}

// drawDuty shows the ten minutes, and plots the minutes in ten over the current, with the plate's points
// and the current asked for.
func drawDuty(a *form.Answer, in DutyInput, res DutyResult) {
	heat := HeatShare(in.Air, in.Limit)
	top := in.Plate[len(in.Plate)-1].Current
	minutes := func(i unit.Current) float64 {
		x, err := in.Plate.heat(i)
		if err != nil {
			return 0
		}
		return 10 * float64(min(x*heat, 1))
	}
	curve, plate := []form.Point{}, []form.Point{}
	for k := range 41 {
		i := top * unit.Current(0.3+0.7*float64(k)/40)
		curve = append(curve, form.Point{float64(i), minutes(i)})
	}
	for _, p := range in.Plate {
		plate = append(plate, form.Point{float64(p.Current), 10 * float64(p.Duty)})
	}
	series := []form.Series{{Name: "may cut", Points: curve}, {Name: "plate", Points: plate, Dots: true}}
	if in.Want > 0 {
		series = append(series, form.Series{Name: "yours", Dashed: true, Points: []form.Point{{float64(in.Want), 0}, {float64(in.Want), minutes(in.Want)}}})
	}
	a.Draw("minutes", map[string]any{"share": float64(res.Duty), "on": unit.Say(res.On, "min", unit.InDoubt), "rest": unit.Say(res.Rest, "min", unit.InDoubt)})
	a.DrawPlot(form.Plot{
		Title: "Minutes of arc in ten", X: form.Axis{Label: "current", Unit: "A"}, Y: form.Axis{Label: "arc on", Unit: "min"},
		Text:   "More amps, fewer minutes in ten. The dots are the plate's points at 40 °C, the dashed line is your current.",
		Series: series,
	})
}

func workDuty(a *form.Answer, in DutyInput, res DutyResult) {
	first := in.Plate[0]
	switch {
	case in.Want <= first.Current:
		a.Step("same heat: X = %s × (%s / %s)² = %s, at most 100 %%", form.Say(a, first.Duty), form.Say(a, first.Current), form.Say(a, in.Want), form.Say(a, res.ByPlate))
	default:
		a.Step("between the plate's pairs, ln X on a straight line in ln I: %s at %s", form.Say(a, res.ByPlate), form.Say(a, in.Want))
	}
	if res.Heat < 1 {
		a.Step("heat left at %s = (%s − %s)/(%s − 40 °C) = %s", unit.In(in.Air, "°C"), unit.In(in.Limit, "°C"), unit.In(in.Air, "°C"), unit.In(in.Limit, "°C"), form.Say(a, res.Heat))
	} else {
		a.Step("air of %s: the plate's figure as it stands", form.Say(a, in.Air))
	}
	a.Step("arc on %s of 10 min, rest %s", unit.In(res.On, "min"), unit.In(res.Rest, "min"))
}
