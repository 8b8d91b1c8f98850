package site

import (
	"fmt"

	"kerfside/calc/air"
	"kerfside/calc/cutting"
	"kerfside/calc/margin"
	"kerfside/calc/power"
	"kerfside/calc/unit"
)

// advice is the voltage drop that the run to the machine and its feeder may
// have together: 5 % (NEC 210.19(A), informational note; IEC 60364-5-52).
const advice = 5 * unit.Percent

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
		return append(checks, Check{"tank", "air", margin.Of(tank.CutOut, tank.Needed), func(s unit.System) string {
			return fmt.Sprintf("the torch needs %s in the tank, which fills to %s", sayPressure(tank.Needed, s), sayPressure(tank.CutOut, s))
		}})
	}
	checks = append(checks, Check{"compressor", "air", kept.Margin, func(s unit.System) string {
		return fmt.Sprintf("the compressor keeps up %s of free air here; the torch takes %s on average", sayFlow(kept.Sustained, s), sayFlow(kept.Average, s))
	}})
	spell := res.CutTime + in.After
	lasts := margin.Most
	if !kept.Holds {
		lasts = margin.Of(kept.RunTime, spell)
	}
	if !kept.Forever {
		res.Rhythm = kept.Rhythm
	}
	return append(checks, Check{"tank", "air", lasts, func(s unit.System) string {
		if kept.Holds {
			return "the tank never falls under what the torch needs"
		}
		return fmt.Sprintf("a full tank lasts %s; the longest cut with its after-flow takes %s", unit.Text(kept.RunTime, s), unit.Text(spell, s))
	}})
}

func (in Input) hoseCheck() Check {
	from, wanted := in.inlet(), in.AirLeast
	pa := air.AirPressure(in.Altitude)
	most := in.Reference.Volume(in.Hose.Largest(from+pa, wanted+pa))
	return Check{"hose", "air", margin.Of(most, in.AirNeed), func(s unit.System) string {
		return fmt.Sprintf("the hose serves %s with %s before it and %s behind it; the torch takes %s",
			sayFlow(most, s), sayPressure(from, s), sayPressure(wanted, s), sayFlow(in.AirNeed, s))
	}}
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

// generatorCheck judges what runs and, where a compressor hangs on the same
// set, its start: during the cut, unless it is started first.
func (in Input) generatorCheck(r power.GeneratorResult) Check {
	start, peak, when := r.StartArcMargin, r.StartArc, "while the arc burns"
	if in.Started {
		start, peak, when = r.StartFirstMargin, r.StartFirst, "before the arc"
	}
	if in.Generator.Starting > 0 && start < r.Margin {
		return Check{"generator", "power", start, func(s unit.System) string {
			return fmt.Sprintf("the compressor starting %s takes the generator to %s; it gives %s here", when, unit.Text(peak, s), unit.Text(unit.ApparentPower(float64(in.Generator.Rated)*float64(r.Left)), s))
		}}
	}
	return Check{"generator", "power", r.Margin, func(s unit.System) string {
		return fmt.Sprintf("the generator gives %s here with its headroom left; this takes %s", unit.Text(r.CapacityS, s), unit.Text(r.Apparent, s))
	}}
}

func (in Input) mainsChecks(i unit.Current) []Check {
	var checks []Check
	drawn := power.Current(in.draw(i), in.Volts, in.phases())
	if in.Cord.Length > 0 {
		most := in.Cord.LargestCurrent(unit.Voltage(float64(in.Volts) * float64(advice)))
		checks = append(checks, Check{"cord", "power", margin.Of(most, drawn), func(s unit.System) string {
			return fmt.Sprintf("the cord carries %s within %s; the machine draws %s", unit.Text(most, s), unit.Text(advice, s), unit.Text(drawn, s))
		}})
	}
	if in.LeastVolts > 0 {
		there, _, ok := in.Volts, drawn, true
		if in.Cord.Length > 0 {
			there, _, ok = in.Cord.Under(in.Volts, in.draw(i))
		}
		if !ok {
			there = 0
		}
		checks = append(checks, Check{"volts", "power", margin.Of(there, in.LeastVolts), func(s unit.System) string {
			return fmt.Sprintf("%s arrive at the machine, which runs on %s and more", unit.Text(there, s), unit.Text(in.LeastVolts, s))
		}})
	}
	if in.Breaker > 0 {
		held := power.Effective(drawn, 0, in.Share)
		checks = append(checks, Check{"breaker", "power", margin.Of(in.Breaker, held), func(s unit.System) string {
			return fmt.Sprintf("the breaker holds %s; the machine's effective current is %s", unit.Text(in.Breaker, s), unit.Text(held, s))
		}})
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
		return Check{"duty", "duty", margin.Of(top, i), func(s unit.System) string {
			return fmt.Sprintf("the plate states no duty cycle above %s", unit.Text(top, s))
		}}, true
	}
	return Check{"duty", "duty", margin.Of(may, in.Share), func(s unit.System) string {
		return fmt.Sprintf("the machine may cut %s in ten; you mean to cut %s", minutes(may), minutes(in.Share))
	}}, true
}

// partsChecks looks at what the tip cuts and at what is left of tip and
// electrode.
func (in Input) partsChecks(plan cutting.PlanResult) []Check {
	checks := []Check{{"thickness", "parts", margin.Of(plan.Limits.Clean, plan.Path), func(s unit.System) string {
		return fmt.Sprintf("the rig cuts clean up to %s; this is %s", unit.Text(plan.Limits.Clean, s), unit.Text(plan.Path, s))
	}}}
	if in.TipNow > 0 {
		limit := plan.Tip.Orifice * unit.Length(1+in.TipGrowth)
		grown, allowed := in.TipNow-plan.Tip.Orifice, limit-plan.Tip.Orifice
		checks = append(checks, Check{"tip", "parts", margin.Of(allowed, grown), func(s unit.System) string {
			return fmt.Sprintf("the tip reads %s and is changed at %s", unit.Text(in.TipNow, s), unit.Text(limit, s))
		}})
	}
	if in.Pit > 0 {
		checks = append(checks, Check{"electrode", "parts", margin.Of(in.PitLimit, in.Pit), func(s unit.System) string {
			return fmt.Sprintf("the pit is %s deep and the electrode is changed at %s", unit.Text(in.Pit, s), unit.Text(in.PitLimit, s))
		}})
	}
	return checks
}

func sayFlow(q unit.Flow, s unit.System) string         { return say(q, s, "l/min", "cfm") }
func sayPressure(p unit.Pressure, s unit.System) string { return say(p, s, "bar", "psi") }

// say prints m in the metric or the US unit.
func say[M unit.Measure](m M, s unit.System, metric, us string) string {
	if s == unit.US {
		return unit.In(m, us)
	}
	return unit.In(m, metric)
}

// minutes says a share of ten minutes.
func minutes(share unit.Ratio) string { return unit.Figures(10*float64(share), 2) + " min" }
