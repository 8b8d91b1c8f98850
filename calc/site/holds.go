package site

import (
	"math"

	"kerfside/calc/air"
	"kerfside/calc/cutting"
	"kerfside/calc/unit"
)

// Setting is a cut that holds on this site, as far as it is known.
type Setting struct {
	For       string // "this" for the thickness asked, "clean" or "rough" for the largest
	Thickness unit.Length
	Plan      cutting.PlanResult
	Share     unit.Ratio  // of the time that the arc may burn
	Longest   unit.Length // cut in one go
}

// Plate and sheet as a welder knows them, thickest first.
var (
	millimetres = [...]float64{60, 50, 40, 30, 25, 20, 15, 12, 10, 8, 6, 5, 4, 3, 2, 1.5, 1}
	sixteenths  = [...]float64{32, 24, 20, 16, 14, 12, 10, 8, 6, 5, 4, 3, 2, 1}
)

// stock lists what is known in that system.
func stock(s unit.System) (list []unit.Length) {
	if s == unit.US {
		for _, n := range sixteenths {
			list = append(list, unit.Length(n)*unit.Inch/16)
		}
		return list
	}
	for _, n := range millimetres {
		list = append(list, unit.Length(n)*unit.Millimetre)
	}
	return list
}

// known says a thickness as the next stock that is no thicker.
func known(t unit.Length, s unit.System) string {
	for _, thin := range stock(s) {
		if thin <= t {
			return unit.Text(thin, s)
		}
	}
	return unit.Text(t, s)
}

// way is a share of the time that the arc may burn, with the largest current at
// which power and duty hold then and what that is sure to do.
type way struct {
	share  unit.Ratio
	most   unit.Current
	surely cutting.Limits
	plans  map[unit.Length]cutting.PlanResult // at that current, as far as made
}

// shares are tried below the planned one.
var shares = [...]unit.Ratio{0.5, 0.4, 0.3, 0.25, 0.2, 0.15, 0.1, 0.05}

// ways lists them, the planned share first. Where the current is the same, less
// time is no other way to power and duty, but may be to the air.
func (in Input) ways() []way {
	var list []way
	for i := -1; i < len(shares); i++ {
		share := in.Share
		if i >= 0 {
			share = shares[i]
			if share >= in.Share {
				continue
			}
		}
		trial := in
		trial.Share = share
		most, ok := trial.mostCurrent(in.Plan.Rig.Max)
		if !ok {
			continue
		}
		w := way{share: share, most: most}
		if n := len(list) - 1; n >= 0 && list[n].most == most {
			w.surely, w.plans = list[n].surely, list[n].plans
		} else {
			trial.Plan.Rig.Max = most
			w.surely, w.plans = trial.Plan.LimitBand().Least, map[unit.Length]cutting.PlanResult{}
		}
		list = append(list, w)
	}
	return list
}

// holds answers what can be cut here: the thickness asked, if any setting that
// holds does it, the largest stock that cuts clean and the largest that severs
// rough. Cuts and current are as planned where that holds; else the current is
// less, then the arc burns less of the time, then the cuts are shorter. Nothing
// that a check falls short by on a figure that nobody has read counts as held;
// a worn tip or electrode is taken as changed.
func (in Input) holds(res Result, s unit.System) []Setting {
	for _, c := range res.Checks {
		if c.Margin < 0 && (c.Key == "hose" || c.way == "tank pressure") {
			return nil // whatever is cut
		}
	}
	ways := in.ways()
	var list []Setting
	for _, grade := range []cutting.Grade{res.Plan.Grade, cutting.SeversRough} {
		if at, ok := in.setting(ways, in.Plan.Thickness, grade); ok {
			at.For = "this"
			list = append(list, at)
			break
		}
	}
	for _, grade := range []cutting.Grade{cutting.CutsClean, cutting.SeversRough} {
		for _, t := range stock(s) {
			at, ok := in.setting(ways, t, grade)
			if !ok {
				continue
			}
			at.For = string(grade)
			if at.Plan.Grade == grade { // or there is no stock between the two
				list = append(list, at)
			}
			break
		}
	}
	return list
}

// setting finds a way to cut that thickness by at least that grade.
func (in Input) setting(ways []way, t unit.Length, grade cutting.Grade) (Setting, bool) {
	in.Plan.Thickness = t
	path := in.Plan.Path()
	for _, w := range ways {
		if path > w.surely.Sever || grade == cutting.CutsClean && path > w.surely.Clean {
			continue
		}
		plan, ok := w.plans[t]
		if !ok {
			in.Plan.Rig.Max = w.most
			var err error
			if plan, err = cutting.ComputePlan(in.Plan); err != nil {
				continue
			}
			w.plans[t] = plan
		}
		in.Share = w.share
		if longest, ok := in.longestHeld(plan); ok {
			return Setting{Thickness: t, Plan: plan, Share: w.share, Longest: longest}, true
		}
	}
	return Setting{}, false
}

// shortestCut is the shortest single cut that is still offered: a judgement.
const shortestCut = 50 * unit.Millimetre

// longestHeld returns the longest single cut, as planned or less, that the
// compressor and its tank hold at a plan.
func (in Input) longestHeld(plan cutting.PlanResult) (unit.Length, bool) {
	if in.AirNeed == 0 || in.Compressor.Free == 0 {
		return in.Longest, true
	}
	if !in.tipOut(plan.Tip) {
		in = in.worn(plan)
	}
	for in.Longest >= shortestCut {
		time := unit.Duration(float64(in.Longest) / float64(plan.Speed))
		kept, err := air.ComputeTank(in.tank(in.open(time)))
		if err != nil || kept.Margin < 0 {
			return 0, false
		}
		if kept.Holds || kept.RunTime >= time+in.After {
			return in.Longest, true
		}
		shorter := unit.Length(math.Floor(float64(kept.RunTime-in.After)*float64(plan.Speed)*100) / 100)
		if shorter >= in.Longest {
			break
		}
		in.Longest = shorter
	}
	return 0, false
}

// tipOut reports whether the tip that was read is that one, and past its limit.
func (in Input) tipOut(t cutting.Tip) bool {
	return in.TipNow > 0 && in.TipNew == t.Orifice && in.TipNow > in.TipNew*unit.Length(1+in.TipGrowth)
}
