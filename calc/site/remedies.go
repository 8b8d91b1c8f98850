package site

import (
	"fmt"
	"math"
	"strings"

	"kerfside/calc/air"
	"kerfside/calc/cutting"
	"kerfside/calc/margin"
	"kerfside/calc/power"
	"kerfside/calc/unit"
)

// Remedy is one change that turns a failing check, found by inverting the same
// sums, or that settles one in doubt.
type Remedy struct {
	Check string // key of the check that it turns
	Do    func(system unit.System) string
	Field string // what to change and to what, to try it in the form; "" if it is no figure
	Value string // "" if it is for a person to read

	aside bool // no way out by itself, so not one of several
}

// aside is a plain remedy that is not one of several ways.
func aside(check, field, format string, args ...any) Remedy {
	m := plain(check, field, "", format, args...)
	m.aside = true
	return m
}

// plain is a remedy that reads the same in both systems.
func plain(check, field, value, format string, args ...any) Remedy {
	return Remedy{Check: check, Do: func(unit.System) string { return fmt.Sprintf(format, args...) }, Field: field, Value: value}
}

// measured is a remedy with one figure in its text.
func measured(check, field, value, format string, f figure) Remedy {
	return Remedy{Check: check, Do: func(s unit.System) string { return fmt.Sprintf(format, f.text(s)) }, Field: field, Value: value}
}

// remedies finds a way out for each check that fails or is in doubt, none of
// them twice.
func (in Input) remedies(res *Result) []Remedy {
	current := res.Plan.Arc.Current
	in = in.worn(res.Plan)
	var list []Remedy
	weak := "" // the power or duty check that less current would mend
	for _, c := range res.Checks {
		for _, g := range c.Rests {
			list = append(list, aside(c.Key, g.Field, "Find out %s. %s", g.What, g.Where))
		}
		if v := c.Verdict(); v != margin.Fails && v != margin.Doubt && c.Key != "thickness" {
			continue
		}
		switch c.Key {
		case "hose":
			list = append(list, in.widerHose()...)
		case "compressor":
			list = append(list, in.slowerWork(res)...)
		case "tank":
			list = append(list, in.shorterCuts(res)...)
		case "cord", "volts":
			weak = c.Key
			list = append(list, in.thickerCord(c.Key, current)...)
		case "breaker":
			weak = c.Key
			need := math.Ceil(c.needed.v)
			list = append(list, plain("breaker", "breaker", fmt.Sprintf("%.0fA", need), "Plug into a circuit of %.0f A or more; a licensed electrician says what it may feed.", need))
		case "generator":
			weak = c.Key
			list = append(list, in.largerSet(current)...)
		case "duty":
			weak = c.Key
			list = append(list, in.longerRests(current)...)
		case "thickness":
			list = append(list, in.thinner(res.Plan)...)
		case "tip":
			list = append(list, plain("tip", "tip_reading", "", "Fit a new tip; change the electrode with it if its pit is past half."))
		case "electrode":
			list = append(list, plain("electrode", "pit", "", "Fit a new electrode; change the tip with it if it is past half."))
		}
	}
	if weak != "" {
		list = append(list, in.lessCurrent(res, weak)...)
	}
	return once(list)
}

// once leaves out what was already told: the same field to the same value, or
// the same words.
func once(list []Remedy) []Remedy {
	var kept []Remedy
	for _, m := range list {
		again := false
		for _, k := range kept {
			again = again || k.Do(unit.Metric) == m.Do(unit.Metric) || m.Value != "" && k.Field == m.Field && k.Value == m.Value
		}
		if !again {
			kept = append(kept, m)
		}
	}
	return kept
}

// largest returns the largest value, downwards to a whole step, at which holds
// still does, and false if none from step up does. holds falls with its value.
func largest(step, below float64, holds func(float64) bool) (float64, bool) {
	low, high := 0, int(math.Ceil(below/step))
	for high-low > 1 {
		if mid := (low + high) / 2; holds(float64(mid) * step) {
			low = mid
		} else {
			high = mid
		}
	}
	return float64(low) * step, low > 0
}

