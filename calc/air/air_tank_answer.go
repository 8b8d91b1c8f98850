package air

import (
	"kerfside/calc/form"
	"kerfside/calc/margin"
	"kerfside/calc/unit"
)

// putTank fills in the results and cautions of air-tank.
func putTank(a *form.Answer, in TankInput, res TankResult, afterFlow unit.Duration) {
	form.Put(a, "margin", res.Margin)
	form.Put(a, "delivery", res.Delivery)
	form.Put(a, "derating", res.Derating)
	form.Put(a, "average", res.Average)
	a.PutYes("holds", res.Holds)
	if !res.Holds {
		form.Put(a, "run_time", res.RunTime)
	}
	if res.PumpUp > 0 {
		form.Put(a, "pump_up", res.PumpUp)
		form.Put(a, "fill", res.Fill)
	}
	form.Put(a, "most_share", res.MostShare)
	form.Put(a, "free_air_needed", res.FreeNeeded)
	if res.TankNeeded > 0 {
		form.Put(a, "tank_needed", res.TankNeeded)
	}
	if res.Rhythm.Open > 0 {
		putRhythm(a, res.Rhythm, afterFlow)
	}
	drawTank(a, in, res)
	if res.Verdict != margin.OK {
		a.Caution("Stop when the gauge at the machine falls to the torch's least pressure. Below it the torch eats its tip.")
	}
	if in.Needed > in.CutIn {
		a.Caution("The compressor starts too late for the torch. Start it before you cut, or have its cut-in set higher by someone who knows it.")
	}
	a.Caution("Never above the tank's rating or its relief valve.")
	a.Caution("Drain the tank completely and often. Bleed the line before you open a coupler.")
}

// drawTank plots the pressure in the tank over three rounds of cut and wait, or
// over ten minutes of an open valve where no wait is needed.
func drawTank(a *form.Answer, in TankInput, res TankResult) {
	rhythm, rounds := res.Rhythm, 3
	if rhythm.Open == 0 {
		rhythm, rounds = Rhythm{Open: 10 * unit.Minute}, 1
	}
	bar, minute := a.Unit("bar", "psi"), "min"
	points := []form.Point{}
	for _, p := range in.Compressor().Trace(Receiver{in.Volume, in.Temperature}, in.Reference.Mass(in.Demand), rhythm, rounds) {
		points = append(points, form.Point{unit.Value(p.At, minute), unit.Value(p.Pressure, bar)})
	}
	end := points[len(points)-1][0]
	level := func(name string, p unit.Pressure) form.Series {
		return form.Series{Name: name, Dashed: true, Points: []form.Point{{0, unit.Value(p, bar)}, {end, unit.Value(p, bar)}}}
	}
	a.DrawPlot(form.Plot{
		Title: "Pressure in the tank", X: form.Axis{Label: "time", Unit: minute}, Y: form.Axis{Label: "pressure", Unit: bar},
		Text:   "From full: the valve is open for " + form.Say(a, rhythm.Open) + ", then shut for " + form.Say(a, rhythm.Wait) + ", over and over. The compressor starts at cut-in and stops at cut-out.",
		Series: []form.Series{{Name: "tank", Points: points}, level("cut-out", in.CutOut), level("cut-in", in.CutIn), level("needed", in.Needed)},
	})
}

func putRhythm(a *form.Answer, rhythm Rhythm, afterFlow unit.Duration) {
	burn, wait := rhythm.Arc(afterFlow)
	if burn == 0 {
		a.Caution("The tank does not last even the after-flow of a cut. Get a larger tank or compressor.")
		return
	}
	form.Put(a, "cut", burn)
	form.Put(a, "wait", wait)
}

// workTank shows the sum.
func workTank(a *form.Answer, in TankInput, res TankResult) {
	a.Step("air outside at %s = %.3g kPa, of 101.325 kPa; at %s the compressor gives %s × %s = %s of free air at %s",
		form.SayIn(a, in.Altitude, "m", "ft"), kPa(AirPressure(in.Altitude)), form.Say(a, in.Temperature), sayFlow(a, in.Free), form.Say(a, res.Derating), sayFlow(a, res.Delivery), in.Reference.Label)
	a.Step("kept up = %s × duty %s = %s against need %s × %s = %s: margin %s", sayFlow(a, res.Delivery), form.Say(a, in.Duty), sayFlow(a, res.Sustained),
		sayFlow(a, in.Demand), form.Say(a, in.Share), sayFlow(a, res.Average), form.Say(a, res.Margin))
	pa := kPa(in.Reference.Pressure) * float64(in.Temperature/in.Reference.At) // of the reference air, warmed to the tank
	if res.PumpUp > 0 {
		a.Step("pump-up = V·(cut-out − cut-in)/(pa·q) = %s × %s / (%.3g kPa × %s) = %s", form.Say(a, in.Volume), sayPressure(a, in.CutOut-in.CutIn), pa, sayFlow(a, res.Delivery), form.Say(a, res.PumpUp))
	}
	switch {
	case res.Holds:
		a.Step("the compressor gives more than the open valve takes: the pressure holds")
	case in.Running || in.Needed >= in.CutIn:
		net := in.Demand
		if in.Running {
			net -= res.Delivery
		}
		a.Step("run time = V·(cut-out − needed)/(pa·q) = %s × %s / (%.3g kPa × %s) = %s", form.Say(a, in.Volume), sayPressure(a, in.CutOut-in.Needed), pa, sayFlow(a, net), form.Say(a, res.RunTime))
	default:
		a.Step("run time = V·(cut-out − cut-in)/(pa·q) + V·(cut-in − needed)/(pa·(q − delivery)) = %s × [%s / (%.3g kPa × %s) + %s / (%.3g kPa × %s)] = %s",
			form.Say(a, in.Volume), sayPressure(a, in.CutOut-in.CutIn), pa, sayFlow(a, in.Demand), sayPressure(a, in.CutIn-in.Needed), pa, sayFlow(a, in.Demand-res.Delivery), form.Say(a, res.RunTime))
	}
	if res.Rhythm.Open > 0 {
		a.Step("rhythm: valve open %s, then %s to fill the tank again and let the compressor rest to its duty", form.Say(a, res.Rhythm.Open), form.Say(a, res.Rhythm.Wait))
	}
}
