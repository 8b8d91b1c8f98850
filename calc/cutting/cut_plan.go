package cutting

import (
	"fmt"
	"math"

	"kerfside/calc/material"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// PlanInput is a cut to plan.
type PlanInput struct {
	Metal     material.Metal
	Alloy     material.Alloy // of aluminium; "" if not known
	Thickness unit.Length    // of one layer, square through it
	Angle     unit.Angle     // of a bevel against square, 0 for a square cut
	Layers    int            // plates cut in one go, at least 1
	Rig       Rig
	Scatter   unit.Ratio  // standard deviation of the hand's speed over its mean
	HandLimit unit.Speed  // fastest that the hand can follow a line
	Pierce    bool        // start in the plate rather than at its edge
	Kerf      unit.Length // measured on trial strips; 0 if not
	Balance   Balance
	Bounds    Bounds

	Surface  string // "clean", "rusty", "painted" or "galvanised"; for cautions only
	Overhead bool   // likewise

	System unit.System // that a refusal names lengths in

	// Calibrated says that Balance.Calibration comes from the user's own cuts.
	Calibrated bool
}

// Bounds say where a cut stops being good, or stops. All are customs of the
// trade or the authors' memory, and the user's to edit.
type Bounds struct {
	Clean       unit.Speed // slowest recommended speed that still leaves a clean cut
	Sever       unit.Speed // slowest speed that still severs
	SeverShare  unit.Ratio // severs at most so many times the clean limit
	PierceShare unit.Ratio // pierces at most this share of the clean limit
	Brisk       unit.Speed // the recommended speed to keep when choosing a current
}

// UsualBounds are what the fields of the bounds say if nobody edits them.
var UsualBounds = Bounds{Clean: 0.3 * unit.MetrePerMinute, Sever: 0.125 * unit.MetrePerMinute, SeverShare: 1.5, PierceShare: 0.5, Brisk: unit.MetrePerMinute}

// Limits are the thicknesses that end clean cutting, severing and piercing at
// the rig's strongest setting.
type Limits struct{ Clean, Sever, Pierce unit.Length }

// PlanResult is what to set and how fast to move.
type PlanResult struct {
	Path      unit.Length // metal along the torch
	Arc       Arc
	Tip       Tip
	Change    bool          // another tip than the fitted one
	Pressure  unit.Pressure // 0 if the rig does not say
	Most      unit.Speed    // just severs
	Speed     unit.Speed    // recommended
	Low, High unit.Speed    // where the right speed may lie; Low 0 if it may not sever at all
	Off       unit.Ratio    // factor by which Most may be off, two times in three; at most 100
	Capped    bool          // Speed is what the hand can follow, not what the arc could do
	Pace      unit.Pace
	Kerf      unit.Length
	Pierce    bool // start by piercing
	Limits    Limits
	Band      LimitBand // Limits with how far off they may be
	Grade     Grade     // by what surely holds; see LimitBand.GradeOf
	Settled   bool      // Path is clear of the bands in which clean cutting and severing end
	Heat      unit.LineEnergy
}

// quantile95 is the one-sided 95 % point of the normal distribution.
const quantile95 = 1.645

// recommend is the mean speed at which a hand of that scatter stays under most
// 95 times in 100: most/(1 + 1.645·scatter). At 20 % it is 0.75 of severing,
// the figure of common practice.
func recommend(most unit.Speed, scatter unit.Ratio) unit.Speed {
	return most / unit.Speed(1+quantile95*float64(scatter))
}

// ComputePlan plans a cut.
//
//	path = layers · thickness / cos(angle)
//	most = speed that just severs path (Balance)
//	speed = most / (1 + 1.645·scatter), at most what the hand can follow
//
// The tip and the current are the lowest, at 80 to 100 % of a tip's rating,
// that keep the recommended speed at Bounds.Brisk; the fitted tip if it can;
// else the rig's strongest setting. So thin sheet gets a small current and full
// thickness all there is. At one setting the speed falls with thickness; where
// the plan changes to a larger tip it may rise.
//
// The clean limit is the path at which the recommended speed falls to
// Bounds.Clean at the strongest setting; the sever limit that at which most
// falls to Bounds.Sever, but at most SeverShare of the clean limit, because a
// long arc runs out of volts; the pierce limit PierceShare of the clean limit.
// The grade, and whether to pierce, go by the lower end of what each limit may be
// (LimitBand).
//
// It refuses, by field, what the rig cannot sever and copper or brass without a
// calibration of their own. Low and High follow from how far Most may be off
// (severBand); neither is above the hand's limit, nor High above Most.
func ComputePlan(in PlanInput) (PlanResult, error) {
	if err := checkMetal(in); err != nil {
		return PlanResult{}, err
	}
	path := in.Path()
	res := PlanResult{Path: path, Band: in.LimitBand()}
	res.Limits = res.Band.About
	res.Grade, res.Settled = res.Band.GradeOf(path)
	if path > res.Limits.Sever {
		return PlanResult{}, in.tooThick(res)
	}
	tip, current := in.setting(path)
	res.Tip, res.Arc = tip, in.Rig.arc(tip, current)
	res.Change = in.Rig.Fitted > 0 && in.Rig.Fitted != tip.Rated
	res.Pressure, _ = in.Rig.Gas.At(tip, current)
	res.Most = in.sever(tip, current, path)
	res.Speed = recommend(res.Most, in.Scatter)
	if res.Speed > in.HandLimit {
		res.Speed, res.Capped = in.HandLimit, true
	}
	least, most := in.severBand(tip.Rated, current, path, res.Most)
	res.Off = unit.Ratio(max(most/res.Most, res.Most/max(least, res.Most/100)))
	recommended, reach := recommend(1, in.Scatter), max(in.HandLimit, res.Speed)
	res.Low, res.High = min(recommended*least, reach), min(recommended*most, res.Most, reach)
	res.Pace = unit.Pace(1 / float64(res.Speed))
	res.Heat = unit.LineEnergy(float64(res.Arc.Power()) / float64(res.Speed))
	res.Kerf = in.Kerf
	if res.Kerf == 0 {
		res.Kerf = KerfWidth(tip.Orifice)
	}
	res.Pierce = in.Pierce && path <= res.Band.Least.Pierce
	return res, nil
}

// Path is the metal along the torch.
func (in PlanInput) Path() unit.Length {
	return unit.Length(float64(in.Layers) * float64(in.Thickness) / math.Cos(float64(in.Angle)))
}

func (in PlanInput) sever(t Tip, i unit.Current, path unit.Length) unit.Speed {
	return in.Balance.Sever(in.Metal, in.Alloy, in.Rig.arc(t, i), path)
}

// limits are those of the rig's strongest setting.
func (in PlanInput) limits() Limits {
	tip, current := in.Rig.full()
	arc := in.Rig.arc(tip, current)
	atClean := in.Bounds.Clean * unit.Speed(1+quantile95*float64(in.Scatter))
	clean := in.Balance.Depth(in.Metal, in.Alloy, arc, atClean)
	sever := min(in.Balance.Depth(in.Metal, in.Alloy, arc, in.Bounds.Sever), clean*unit.Length(in.Bounds.SeverShare))
	return Limits{Clean: min(clean, sever), Sever: sever, Pierce: min(clean*unit.Length(in.Bounds.PierceShare), sever)}
}

// setting chooses tip and current; see ComputePlan.
func (in PlanInput) setting(path unit.Length) (Tip, unit.Current) {
	order := make([]Tip, 0, len(in.Rig.Tips)+1)
	for _, t := range in.Rig.Tips {
		if t.Rated == in.Rig.Fitted {
			order = append(order, t)
		}
	}
	for _, t := range append(order, in.Rig.Tips...) {
		low, high, ok := in.Rig.span(t)
		if !ok || recommend(in.sever(t, high, path), in.Scatter) < in.Bounds.Brisk {
			continue
		}
		if recommend(in.sever(t, low, path), in.Scatter) >= in.Bounds.Brisk {
			high = low
		}
		for high-low > 1e-6*high {
			if mid := (low + high) / 2; recommend(in.sever(t, mid, path), in.Scatter) >= in.Bounds.Brisk {
				high = mid
			} else {
				low = mid
			}
		}
		_, top, _ := in.Rig.span(t)
		return t, min(unit.Current(math.Ceil(float64(high)-1e-4)), top) // panels are set by the ampere
	}
	return in.Rig.full()
}

func checkMetal(in PlanInput) error {
	if (in.Metal == material.Copper || in.Metal == material.Brass) && !in.Calibrated {
		return problem.Newf(problem.Refused, "metal", "%s carries heat away fast: no figure here can be trusted before you have cut some with this rig", in.Metal).
			WithHint("Cut strips of scrap at full current until one severs. Trial strips make a calibration of them: enter that. A green flame at the tip means that copper of the torch is burning: stop.")
	}
	return nil
}

// tooThick says by how much, and what to do instead.
func (in PlanInput) tooThick(res PlanResult) error {
	tip, current := in.Rig.full()
	name := "mm"
	if in.System == unit.US {
		name = "in"
	}
	what := unit.In(res.Path, name)
	if res.Path != in.Thickness {
		what += " along the torch"
	}
	hint := fmt.Sprintf("It cuts clean up to %s with the %s tip; for more, take a larger machine, oxyfuel or a saw.", res.Band.say(CleanLimit, name), unit.In(tip.Rated, "A"))
	if !res.Settled {
		hint += " A trial strip settles whether it severs after all."
	}
	return problem.New(problem.Refused, "thickness",
		fmt.Sprintf("Will not cut %s: that is more than this rig severs, %s at %s", what, res.Band.say(SeverLimit, name), unit.In(current, "A")), hint)
}