// widerHose finds the next common bore, how short this hose would have to be and
// what the compressor would have to keep, or says that the hose is not to blame.
func (in Input) widerHose() []Remedy {
	pa := air.AirPressure(in.Altitude)
	flow := in.Reference.Mass(in.AirNeed)
	var list []Remedy
	if bore, ok := in.Hose.SmallestBore(in.inlet()+pa, in.AirLeast+pa, flow); ok {
		if bore, ok = air.CommonBore(bore); ok && bore > in.Hose.Bore {
			list = append(list, Remedy{Check: "hose", Do: func(s unit.System) string {
				text := unit.In(bore, "in") + " bore."
				if s == unit.Metric {
					text = fig(bore, "mm", "in").text(s) + " bore (" + unit.In(bore, "in") + ")."
				}
				return "Use a hose of " + text
			}, Field: "bore", Value: unit.In(bore, "mm")})
		}
	}
	serves := func(metres float64) bool {
		short := in.Hose
		short.Length = unit.Length(metres)
		return in.inlet() > in.AirLeast && short.Largest(in.inlet()+pa, in.AirLeast+pa) >= flow
	}
	if most, ok := largest(0.5, float64(in.Hose.Length), serves); ok {
		list = append(list, measured("hose", "hose_length", fmt.Sprintf("%gm", most), "Use at most %s of this hose.", fig(unit.Length(most), "m", "ft").as(down)))
	}
	needed := in.Hose.Inlet(in.AirLeast+pa, flow) - pa
	keeps := unit.Pressure(math.Ceil(unit.Value(needed, "bar")*10)/10) * unit.Bar
	switch {
	case in.Regulator > 0 && (in.Compressor.Free == 0 || in.Regulator < in.Compressor.CutIn) && keeps <= max(in.Compressor.CutIn, in.Regulator):
		list = append(list, measured("hose", "regulator", unit.In(keeps, "bar"), "Set the regulator before the hose to %s, read while air flows. Keep within the ratings of hose and machine.", fig(keeps, "bar", "psi").as(up)))
	case keeps < in.Compressor.CutOut && in.Regulator == 0:
		list = append(list, measured("hose", "cut_in", unit.In(keeps, "bar"), "Let the compressor start at %s, if its maker allows that.", fig(keeps, "bar", "psi").as(up)))
	}
	if list == nil {
		return []Remedy{measured("hose", "", "", "No wider hose would do: the couplers or the %s before it are the limit. Use couplers of full bore, or raise what the compressor keeps.", fig(in.inlet(), "bar", "psi"))}
	}
	return list
}

// freeAir is the remedy of a larger compressor, up to the next 5 l/min.
func freeAir(check string, need unit.Flow) Remedy {
	more := 5 * math.Ceil(unit.Value(need, "l/min")/5-1e-6)
	return measured(check, "free_air", fmt.Sprintf("%.0fl/min", more), "Use a compressor of %s free air by its plate.", fig(unit.Flow(more)*unit.LitrePerMinute, "l/min", "cfm").as(up))
}

// slowerWork finds the rhythm that the compressor can keep.
func (in Input) slowerWork(res *Result) []Remedy {
	kept, err := air.ComputeTank(in.tank(res.Open))
	if err != nil {
		return nil
	}
	percent := math.Floor(float64(in.Share) * float64(kept.MostShare) / float64(res.Open) * 100)
	remedy := Remedy{Check: "compressor", Do: func(s unit.System) string {
		text := fmt.Sprintf("In cuts as long as planned, let the arc burn at most %.0f %% of the time.", percent)
		if burn, wait := kept.Rhythm.Arc(in.After); burn > 0 {
			text += fmt.Sprintf(" On a full tank: cut %s, then wait %s.", fig(burn, "", "").text(s), fig(wait, "", "").text(s))
		}
		return text
	}, Field: "share", Value: fmt.Sprintf("%.0f%%", percent)}
	if percent < 1 {
		remedy.Field, remedy.Value = "", ""
	}
	return []Remedy{remedy, freeAir("compressor", kept.FreeNeeded)}
}

