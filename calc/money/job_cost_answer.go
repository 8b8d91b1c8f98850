package money

import (
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

func runJob(r *form.Reader, a *form.Answer) error {
	in := JobInput{
		Length: form.Get[unit.Length](r, "length"), Speed: form.Get[unit.Speed](r, "speed"), ArcTime: form.Get[unit.Duration](r, "arc_time"),
		Labour: form.Get[unit.MoneyRate](r, "labour"), Overhead: form.Get[unit.MoneyRate](r, "overhead"), Factor: form.Get[unit.Ratio](r, "factor"),
		Other: form.Get[unit.Duration](r, "beside"), Watch: form.Get[unit.Duration](r, "watch"), WatchRate: form.Get[unit.MoneyRate](r, "watch_rate"),
		SetPrice: form.Get[unit.Money](r, "set_price"), SetLife: form.Get[unit.Duration](r, "set_life"), Material: form.Get[unit.Money](r, "material"),
		Current: form.Get[unit.Current](r, "current"), Volts: form.Get[unit.Voltage](r, "arc_volts"), Efficiency: form.Get[unit.Ratio](r, "efficiency"),
		Compressor: form.Get[unit.Power](r, "compressor"), AirShare: form.Get[unit.Ratio](r, "air_share"), Energy: form.Get[unit.Money](r, "energy_price"),
		Margin: form.Get[unit.Ratio](r, "margin"),
	}
	if r.Given("set_price") && !r.Given("set_life") {
		r.Fail("set_life", problem.New(problem.Missing, "set_life", "the parts have a price but no life", "Enter the arc time that a tip with its electrode lasts."))
	}
	if r.Given("set_life") && !r.Given("set_price") {
		r.Fail("set_price", problem.New(problem.Missing, "set_price", "the parts have a life but no price", "Enter what a tip and an electrode cost together."))
	}
	if err := r.Err(); err != nil {
		return err
	}
	if !r.Given("watch_rate") {
		in.WatchRate = in.Labour + in.Overhead
	}
	res, err := ComputeJob(in)
	if err != nil {
		return err
	}
	putJob(a, in, res)
	sayJob(a, in, res)
	return nil
}

func putJob(a *form.Answer, in JobInput, res JobResult) {
	form.Put(a, "total", res.Total)
	form.Put(a, "price", res.Price)
	if in.Length > 0 {
		form.Put(a, "cut_per_length", res.CutPerLength)
		form.Put(a, "per_length", res.PerLength)
	}
	form.Put(a, "arc_time", res.Arc)
	form.Put(a, "paid_time", res.Paid)
	form.Put(a, "labour", res.Labour)
	form.Put(a, "overhead", res.Overhead)
	form.Put(a, "watch", res.Watch)
	form.Put(a, "parts", res.Parts)
	form.Put(a, "power", res.Power)
	form.Put(a, "air", res.Air)
	if in.SetLife > 0 {
		a.PutFactor("sets", float64(res.Sets))
	}
	form.Put(a, "energy", res.Energy+res.AirEnergy)
	var rows []*form.Row
	var bars []form.Bar
	for _, share := range []struct {
		what string
		cost unit.Money
	}{{"labour", res.Labour}, {"overhead", res.Overhead}, {"fire watch", res.Watch}, {"parts", res.Parts}, {"power", res.Power}, {"air", res.Air}, {"bought", res.Bought}} {
		if share.cost <= 0 {
			continue
		}
		row := a.NewRow()
		row.PutWord("what", share.what)
		form.PutCell(row, "cost", form.Number[unit.Money]("money", "money"), share.cost)
		form.PutCell(row, "share", form.Number[unit.Ratio]("%", "%"), unit.Ratio(share.cost/res.Total))
		rows = append(rows, row)
		bars = append(bars, form.NewBar(a, share.what, share.cost, "money", "money"))
	}
	a.PutRows("shares", rows)
	a.DrawBars("Where the money goes", "What each part of the job costs.", bars)
}

func sayJob(a *form.Answer, in JobInput, res JobResult) {
	money := func(m unit.Money) string { return form.Worked(a, m, "money", "money") }
	if in.Speed > 0 {
		a.Step("arc time = %s ÷ %s = %s", form.SayIn(a, in.Length, "m", "ft"), form.SayIn(a, in.Speed, "mm/min", "in/min"), form.Worked(a, res.Arc, "min", "min"))
	}
	a.Step("paid time = %s ÷ %s + %s = %s", form.Worked(a, res.Arc, "min", "min"), form.Worked(a, in.Factor, "%", "%"), form.Worked(a, in.Other, "min", "min"), form.Worked(a, res.Paid, "min", "min"))
	a.Step("labour and overhead = %s × %s = %s", form.Worked(a, in.Labour+in.Overhead, "per h", "per h"), form.Worked(a, res.Paid, "h", "h"), money(res.Labour+res.Overhead))
	if in.Watch > 0 {
		a.Step("fire watch = %s × %s = %s", form.Worked(a, in.WatchRate, "per h", "per h"), form.Worked(a, in.Watch, "h", "h"), money(res.Watch))
	}
	if in.SetLife > 0 {
		a.Step("parts = %s × %s ÷ %s = %s", money(in.SetPrice), form.Worked(a, res.Arc, "min", "min"), form.Worked(a, in.SetLife, "min", "min"), money(res.Parts))
	}
	if in.Current > 0 {
		if in.Volts == 0 {
			a.Cite("iec-60974-1-load")
		}
		a.Step("power = %s × %s × %s ÷ %s = %s at %s = %s", form.Worked(a, res.Volts, "V", "V"), form.Worked(a, in.Current, "A", "A"), form.Worked(a, res.Arc, "h", "h"), form.Worked(a, in.Efficiency, "%", "%"),
			form.Worked(a, res.Energy, "kWh", "kWh"), money(in.Energy), money(res.Power))
	}
	if in.Compressor > 0 {
		a.Step("air = %s × %s × %s = %s at %s = %s", form.Worked(a, in.Compressor, "kW", "kW"), form.Worked(a, in.AirShare, "%", "%"), form.Worked(a, res.Arc, "h", "h"), form.Worked(a, res.AirEnergy, "kWh", "kWh"), money(in.Energy), money(res.Air))
	}
	a.Step("total = %s, with %s on top %s", money(res.Total), form.Worked(a, in.Margin, "%", "%"), money(res.Price))
	if in.Watch == 0 {
		a.Caution("No fire watch is counted. You owe one near anything that burns: 60 min, never under 30.")
	}
	a.Caution("The operating factor decides: half of it doubles the labour at the cut. Take yours from the journal.")
}
