package air

import (
	"kerfside/calc/form"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// AirFlow is the calculator air-flow.
var AirFlow = form.Declaration{Name: "air-flow", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Air need",
		About: "See how much air the torch takes: valve open, on average, and with a worn tip.",
		Place: "ready",
		Terms: []string{"cfm", "air consumption", "demand", "free air", "after-flow", "post-flow", "orifice", "worn tip"},
		Fields: []form.Field{
			{Key: "plate", Label: "Air need on the plate", Help: "Look on the rating plate or in the manual: air while the valve is open.",
				Takes: form.Number[unit.Flow]("l/min", "cfm"), Optional: true, Chips: []string{"120l/min", "170l/min", "190l/min"}, ChipsUS: []string{"4.5cfm", "6.5cfm"},
				Limits: form.Within(unit.LitrePerMinute, 2000*unit.LitrePerMinute)},
			{Key: "arc", Label: "Arc time of one cut", Takes: form.Number[unit.Duration]("s", "s"), Optional: true, Chips: []string{"10s", "30s", "60s"},
				Limits: form.Within(0.2*unit.Second, 2*unit.Hour)},
			{Key: "pause", Label: "From arc out to the next arc", Takes: form.Number[unit.Duration]("s", "s"), Optional: true, Chips: []string{"10s", "30s", "60s", "5min"},
				Limits: form.Within(0.2*unit.Second, 24*unit.Hour)},
			{Key: "after_flow", Label: "After-flow", Help: "How long the air blows after the arc. Time it once.", Takes: form.Number[unit.Duration]("s", "s"),
				Default: "20s", Basis: "from-memory", Chips: []string{"10s", "20s", "30s"}, Limits: form.Within(0*unit.Second, 5*unit.Minute)},
			{Key: "orifice", Label: "Orifice of a new tip", Known: "plan.orifice", Takes: form.Number[unit.Length]("mm", "in").As(unit.Bore), Optional: true, Chips: []string{"0.7mm", "0.95mm", "1.1mm"}, ChipsUS: []string{"0.028in", "0.037in", "0.043in"},
				Limits: form.Within(0.2*unit.Millimetre, 12*unit.Millimetre)},
			{Key: "measured", Label: "Orifice of the tip in the torch", Help: "Gauge pin, or photo gauge.", Takes: form.Number[unit.Length]("mm", "in").As(unit.Bore), Optional: true,
				Limits: form.Within(0.2*unit.Millimetre, 12*unit.Millimetre)},
			{Key: "tip_pressure", Label: "Pressure at the torch", Help: "Gauge pressure while air flows.", Takes: form.Number[unit.Pressure]("bar", "psi"), Optional: true,
				Chips: []string{"4.5bar", "5bar"}, ChipsUS: []string{"60psi", "70psi"}, Limits: form.Within(0.05*unit.Bar, 15*unit.Bar)},
			{Key: "discharge", Label: "Coefficient of discharge", Help: "0.97 for a rounded entrance, 0.65 for a sharp edge.", Takes: form.Factor(), Default: "0.97", Fine: true,
				Basis: "orifice-table", Limits: form.Limits{Min: 0.3, Max: 1, Set: true}},
			{Key: "temperature", Label: "Temperature of the air", Takes: form.Number[unit.Temperature]("°C", "°F"), Default: "20°C", Basis: "iso-8787", Fine: true,
				Limits: form.Within(unit.Celsius(-40), unit.Celsius(80))},
			altitudeField(),
			referenceField(),
		},
		Results: []form.Result{
			{Key: "demand", Label: "While the valve is open", Gives: form.Number[unit.Flow]("l/min", "cfm"), Main: true},
			{Key: "average", Label: "On average", Gives: form.Number[unit.Flow]("l/min", "cfm"), Main: true},
			{Key: "open_share", Label: "Valve open", Gives: form.Number[unit.Ratio]("%", "%"), Main: true},
			{Key: "per_cut", Label: "Free air for one cut", Gives: form.Number[unit.Volume]("l", "ft³")},
			{Key: "tip_flow", Label: "Cold flow through a new tip", Gives: form.Number[unit.Flow]("l/min", "cfm")},
			{Key: "tip_share", Label: "That is, of the plate's figure", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "worn_flow", Label: "Cold flow through the worn tip", Gives: form.Number[unit.Flow]("l/min", "cfm")},
			{Key: "growth", Label: "More through the worn tip", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "worn_demand", Label: "Need with the worn tip", Gives: form.Number[unit.Flow]("l/min", "cfm")},
		},
		Sources: []source.ID{"orifice-table", "iso-2533"},
		Run:     runFlow,
	}
}}