// shorterCuts finds how long a single cut may be on a full tank, the tank that
// would last and the compressor that would do with this one.
func (in Input) shorterCuts(res *Result) []Remedy {
	tank := in.tank(res.Open)
	tank.Spell = res.CutTime + in.After
	kept, err := air.ComputeTank(tank)
	if err != nil {
		return []Remedy{plain("tank", "", "", "Lose less in the hose, or use a compressor that stops at a higher pressure.")}
	}
	var list []Remedy
	if burn := kept.RunTime - in.After; burn > 0 {
		if length := unit.Length(math.Floor(float64(burn)*float64(res.Plan.Speed)*100) / 100); length > 0 {
			list = append(list, measured("tank", "longest_cut", unit.In(length, "mm"), "Cut at most %s in one go, then let the tank fill.", fig(length, "mm", "in").as(down)))
		}
	}
	litres := math.Ceil(unit.Value(kept.TankNeeded, "l"))
	list = append(list, measured("tank", "tank", fmt.Sprintf("%.0fl", litres), "Add a tank: %s in all would last.", fig(unit.Volume(litres)*unit.Litre, "l", "gal").as(up)))
	lasts := func(short float64) bool { // short of a compressor that keeps up for ever
		more := tank
		more.Free = 2*in.AirNeed + in.Compressor.Free - unit.Flow(short)
		kept, err := air.ComputeTank(more)
		return err == nil && (kept.Holds || kept.RunTime >= tank.Spell)
	}
	top := float64(2*in.AirNeed + in.Compressor.Free)
	if less, ok := largest(float64(unit.LitrePerMinute), top, lasts); ok {
		list = append(list, freeAir("tank", unit.Flow(top-less)))
	}
	return list
}

// thickerCord finds the size that keeps the volts, and how short this cord would
// have to be, within both the advice and the least volts.
func (in Input) thickerCord(check string, i unit.Current) []Remedy {
	if in.Cord.Length == 0 {
		return []Remedy{plain(check, "", "", "Find a socket with more volts under load; ask a licensed electrician.")}
	}
	supply := in.supply(i)
	supply.LeastVolt = max(in.LeastVolts, in.Volts*unit.Voltage(1-in.Advice))
	var list []Remedy
	drop := in.Volts - supply.LeastVolt
	if drop > 0 {
		if size, ok := in.Cord.Thinnest(in.Strand, power.Current(supply.Draw, supply.LeastVolt, in.phases()), drop); ok {
			list = append(list, plain(check, "size", size.Label, "Use a cord of %s. It must also carry the current: its jacket or an electrician says.", size.Label))
		}
	}
	most, ok := largest(0.5, float64(in.Cord.Length), func(metres float64) bool {
		supply.Cord.Length = unit.Length(metres)
		return supply.VoltMargin() >= 0
	})
	if ok {
		list = append(list, measured(check, "cord_length", fmt.Sprintf("%gm", most), "Use at most %s of this cord.", fig(unit.Length(most), "m", "ft").as(down)))
	}
	if list == nil {
		return []Remedy{plain(check, "", "", "No cord in the tables would do: move closer to the supply.")}
	}
	return list
}

