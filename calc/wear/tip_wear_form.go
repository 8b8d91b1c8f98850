package wear

import (
	"slices"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/life"
	"kerfside/calc/material"
	"kerfside/calc/power"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// TipWear is the calculator tip-wear.
var TipWear = form.Declaration{Name: "tip-wear", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Tip wear",
		About: "Judge the bore of a tip, and see what wear costs you in thickness, speed and air.",
		Place: "fix",
		Terms: []string{"nozzle", "orifice", "bore", "oval", "keyhole", "nick", "gauge pin", "drill", "wide kerf", "worn", "parts", "change"},
		Fields: []form.Field{
			{Key: "new", Label: "Bore when new", Known: "plan.orifice", Takes: form.Number[unit.Length]("mm", "in").As(unit.Bore), Help: "Where: the torch's parts sheet, or a new tip of the same number", Chips: []string{"0.7mm", "0.95mm", "1.1mm", "1.3mm"}, ChipsUS: []string{"0.028in", "0.037in", "0.043in", "0.051in"}, Limits: bores},
			{Key: "smallest", Label: "Smallest diameter now", Takes: form.Number[unit.Length]("mm", "in").As(unit.Bore), Optional: true, Help: "The largest gauge pin or drill shank that goes in. Never force it", Limits: bores},
			{Key: "largest", Label: "Largest diameter now", Known: "tip.dmax", Takes: form.Number[unit.Length]("mm", "in").As(unit.Bore), Optional: true, Help: "Magnifier or photo gauge; a pin cannot read it", Limits: bores},
			{Key: "reading_error", Label: "Give or take", Takes: form.Number[unit.Length]("mm", "in").As(unit.Slack), Optional: true, Fine: true, Basis: source.CommonPractice,
				Help: "As the photo gauge told it. Left empty: a pin or magnifier, which read up to 3 % short", Limits: form.Within(0, 2*unit.Millimetre)},
			{Key: "nick", Label: "Any nick or keyhole in the edge?", Takes: form.YesNo(), Hazard: true},
			{Key: "current", Label: "Cutting current", Known: "plan.current", Takes: form.Number[unit.Current]("A", "A"), Default: "40A", Basis: source.Judged, Chips: []string{"20A", "40A", "60A"}, Limits: form.Within[unit.Current](5, 1000)},
			{Key: "metal", Label: "Metal", Known: "plan.metal", Takes: material.Choice(), Default: string(material.MildSteel)},
			{Key: "thickness", Label: "Thickness to cut", Known: "plan.thickness", Takes: form.Number[unit.Length]("mm", "in").As(unit.Plate), Optional: true, Gauge: true, Chips: []string{"3mm", "6mm", "10mm"}, ChipsUS: []string{"1/8in", "1/4in", "3/8in"}, Limits: form.Within(0.3*unit.Millimetre, 200*unit.Millimetre)},
			{Key: "minutes", Label: "Arc time on this tip", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Help: "From the journal", Limits: form.Within(unit.Second, 1000*unit.Hour)},
			{Key: "starts", Label: "Starts on this tip", Takes: form.Count(), Optional: true, Help: "From the journal", Limits: form.WithinCount(0, 1000000)},
			{Key: "readings", Label: "Readings of other tips", Takes: form.Text(), Optional: true, Fine: true, Help: "Starts, arc time and bore of each, such as 60:25min:1.02mm. Or what it has grown by: 60:25min:7%"},
			{Key: "job_starts", Label: "Starts in the job ahead", Takes: form.Count(), Optional: true, Limits: form.WithinCount(0, 1000000)},
			{Key: "job_minutes", Label: "Arc time in the job ahead", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Limits: form.Within(0, 2000*unit.Hour)},
			{Key: "confidence", Label: "Range holds", Takes: form.Number[unit.Ratio]("%", "%"), Default: "95%", Basis: source.CommonPractice, Fine: true, Limits: form.Within(50*unit.Percent, 99.9*unit.Percent)},
			{Key: "electrode", Label: "Electrode's pit used", Takes: form.Number[unit.Ratio]("%", "%"), Optional: true, Help: "Electrode wear tells it", Limits: form.Within(0, 1000*unit.Percent)},
			growthLimit(), ovalLimit(),
			{Key: "speed", Label: "Compare at severing speed", Takes: form.Number[unit.Speed]("m/min", "in/min"), Default: "0.4m/min", Basis: "from-memory", Fine: true,
				Help: "0.4 leaves a hand " + unit.Figures(unit.Value(cutting.UsualBounds.Clean, "m/min"), 2) + ", the slowest clean speed", Limits: form.Within(0.05*unit.MetrePerMinute, 10*unit.MetrePerMinute)},
			{Key: "arc_volts", Label: "Arc voltage", Takes: form.Number[unit.Voltage]("V", "V"), Optional: true, Basis: "iec-60974-1-load", Fine: true, Help: "Left empty: " + power.LoadLine(), Limits: form.Within(40*unit.Volt, 400*unit.Volt)},
		},
		Results: slices.Concat([]form.Result{
			{Key: "verdict", Label: "Tip", Gives: form.Text(), Main: true},
			{Key: "why", Label: "Because", Gives: form.Text()},
			{Key: "growth", Label: "Grown by", Gives: form.Number[unit.Ratio]("%", "%").InDoubt(), Main: true},
			{Key: "oval", Label: "Oval by", Gives: form.Number[unit.Ratio]("%", "%").InDoubt(), Main: true},
			{Key: "used", Label: "Of its limit used", Gives: form.Number[unit.Ratio]("%", "%").InDoubt()},
			{Key: "capacity", Label: "Thickness left of a new tip's", Gives: form.Number[unit.Ratio]("%", "%").InDoubt(), Main: true},
			{Key: "speed_left", Label: "Speed left of a new tip's", Gives: form.Number[unit.Ratio]("%", "%").InDoubt(), Main: true},
			{Key: "severs", Label: "Severs now, at that speed", Gives: form.Number[unit.Length]("mm", "in").As(unit.Plate).InDoubt()},
			{Key: "severs_new", Label: "With a new tip", Gives: form.Number[unit.Length]("mm", "in").As(unit.Plate).InDoubt()},
			{Key: "density", Label: "Current in the bore", Gives: form.Number[unit.CurrentDensity]("A/mm²", "A/in²").InDoubt()},
			{Key: "density_new", Label: "In a new bore", Gives: form.Number[unit.CurrentDensity]("A/mm²", "A/in²").InDoubt()},
			{Key: "more_air", Label: "More air through the bore", Gives: form.Number[unit.Ratio]("%", "%").InDoubt()},
			{Key: "kerf", Label: "Kerf, about", Gives: form.Number[unit.Length]("mm", "in").As(unit.Kerf)},
			{Key: "kerf_new", Label: "Kerf of a new tip", Gives: form.Number[unit.Length]("mm", "in").As(unit.Kerf)},
			{Key: "change_both", Label: "Change tip and electrode together", Gives: form.YesNo()},
		}, outlookResults(form.Result{Key: "job_growth", Label: "Grown at its end by", Gives: form.Number[unit.Ratio]("%", "%").InDoubt()}), []form.Result{
			{Key: "per_start", Label: "Growth of a start", Gives: form.Number[unit.Ratio]("%", "%").InDoubt()},
			{Key: "per_minute", Label: "Growth of an arc minute", Gives: form.Number[unit.Ratio]("%", "%").InDoubt()},
			{Key: "deviation", Label: "Scatter of one reading", Gives: form.Number[unit.Ratio]("%", "%").InDoubt()},
			{Key: "rests_on", Label: "Readings it rests on", Gives: form.Count()},
		}),
		Sources: []source.ID{source.CommonPractice, "kerf-balance"},
		Run:     runTip,
	}
}}

