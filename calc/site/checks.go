package site

import (
	"kerfside/calc/air"
	"kerfside/calc/cutting"
	"kerfside/calc/margin"
	"kerfside/calc/power"
	"kerfside/calc/unit"
)

// inlet is the gauge pressure before the hose: what the regulator is set to, at
// most what the compressor keeps before it starts again.
func (in Input) inlet() unit.Pressure {
	switch {
	case in.Regulator == 0:
		return in.Compressor.CutIn
	case in.Compressor.Free > 0:
		return min(in.Regulator, in.Compressor.CutIn)
	}
	return in.Regulator
}

// hoseKnown reports whether there is a hose to reckon with.
func (in Input) hoseKnown() bool { return in.Hose.Bore > 0 && in.Hose.Length > 0 && in.AirNeed > 0 }

// airChecks looks at hose, compressor and tank.
func (in Input) airChecks(res *Result) []Check {
	if in.AirNeed == 0 {
		return nil
	}
	var checks []Check
	if in.hoseKnown() {
		checks = append(checks, in.hoseCheck())
	}
	if in.Compressor.Free == 0 {
		return checks
	}
	tank := in.tank(res.Open)
	kept, err := air.ComputeTank(tank)
	if err != nil { // the torch needs more than the full tank holds
		return append(checks, Check{Key: "tank", Group: "air", Margin: margin.Of(tank.CutOut, tank.Needed), way: "tank pressure",
			there: fig(tank.CutOut, "bar", "psi"), needed: fig(tank.Needed, "bar", "psi")})
	}
	checks = append(checks, Check{Key: "compressor", Group: "air", Margin: kept.Margin, there: fig(kept.Sustained, "l/min", "cfm"), needed: fig(kept.Average, "l/min", "cfm")})
	if !kept.Forever {
		res.Rhythm = kept.Rhythm
	}
	if kept.Holds {
		return append(checks, Check{Key: "tank", Group: "air", Margin: margin.Most, way: "tank holds"})
	}
	spell := res.CutTime + in.After
	return append(checks, Check{Key: "tank", Group: "air", Margin: margin.Of(kept.RunTime, spell), there: fig(kept.RunTime, "", ""), needed: fig(spell, "", "")})
}

func (in Input) hoseCheck() Check {
	from, wanted := in.inlet(), in.AirLeast
	if from <= wanted {
		return Check{Key: "hose", Group: "air", Margin: -1, way: "hose pressure", there: fig(from, "bar", "psi"), needed: fig(wanted, "bar", "psi")}
	}
	pa := air.AirPressure(in.Altitude)
	most := in.Reference.Volume(in.Hose.Largest(from+pa, wanted+pa))
	return Check{Key: "hose", Group: "air", Margin: margin.Of(most, in.AirNeed), there: fig(most, "l/min", "cfm"), needed: fig(in.AirNeed, "l/min", "cfm")}
}

// tank is the compressor with what the torch asks of it.
func (in Input) tank(open unit.Ratio) air.TankInput {
	tank := in.Compressor
	tank.Demand, tank.Share, tank.Needed = in.AirNeed, open, in.leastInTank()
	tank.Altitude, tank.Temperature, tank.Reference = in.Altitude, in.Temperature, in.Reference
	return tank
}

// leastInTank is the pressure that still serves the torch through the hose, or
// what the torch needs where the hose is not known or cannot serve it at all.
func (in Input) leastInTank() unit.Pressure {
	if !in.hoseKnown() {
		return in.AirLeast
	}
	pa := air.AirPressure(in.Altitude)
	least := in.Hose.Inlet(in.AirLeast+pa, in.Reference.Mass(in.AirNeed)) - pa
	if least > in.inlet() {
		return in.AirLeast // the hose check says what is wrong
	}
	return least
}

// draw is the apparent power that the machine takes at a cutting current.
func (in Input) draw(i unit.Current) unit.ApparentPower {
	_, s := in.Machine.Draw(in.arcVolts(i), i)
	return s
}

func (in Input) arcVolts(i unit.Current) unit.Voltage {
	if in.Plan.Rig.Volts > 0 {
		return in.Plan.Rig.Volts
	}
	return power.LoadVolts(i)
}

// powerChecks looks at cord, volts, breaker and generator at a current.
func (in Input) powerChecks(i unit.Current) []Check {
	var checks []Check
	if in.Volts > 0 {
		checks = append(checks, in.mainsChecks(i)...)
	}
	if in.Generator.Rated > 0 {
		set := in.Generator
		set.Current, set.Machine, set.Volts = i, in.Machine, in.Plan.Rig.Volts
		set.Altitude, set.Temperature = in.Altitude, in.Temperature
		if r, err := power.ComputeGenerator(set); err == nil {
			checks = append(checks, in.generatorCheck(r))
		}
	}
	return checks
}

// generatorCheck judges what runs, by the tighter of its two ratings, and, where
// a compressor hangs on the same set, its start: during the cut, unless it is
// started first.
func (in Input) generatorCheck(r power.GeneratorResult) Check {
	start, peak, way := r.StartArcMargin, r.StartArc, "generator start"
	if in.Started {
		start, peak, way = r.StartFirstMargin, r.StartFirst, "generator first"
	}
	c := Check{Key: "generator", Group: "power", Margin: r.Margin, there: fig(r.CapacityS, "kVA", "kVA"), needed: fig(r.Apparent, "kVA", "kVA")}
	switch byPower := margin.Of(r.Capacity, r.Power); {
	case in.Generator.Starting > 0 && start < r.Margin:
		c.Margin, c.way, c.there, c.needed = start, way, fig(r.Surge, "kVA", "kVA"), fig(peak, "kVA", "kVA")
	case byPower < margin.Of(r.CapacityS, r.Apparent):
		c.there, c.needed = fig(r.Capacity, "kW", "kW"), fig(r.Power, "kW", "kW")
	}
	return c
}

