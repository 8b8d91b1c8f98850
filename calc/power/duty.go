package power

import (
	"cmp"
	"math"
	"slices"

	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// ratedHeat is the temperature of the air at which a duty cycle is stated.
const ratedHeat unit.Temperature = 40 + 273.15

// cycle is the time that a duty cycle is counted in (IEC 60974-1).
const cycle = 10 * unit.Minute

// DutyPoint is one pair on a rating plate.
type DutyPoint struct {
	Current unit.Current
	Duty    unit.Ratio
}

// Plate is the duty cycle that a rating plate states at one to three currents.
type Plate []DutyPoint

// Check returns the points in rising order of current, or what is wrong with
// them.
func (p Plate) Check() (Plate, error) {
	wrong := func(format string, args ...any) (Plate, error) {
		return nil, problem.Newf(problem.Conflict, "points", format, args...).WithHint("Copy one to three pairs from the plate, such as 40A:50%%,30A:100%%.")
	}
	if len(p) == 0 || len(p) > 3 {
		return wrong("%s of current and duty cycle", unit.Count(len(p), "pair", "pairs"))
	}
	sorted := slices.Clone(p)
	order.Sort(sorted, func(a, b DutyPoint) int { return cmp.Compare(a.Current, b.Current) })
	for i, q := range sorted {
		switch {
		case q.Current < 5 || q.Current > 400:
			return wrong("%g A is no cutting current", float64(q.Current))
		case q.Duty < unit.Percent || q.Duty > 1:
			return wrong("%g %% is no duty cycle", 100*float64(q.Duty))
		case i > 0 && q.Current == sorted[i-1].Current:
			return wrong("%g A stands there twice", float64(q.Current))
		case i > 0 && q.Duty > sorted[i-1].Duty:
			return wrong("the duty cycle at %g A is larger than at %g A", float64(q.Current), float64(sorted[i-1].Current))
		}
	}
	return sorted, nil
}

// Duty returns the share of ten minutes that the arc may burn at a current, in
// air of at most 40 °C. The plate is one that Check returned.
//
//	between two points   ln X on a straight line in ln I
//	below the lowest     X = X1·(I1/I)², the same heat I²·X, capped at 1
//
// Above the highest current of the plate it refuses: there the rule would
// promise what no part was built for. Source: IEC 60974-1 for the ten minutes
// and 40 °C, from memory; NEC table 630.11(A) for the rule of equal heat, which
// its factors follow.
func (p Plate) Duty(i unit.Current) (unit.Ratio, error) {
	x, err := p.heat(i)
	return min(x, 1), err
}

// heat is Duty without the cap, for air that leaves less than all of it.
func (p Plate) heat(i unit.Current) (unit.Ratio, error) {
	top := p[len(p)-1]
	if i > top.Current*(1+1e-12) {
		return 0, problem.Newf(problem.Refused, "current", "%g A is above the %g A that the plate is rated for", float64(i), float64(top.Current)).
			WithHint("Stay at or below the plate's largest current: the duty cycle says nothing above it.")
	}
	if i <= p[0].Current {
		ratio := unit.Ratio(p[0].Current / i)
		return p[0].Duty * ratio * ratio, nil
	}
	k := 1
	for k < len(p)-1 && i > p[k].Current {
		k++
	}
	a, b := p[k-1], p[k]
	share := math.Log(float64(i/a.Current)) / math.Log(float64(b.Current/a.Current))
	return unit.Ratio(math.Exp(math.Log(float64(a.Duty)) + share*math.Log(float64(b.Duty/a.Duty)))), nil
}

// Largest returns the largest current at which the arc may burn for at least
// that share of ten minutes, while only a share of the allowed heat is left.
func (p Plate) Largest(duty, heat unit.Ratio) unit.Current {
	first, top := p[0], p[len(p)-1]
	low := first.Current * unit.Current(math.Sqrt(float64(first.Duty*heat/duty))) // by equal heat
	if low < first.Current {
		return low
	}
	low, high := first.Current, top.Current
	if top.Duty*heat >= duty*(1-1e-12) {
		return high
	}
	for range 100 {
		mid := (low + high) / 2
		if x, err := p.heat(mid); err == nil && x*heat >= duty {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// Today returns Duty in air of any temperature up to limit, at which the
// machine's guard opens: the cap comes after the heat of the day.
func (p Plate) Today(i unit.Current, air, limit unit.Temperature) (unit.Ratio, error) {
	x, err := p.heat(i)
	return min(x*HeatShare(air, limit), 1), err
}

// UsualGuard is the temperature at which a machine's guard opens where nothing
// else is known (common practice, no published source).
const UsualGuard unit.Temperature = 90 + 273.15

// HeatShare returns what is left of the allowed heat in air of temperature t.
//
//	(limit − t)/(limit − 40 °C) above 40 °C, 1 below: no credit for cold air
//
// limit is the temperature at which the machine's guard opens; that heat grows
// as the rise is a common reckoning, and the limit a judgement.
func HeatShare(t, limit unit.Temperature) unit.Ratio {
	if t <= ratedHeat {
		return 1
	}
	return max(unit.Ratio((limit-t)/(limit-ratedHeat)), 0)
}

// Rhythm tells a duty cycle as a hand keeps it: cut so long, then wait so long,
// in ten minutes. The arc's share is rounded down, to whole minutes or to half
// ones under two; less than half a minute stays as it is.
func Rhythm(duty unit.Ratio) (on, rest unit.Duration) {
	on = cycle * unit.Duration(duty)
	step := unit.Minute
	if on < 2*unit.Minute {
		step /= 2
	}
	if on >= step {
		on = unit.Duration(math.Floor(float64(on/step)*(1+1e-12))) * step
	}
	return on, cycle - on
}

// DutyInput is a plate, a current and the heat of the day.
type DutyInput struct {
	Plate  Plate // as Check returns it
	Want   unit.Current
	Air    unit.Temperature
	Limit  unit.Temperature // see HeatShare
	Wanted unit.Ratio       // duty that is asked a current for; 0 if not asked
}

// DutyResult is how long the arc may burn.
type DutyResult struct {
	ByPlate    unit.Ratio // at 40 °C
	Heat       unit.Ratio // HeatShare
	Duty       unit.Ratio // today
	On, Rest   unit.Duration
	Continuous unit.Current // largest that may burn without a rest, today
	ForWanted  unit.Current // largest for Wanted, today; 0 if not asked
}

// ComputeDuty returns the minutes in ten that the arc may burn.
//
//	X = min(1, Plate.Duty(I) before its cap × HeatShare)     on = 10 min × X     rest = 10 min − on
func ComputeDuty(in DutyInput) (DutyResult, error) {
	byPlate, err := in.Plate.Duty(in.Want)
	if err != nil {
		return DutyResult{}, err
	}
	res := DutyResult{ByPlate: byPlate, Heat: HeatShare(in.Air, in.Limit)}
	if res.Heat <= 0 {
		return DutyResult{}, problem.New(problem.Refused, "temperature", "the air is as hot as the machine's guard", "Let the machine stand in the shade, with its vents free.")
	}
	res.Duty, err = in.Plate.Today(in.Want, in.Air, in.Limit)
	if err != nil {
		return DutyResult{}, err
	}
	res.On = cycle * unit.Duration(res.Duty)
	res.Rest = cycle - res.On
	res.Continuous = in.Plate.Largest(1, res.Heat)
	if in.Wanted > 0 {
		res.ForWanted = in.Plate.Largest(in.Wanted, res.Heat)
	}
	return res, nil
}