func runFlow(r *form.Reader, a *form.Answer) error {
	in := FlowInput{
		Plate:       form.Get[unit.Flow](r, "plate"),
		Arc:         form.Get[unit.Duration](r, "arc"),
		Pause:       form.Get[unit.Duration](r, "pause"),
		AfterFlow:   form.Get[unit.Duration](r, "after_flow"),
		Orifice:     form.Get[unit.Length](r, "orifice"),
		Measured:    form.Get[unit.Length](r, "measured"),
		TipPressure: form.Get[unit.Pressure](r, "tip_pressure"),
		Discharge:   unit.Ratio(form.GetFactor(r, "discharge")),
		Temperature: form.Get[unit.Temperature](r, "temperature"),
		Altitude:    form.Get[unit.Length](r, "altitude"),
		Reference:   getReference(r),
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeFlow(in)
	if err != nil {
		return err
	}
	if in.Plate > 0 {
		putNeed(a, in, res)
	}
	if in.Orifice > 0 {
		putTip(a, in, res)
	}
	return nil
}

func putNeed(a *form.Answer, in FlowInput, res FlowResult) {
	form.Put(a, "demand", in.Plate)
	form.Put(a, "open_share", res.Share)
	form.Put(a, "average", res.Average)
	if in.Arc > 0 {
		form.Put(a, "per_cut", res.PerCut)
		a.Step("valve open = arc %s + after-flow %s = %s in %s", form.Say(a, in.Arc), form.Say(a, min(in.AfterFlow, in.Pause)), form.Say(a, res.Open), form.Say(a, in.Arc+in.Pause))
		a.Step("free air for one cut = %s × %s = %s", sayFlow(a, in.Plate), form.Say(a, res.Open), form.SayIn(a, res.PerCut, "l", "ft³"))
	}
	a.Step("average = %s × %s = %s of free air at %s", sayFlow(a, in.Plate), form.Say(a, res.Share), sayFlow(a, res.Average), in.Reference.Label)
	a.Caution("Give the torch what its plate asks, in the same free air, with some to spare. The flow through the tip is less.")
}

func putTip(a *form.Answer, in FlowInput, res FlowResult) {
	pa := AirPressure(in.Altitude)
	form.Put(a, "tip_flow", res.TipFlow)
	a.Step("p1 = %s gauge = %.3g kPa absolute; outside %.3g kPa; p2/p1 = %.3f, sonic at or below %.3f", sayPressure(a, in.TipPressure), kPa(in.TipPressure+pa), kPa(pa), float64(pa/(in.TipPressure+pa)), criticalRatio)
	a.Step("cold flow through %s, Cd %.3g: %s of free air at %s", form.Say(a, in.Orifice), float64(in.Discharge), sayFlow(a, res.TipFlow), in.Reference.Label)
	if in.Plate > 0 {
		form.Put(a, "tip_share", res.TipShare)
		if res.TipFlow > in.Plate {
			a.Caution("This bore alone passes more than the plate asks. Check bore, pressure and plate.")
		}
	}
	if in.Measured > 0 {
		form.Put(a, "worn_flow", res.WornFlow)
		form.Put(a, "growth", res.Growth)
		a.Step("worn tip: (%s / %s)² − 1 = %s more", form.Say(a, in.Measured), form.Say(a, in.Orifice), form.Say(a, res.Growth))
		if in.Plate > 0 {
			form.Put(a, "worn_demand", res.WornPlate)
		}
	}
	a.Caution("This is cold air. With the arc on, far less goes through the tip.")
}
