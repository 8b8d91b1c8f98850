package site

import (
	"fmt"
	"math"

	"kerfside/calc/air"
	"kerfside/calc/cutting"
	"kerfside/calc/margin"
	"kerfside/calc/power"
	"kerfside/calc/unit"
)

// Remedy is one change that turns a failing or tight check, found by inverting
// the same sums.
type Remedy struct {
	Check string // key of the check that it turns
	Do    func(system unit.System) string
	Field string // what to change and to what, to try it in the form; "" if it is no figure
	Value string
}

// remedies finds a way out for each check that fails.
func (in Input) remedies(res *Result) []Remedy {
	var list []Remedy
	weak := "" // the power or duty check that less current would mend
	for _, c := range res.Checks {
		if c.Verdict() != margin.Fails {
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
			list = append(list, in.thickerCord(c.Key, res.Plan.Arc.Current)...)
		case "breaker":
			weak = c.Key
			need := math.Ceil(float64(power.Effective(power.Current(in.draw(res.Plan.Arc.Current), in.Volts, in.phases()), 0, in.Share)))
			list = append(list, Remedy{"breaker", func(s unit.System) string {
				return fmt.Sprintf("Plug into a circuit of %.0f A or more; a licensed electrician says what it may feed.", need)
			}, "breaker", fmt.Sprintf("%.0fA", need)})
		case "generator":
			weak = c.Key
			list = append(list, in.largerSet(res.Plan.Arc.Current)...)
		case "duty":
			weak = c.Key
			list = append(list, in.longerRests(res.Plan.Arc.Current)...)
		case "tip":
			list = append(list, Remedy{Check: "tip", Do: func(unit.System) string {
				return "Fit a new tip; change the electrode with it if its pit is past half."
			}, Field: "tip_reading"})
		case "electrode":
			list = append(list, Remedy{Check: "electrode", Do: func(unit.System) string { return "Fit a new electrode; change the tip with it if it is past half." }, Field: "pit"})
		}
	}
	if weak != "" {
		list = append(list, in.lessCurrent(res, weak)...)
	}
	return list
}

// widerHose finds the next common bore, or says that the hose is not to blame.
func (in Input) widerHose() []Remedy {
	pa := air.AirPressure(in.Altitude)
	bore, ok := in.Hose.SmallestBore(in.inlet()+pa, in.AirLeast+pa, in.Reference.Mass(in.AirNeed))
	if ok {
		bore, ok = air.CommonBore(bore)
	}
	if !ok {
		return []Remedy{{Check: "hose", Do: func(s unit.System) string {
			return fmt.Sprintf("No wider hose would do: the couplers or the %s before it are the limit. Use couplers of full bore, or raise what the compressor keeps.", sayPressure(in.inlet(), s))
		}}}
	}
	return []Remedy{{"hose", func(s unit.System) string {
		return fmt.Sprintf("Use a hose of %s bore, or a shorter one.", unit.Text(bore, s))
	}, "bore", unit.In(bore, "mm")}}
}

// slowerWork finds the rhythm that the compressor can keep.
func (in Input) slowerWork(res *Result) []Remedy {
	kept, err := air.ComputeTank(in.tank(res.Open))
	if err != nil {
		return nil
	}
	share := float64(in.Share) * float64(kept.MostShare) / float64(res.Open)
	percent := math.Floor(share * 100)
	remedy := Remedy{"compressor", func(s unit.System) string {
		text := fmt.Sprintf("In cuts as long as planned, let the arc burn at most %.0f %% of the time.", percent)
		if burn, wait := kept.Rhythm.Arc(in.After); burn > 0 {
			text += fmt.Sprintf(" On a full tank: cut %s, then wait %s.", unit.Text(burn, s), unit.Text(wait, s))
		}
		return text
	}, "share", fmt.Sprintf("%.0f%%", percent)}
	need := kept.FreeNeeded
	if percent < 1 {
		remedy.Field, remedy.Value = "", ""
	}
	larger := math.Ceil(unit.Value(need, "l/min"))
	return []Remedy{remedy, {"compressor", func(s unit.System) string {
		return fmt.Sprintf("Or use a compressor of %s free air by its plate.", sayFlow(need, s))
	}, "free_air", fmt.Sprintf("%.0fl/min", larger)}}
}

// shorterCuts finds how long a single cut may be on a full tank.
func (in Input) shorterCuts(res *Result) []Remedy {
	tank := in.tank(res.Open)
	tank.Spell = res.CutTime + in.After
	kept, err := air.ComputeTank(tank)
	if err != nil {
		return []Remedy{{Check: "tank", Do: func(unit.System) string {
			return "Lose less in the hose, or use a compressor that stops at a higher pressure."
		}}}
	}
	var list []Remedy
	if burn := kept.RunTime - in.After; burn > 0 {
		length := unit.Length(math.Floor(float64(burn)*float64(res.Plan.Speed)*1000) / 1000)
		list = append(list, Remedy{"tank", func(s unit.System) string {
			return fmt.Sprintf("Cut at most %s in one go, then let the tank fill.", unit.Text(length, s))
		}, "longest_cut", unit.In(length, "mm")})
	}
	litres := math.Ceil(unit.Value(kept.TankNeeded, "l"))
	return append(list, Remedy{"tank", func(s unit.System) string {
		return fmt.Sprintf("Or add a tank: %s in all would last.", unit.Text(unit.Volume(litres)*unit.Litre, s))
	}, "tank", fmt.Sprintf("%.0fl", litres)})
}