// largerSet finds the generator that would do, and whether starting the
// compressor first is enough.
func (in Input) largerSet(i unit.Current) []Remedy {
	set := in.Generator
	set.Current, set.Machine, set.Volts, set.Altitude, set.Temperature = i, in.Machine, in.Plan.Rig.Volts, in.Altitude, in.Temperature
	r, err := power.ComputeGenerator(set)
	if err != nil {
		return nil
	}
	// All of the set's figures grow with its size, so the margin says how much
	// larger it has to be.
	field, times := "generator", 1/(1+float64(in.generatorCheck(r).Margin))
	size := set.Rated.Quantity().Up(times*float64(set.Rated), "kVA", unit.InDoubt)
	if set.PowerAlone {
		field, size = "rated_power", set.RatedPower.Quantity().Up(times*float64(set.RatedPower), "kW", unit.InDoubt)
	}
	more := plain("generator", field, strings.ReplaceAll(size, " ", ""), "Use a generator of %s or more.", size)
	if in.Given("surge") || in.Given("rated_power") && !set.PowerAlone {
		more.Field, more.Value = "", "" // its other plate figures would have to grow along
	}
	list := []Remedy{more}
	if first := min(r.Margin, r.StartFirstMargin); set.Running > 0 && !in.Started && first >= 0 {
		list = append(list, plain("generator", "compressor_first", "yes", "Start the compressor before the arc, and stop cutting before it starts again: watch the gauge near its cut-in."))
	}
	if set.Running > 0 {
		alone := set
		alone.Running, alone.Starting = 0, 0
		if a, err := power.ComputeGenerator(alone); err == nil && a.Margin >= 0 {
			list = append(list, plain("generator", "compressor_power", "", "Let the compressor fill its tank before the cut and switch it off while you cut."))
		}
	}
	return list
}

// longerRests says how much of the time the machine may cut.
func (in Input) longerRests(i unit.Current) []Remedy {
	may, err := in.Plate.Today(i, in.Temperature, power.UsualGuard)
	if err != nil {
		return nil // lessCurrent is the only way
	}
	percent := math.Floor(float64(may) * 100)
	if percent < 1 {
		return []Remedy{plain("duty", "", "", "Too hot to cut: move the machine into the shade and wait.")}
	}
	minutes := func(share unit.Ratio) string { return unit.Figures(10*float64(share), 2) }
	return []Remedy{plain("duty", "share", fmt.Sprintf("%.0f%%", percent), "Cut %s min, then rest %s min, in each ten minutes.", minutes(may), minutes(1-may))}
}

// thinner says what the rig does with certainty, where the plate is too thick
// to cut clean.
func (in Input) thinner(plan cutting.PlanResult) []Remedy {
	if plan.Grade == cutting.CutsClean {
		return nil
	}
	sure := plan.Band.Least.Clean
	return []Remedy{measured("thickness", "", "", "This rig is sure to cut %s clean, at its strongest; for this, try a strip of scrap first, or take a larger machine, oxyfuel or a saw.", fig(sure, "", "").as(plate))}
}

// mostCurrent returns the largest whole current, up to most, at which power and
// duty hold, and false if not even the rig's least does.
func (in Input) mostCurrent(most unit.Current) (unit.Current, bool) {
	holds := func(i float64) bool {
		checks := in.powerChecks(unit.Current(i))
		if c, ok := in.dutyCheck(unit.Current(i)); ok {
			checks = append(checks, c)
		}
		for _, c := range checks {
			if c.Margin < 0 {
				return false
			}
		}
		return true
	}
	if holds(float64(most)) {
		return most, true
	}
	i, ok := largest(1, float64(most), holds)
	return unit.Current(i), ok && unit.Current(i) >= in.Plan.Rig.Min
}

// lessCurrent finds the largest current at which power and duty hold.
func (in Input) lessCurrent(res *Result, key string) []Remedy {
	most, ok := in.mostCurrent(res.Plan.Arc.Current)
	if !ok {
		return []Remedy{aside(key, "", "Even %s, the least that this rig sets, is too much here.", unit.In(in.Plan.Rig.Min, "A"))}
	}
	if most >= res.Plan.Arc.Current {
		return nil
	}
	res.Largest = most
	alone := in.Plan
	alone.Rig.Max = most
	after, err := cutting.ComputePlan(alone)
	if err != nil {
		return []Remedy{aside(key, "", "%s is the most that holds here, and at that this rig does not cut this.", unit.In(most, "A"))}
	}
	return []Remedy{{Check: key, Do: func(s unit.System) string {
		return fmt.Sprintf("Set %s: power and duty hold then, at %s, and it %s.", unit.In(after.Arc.Current, "A"), fig(after.Speed, "mm/min", "in/min").text(s), after.Grade.Words())
	}, Field: "max_current" + in.Plan.Rig.Inlet.Key, Value: unit.In(most, "A")}}
}