var bores = form.Within(0.3*unit.Millimetre, 10*unit.Millimetre)

// growthLimit and ovalLimit are the fields of TipLimits.
func growthLimit() form.Field {
	return limit("growth_limit", "Change when it has grown by", "15%")
}

func ovalLimit() form.Field {
	return limit("oval_limit", "Change when it is oval by more than", "10%")
}

func limit(key, label, usual string) form.Field {
	return form.Field{Key: key, Label: label, Takes: form.Number[unit.Ratio]("%", "%"), Default: usual, Basis: source.CommonPractice, Fine: true,
		Limits: form.Within(unit.Percent, 100*unit.Percent)}
}

func getLimits(r *form.Reader) TipLimits {
	return TipLimits{form.Get[unit.Ratio](r, "growth_limit"), form.Get[unit.Ratio](r, "oval_limit")}
}

func runTip(r *form.Reader, a *form.Answer) error {
	metal := material.Metal(form.GetWord(r, "metal"))
	in := TipInput{
		New: form.Get[unit.Length](r, "new"), Smallest: form.Get[unit.Length](r, "smallest"), Largest: form.Get[unit.Length](r, "largest"), Error: form.Get[unit.Length](r, "reading_error"),
		Nick: form.GetYes(r, "nick"), Current: form.Get[unit.Current](r, "current"), Metal: metal,
		Thickness: form.GetSheet(r, "thickness", func(number string) (unit.Length, error) { return material.Gauge(metal, number) }),
		Minutes:   form.Get[unit.Duration](r, "minutes"), Electrode: form.Get[unit.Ratio](r, "electrode"),
		GrowthLimit: form.Get[unit.Ratio](r, "growth_limit"), OvalLimit: form.Get[unit.Ratio](r, "oval_limit"),
		Starts: float64(form.GetCount(r, "starts")), Sure: form.Get[unit.Ratio](r, "confidence"),
		Job:   life.Use{Minutes: float64(form.Get[unit.Duration](r, "job_minutes") / unit.Minute), Starts: float64(form.GetCount(r, "job_starts"))},
		Speed: form.Get[unit.Speed](r, "speed"), Volts: form.Get[unit.Voltage](r, "arc_volts"),
	}
	readings, err := parseGrowth(form.GetText(r, "readings"), in.New)
	if err != nil {
		r.Fail("readings", err)
	}
	in.Readings = readings
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeTip(in)
	if err != nil {
		return err
	}
	putTip(a, in, res)
	sayTip(a, in, res)
	return nil
}