// thickerCord finds the size that keeps the volts.
func (in Input) thickerCord(check string, i unit.Current) []Remedy {
	if in.Cord.Length == 0 {
		return []Remedy{{Check: check, Do: func(unit.System) string {
			return "Find a socket with more volts under load; ask a licensed electrician."
		}}}
	}
	drop := unit.Voltage(float64(in.Volts) * float64(advice))
	if in.LeastVolts > 0 {
		drop = min(drop, in.Volts-in.LeastVolts)
	}
	drawn := power.Current(in.draw(i), min(in.Volts-drop, in.Volts), in.phases())
	size, ok := power.Conductor{}, false
	if drop > 0 {
		size, ok = in.Cord.Thinnest(in.Strand, drawn, drop)
	}
	if !ok {
		return []Remedy{{Check: check, Do: func(unit.System) string { return "No cord in the tables would do: move closer to the supply." }}}
	}
	return []Remedy{{check, func(s unit.System) string {
		return fmt.Sprintf("Use a cord of %s, or a shorter one. It must also carry the current: its jacket or an electrician says.", size.Label)
	}, "size", size.Label}}
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
	// All of the set's figures grow with its kVA, so the margin says how much
	// larger it has to be.
	kva := math.Ceil(10*unit.Value(set.Rated, "kVA")/(1+float64(in.generatorCheck(r).Margin))) / 10
	list := []Remedy{{"generator", func(s unit.System) string {
		return fmt.Sprintf("Use a generator of %.1f kVA or more.", kva)
	}, "generator", fmt.Sprintf("%.1fkVA", kva)}}
	if first := min(r.Margin, r.StartFirstMargin); set.Running > 0 && !in.Started && first >= 0 {
		list = append(list, Remedy{"generator", func(unit.System) string {
			return "Or start the compressor before the arc, and stop cutting before it starts again: watch the gauge near its cut-in."
		}, "compressor_first", "yes"})
	}
	if set.Running > 0 {
		alone := set
		alone.Running, alone.Starting = 0, 0
		if a, err := power.ComputeGenerator(alone); err == nil && a.Margin >= 0 {
			list = append(list, Remedy{"generator", func(unit.System) string {
				return "Or let the compressor fill its tank before the cut and switch it off while you cut."
			}, "compressor_power", ""})
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
		return []Remedy{{Check: "duty", Do: func(unit.System) string { return "Too hot to cut: move the machine into the shade and wait." }}}
	}
	return []Remedy{{"duty", func(unit.System) string {
		return fmt.Sprintf("Cut %s, then rest %s, in each ten minutes.", minutes(may), minutes(1-may))
	}, "share", fmt.Sprintf("%.0f%%", percent)}}
}

// lessCurrent finds the largest current at which power and duty hold.
func (in Input) lessCurrent(res *Result, key string) []Remedy {
	holds := func(i unit.Current) bool {
		checks := in.powerChecks(i)
		if c, ok := in.dutyCheck(i); ok {
			checks = append(checks, c)
		}
		for _, c := range checks {
			if c.Margin < 0 {
				return false
			}
		}
		return true
	}
	low, high := in.Plan.Rig.Min, res.Plan.Arc.Current
	if low == 0 {
		low = min(5*unit.Ampere, high)
	}
	if !holds(low) {
		return []Remedy{{Check: key, Do: func(s unit.System) string {
			return fmt.Sprintf("Even %s, the least that this rig sets, is too much here.", unit.Text(low, s))
		}}}
	}
	for range 60 {
		if mid := (low + high) / 2; holds(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	most := unit.Current(math.Floor(float64(low)))
	if most < in.Plan.Rig.Min || most <= 0 {
		return nil
	}
	res.Largest = most
	alone := in.Plan
	alone.Rig.Max = most
	after, err := cutting.ComputePlan(alone)
	if err != nil {
		return []Remedy{{Check: key, Do: func(s unit.System) string {
			return fmt.Sprintf("%.0f A is the most that holds here, and that is too little for this metal.", float64(most))
		}}}
	}
	return []Remedy{{key, func(s unit.System) string {
		return fmt.Sprintf("Or set at most %.0f A: all holds then, at %s.", float64(most), say(after.Speed, s, "mm/min", "in/min"))
	}, "max_current", fmt.Sprintf("%.0fA", float64(most))}}
}
