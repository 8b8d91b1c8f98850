package life

import "math"

// Law is a Weibull law of the lives of a part, in equivalent minutes:
//
//	P(life > t) = exp(−(t/Scale)^Shape)
type Law struct {
	Shape, Scale float64
	PerStart     float64 // minutes that a start counts as
	Weight       float64 // its share of Laws
}

// Laws are the laws that a part's lives may follow, as far as its history tells.
// Their weights add up to 1: the doubt of the parameters is in them, and one of
// them holds for all parts of a job.
type Laws []Law

// Mean is the mean life of a new part.
func (l Law) Mean() float64 { return l.Scale * math.Gamma(1+1/l.Shape) }

// used is (t/Scale)^Shape, the cumulative hazard.
func (l Law) used(t float64) float64 { return math.Exp(l.Shape * math.Log(t/l.Scale)) }

// fails is the chance that a part of that age fails within the next t.
func (l Law) fails(age, t float64) float64 {
	if t <= 0 {
		return 0
	}
	return -math.Expm1(l.used(age) - l.used(age+t))
}

// Reaches is how many times such a use a new part takes before so large a share of
// all parts is gone.
func (ls Laws) Reaches(share float64, use Use) float64 {
	gone := func(times float64) float64 {
		sum := 0.0
		for _, l := range ls {
			sum += l.Weight * l.fails(0, times*use.Equivalent(l.PerStart))
		}
		return sum
	}
	high := 1.0
	for gone(high) < share && high < 1e12 {
		high *= 2
	}
	low := 0.0
	for range 60 {
		if mid := (low + high) / 2; gone(mid) < share {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// laws returns the laws of aged cells. Within a cell g = (scale/mid)^−shape is
// Gamma-distributed with shape a and mean 1, its logarithm y with density
// ∝ exp(a(y − e^y)), here held against its greatest. Laws stand at even steps of y: such a sum is exact but for
// e^(−π²/h) of a step h, and worse than 1e-4 for none taken here.
func laws(aged []cell) Laws {
	const (
		least   = 1e-4 // what is less likely, held against the middle, is left out
		forever = 6    // lives e⁶ times the middle are as good as any longer ones
	)
	list := make(Laws, 0, 16*len(aged))
	for _, c := range aged {
		h := min(0.9/math.Sqrt(c.a), 0.8)
		first, sum := len(list), 0.0
		put := func(scale, density float64) {
			sum += density
			list = append(list, Law{Shape: c.shape, Scale: scale, PerStart: c.perStart, Weight: c.weight * density})
		}
		for _, step := range []float64{h, -h} {
			y, ey, scale, d := 0.0, 1.0, c.mid, 1.0 // at the middle, once
			up, longer := math.Exp(step), math.Exp(-step/c.shape)
			if step > 0 {
				put(scale, d)
			}
			for {
				y, ey, scale = y+step, ey*up, scale*longer
				d = math.Exp(c.a * (y + 1 - ey))
				if d <= least {
					break
				}
				if y < -forever*c.shape {
					put(scale, d/-math.Expm1(-c.a*h)) // and all beyond, which falls by e^(−a·h) a step
					break
				}
				put(scale, d)
			}
		}
		for i := range list[first:] {
			list[first+i].Weight /= sum
		}
	}
	return list
}