func putTip(a *form.Answer, in TipInput, res TipResult) {
	a.PutWord("verdict", res.Verdict)
	bore := map[string]any{"new": a.MM(in.New, unit.Bore), "limit": a.MM(in.New*unit.Length(1+in.GrowthLimit), unit.Bore)}
	if in.Largest > 0 {
		bore["dmax"] = a.MM(in.Largest, unit.Bore)
	}
	if in.Smallest > 0 {
		bore["dmin"] = a.MM(in.Smallest, unit.Bore)
	}
	if in.Nick {
		bore["flaw"] = "nick"
	}
	a.Draw("orifice", bore)
	a.PutWord("why", res.Why)
	form.Put(a, "growth", res.Growth)
	if res.Both {
		form.Put(a, "oval", res.Oval)
	}
	form.Put(a, "used", res.Used)
	form.Put(a, "capacity", res.Capacity)
	if in.Thickness > 0 && res.SpeedWithNew > 0 {
		form.Put(a, "speed_left", res.SpeedLeft)
	}
	form.Put(a, "severs", res.Severs)
	form.Put(a, "severs_new", res.SeversNew)
	form.Put(a, "density", res.Density)
	form.Put(a, "density_new", res.DensityNew)
	form.Put(a, "more_air", res.Air)
	form.Put(a, "kerf", res.Kerf)
	form.Put(a, "kerf_new", res.KerfNew)
	a.PutYes("change_both", res.ChangeBoth)
	putGrowth(a, in, res)
}

func sayTip(a *form.Answer, in TipInput, res TipResult) {
	mm := func(l unit.Length) string { return form.SayAs(a, l, unit.Bore) }
	plate := form.SayAs(a, in.Thickness, unit.Plate)
	reading := max(in.Largest, in.Smallest)
	if reading > 0 {
		a.Step("grown = %s ÷ %s − 1 = %s, limit %s", mm(reading), mm(in.New), form.Rough(a, res.Growth, "%", "%"), unit.In(in.GrowthLimit, "%"))
	}
	if res.Both {
		a.Step("oval = (%s − %s) ÷ %s = %s, limit %s", mm(in.Largest), mm(in.Smallest), mm(in.New), form.Rough(a, res.Oval, "%", "%"), unit.In(in.OvalLimit, "%"))
	}
	a.Step("current in the bore = 4 × %s ÷ (π × d²) = %s, new %s", unit.In(in.Current, "A"), form.Rough(a, res.Density, "A/mm²", "A/in²"), form.Rough(a, res.DensityNew, "A/mm²", "A/in²"))
	a.Step("at %s severing speed it cuts %s, a new tip %s", form.SayIn(a, in.Speed, "m/min", "in/min"), form.Rough(a, res.Severs, "mm", "in"), form.Rough(a, res.SeversNew, "mm", "in"))
	if in.Thickness > 0 && res.SpeedWithNew == 0 {
		a.Caution("Even a new tip will not cut %s at %s: severing ends at %s.", plate, unit.In(in.Current, "A"), cutting.Between(a, res.LimitsNew, cutting.SeverLimit))
	}
	if in.Thickness > 0 && res.SpeedWithNew > 0 && res.SpeedNow == 0 {
		a.Caution("This bore will not cut %s at %s; a new one does.", plate, unit.In(in.Current, "A"))
	}
	if !res.Both && in.Largest == 0 && in.Smallest > 0 {
		a.Caution("A pin reads the smallest diameter only. An oval bore passes it: look with a magnifier.")
	}
	if res.ChangeBoth {
		a.Caution("Change tip and electrode together: a new tip on a pitted electrode is eaten within minutes.")
	}
	if res.Growth < 0 {
		a.Caution("It reads under new: brush spatter out of the bore and read again.")
	}
	switch res.Verdict {
	case tipChange:
		a.Caution("Change the tip before the next arc.")
	case tipUnknown:
		a.Caution("Read it closer: try the next larger pin, or a nearer photo. In doubt change the tip.")
	}
	sayOutlook(a, res.Wear, res.Outlook, "tip")
	a.Caution(safety.MadeDead + " Never ream or scrape the bore. The torch's manual wins.")
}