// supply is the machine at the end of its cord, at a cutting current.
func (in Input) supply(i unit.Current) power.SupplyInput {
	cord := in.Cord
	cord.Phases = in.phases()
	return power.SupplyInput{Draw: in.draw(i), Volts: in.Volts, Cord: cord, Strand: in.Strand, Duty: in.Share, Breaker: in.Breaker, LeastVolt: in.LeastVolts}
}

func (in Input) mainsChecks(i unit.Current) []Check {
	var checks []Check
	supply := in.supply(i)
	drawn := power.Current(supply.Draw, in.Volts, in.phases())
	there, ok := in.Volts, true
	if in.Cord.Length > 0 {
		var flows unit.Current
		if there, flows, ok = in.Cord.Under(in.Volts, supply.Draw); ok {
			drawn = flows
		}
		lost := in.Volts * unit.Voltage(in.Advice)
		advised := supply
		advised.LeastVolt = in.Volts - lost
		c := Check{Key: "cord", Group: "power", Margin: advised.VoltMargin(), there: fig(in.Cord.LargestCurrent(lost), "A", "A"), needed: fig(drawn, "A", "A")}
		if !ok {
			c.way = "cord hopeless"
		}
		checks = append(checks, c)
	}
	if in.LeastVolts > 0 && ok {
		c := Check{Key: "volts", Group: "power", Margin: supply.VoltMargin(), there: read(in, there, "V", "V", unit.Usual), needed: read(in, in.LeastVolts, "V", "V", unit.Usual)}
		if in.Cord.Length == 0 {
			c.way = "volts socket"
		}
		checks = append(checks, c)
	}
	if in.Breaker > 0 {
		held := power.Effective(drawn, in.Idle, in.Share)
		checks = append(checks, Check{Key: "breaker", Group: "power", Margin: margin.Of(in.Breaker, held), there: fig(in.Breaker, "A", "A"), needed: fig(held, "A", "A")})
	}
	return checks
}

func (in Input) phases() int {
	if in.Cord.Phases == 3 {
		return 3
	}
	return 1
}

// dutyCheck looks at the duty cycle at a current on a day of that heat.
func (in Input) dutyCheck(i unit.Current) (Check, bool) {
	if in.Plate == nil {
		return Check{}, false
	}
	may, err := in.Plate.Today(i, in.Temperature, power.UsualGuard)
	if err != nil {
		top := in.Plate[len(in.Plate)-1].Current
		return Check{Key: "duty", Group: "duty", Margin: margin.Of(top, i), way: "duty plate", there: fig(top, "A", "A"), needed: fig(i, "A", "A")}, true
	}
	minutes := func(share unit.Ratio) figure { return fig(unit.Duration(share)*10*unit.Minute, "min", "min") }
	return Check{Key: "duty", Group: "duty", Margin: margin.Of(may, in.Share), there: minutes(may), needed: minutes(in.Share)}, true
}

// rhythm is how long the arc may burn at a current and how long it then rests,
// by the plate on a day of that heat or by the air, whichever leaves less; zero
// if neither is known or the plate allows nothing.
func (in Input) rhythm(i unit.Current, tank air.Rhythm) (on, rest unit.Duration) {
	if in.Plate != nil {
		if may, err := in.Plate.Today(i, in.Temperature, power.UsualGuard); err == nil {
			on, rest = power.Rhythm(may)
		}
	}
	if burn, wait := tank.Arc(in.After); burn > 0 && (on == 0 || burn*rest < on*wait) {
		return burn, wait
	}
	return on, rest
}

// partsChecks looks at what is surely cut and at what is left of tip and
// electrode.
func (in Input) partsChecks(plan cutting.PlanResult) []Check {
	sure := plan.Band.Least
	c := Check{Key: "thickness", Group: "parts", Margin: margin.Of(sure.Sever, plan.Path), there: fig(sure.Clean, "mm", "in").as(plate), needed: read(in, plan.Path, "mm", "in", unit.Plate)}
	switch plan.Grade {
	case cutting.SeversRough:
		c.way, c.judged = "thickness rough", margin.Tight
	case cutting.WillNotCut:
		c.way, c.judged, c.there = "thickness none", margin.Doubt, fig(sure.Sever, "mm", "in").as(plate)
	}
	checks := []Check{c}
	if in.TipNow > 0 && in.TipNew == plan.Tip.Orifice {
		allowed := in.TipNew * unit.Length(in.TipGrowth)
		checks = append(checks, Check{Key: "tip", Group: "parts", Margin: margin.Of(allowed, in.TipNow-in.TipNew), there: read(in, in.TipNew+allowed, "mm", "in", unit.Bore), needed: read(in, in.TipNow, "mm", "in", unit.Bore)})
	}
	if in.Pit > 0 {
		checks = append(checks, Check{Key: "electrode", Group: "parts", Margin: margin.Of(in.PitLimit, in.Pit), there: read(in, in.PitLimit, "mm", "in", unit.Kerf), needed: read(in, in.Pit, "mm", "in", unit.Kerf)})
	}
	return checks
}
