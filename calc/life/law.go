package life

import (
	"cmp"
	"math"

	"gonum.org/v1/gonum/mathext"

	"kerfside/calc/order"
)

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
func (l Law) used(t float64) float64 { return math.Pow(t/l.Scale, l.Shape) }

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

// strata are the shares of a cell's weight at which its rates are cut.
var strata = []float64{0, 0.02, 0.08, 0.2, 0.4, 0.65, 0.87, 0.97, 1}

// Laws returns the laws of a cell-wise Gamma posterior, shortest lives first. Each
// cell's rates are cut into strata, and two laws stand for a stratum, at its mean
// less and more its standard deviation.
//
//	E[x; x < q] = F(q; a+1),  E[x²; x < q] = (1 + 1/a)·F(q; a+2)      of x, Gamma-distributed with shape a and mean 1
func (f *Fitted) Laws() Laws {
	laws := make(Laws, 0, 2*len(f.cells)*len(strata))
	for _, c := range f.cells {
		below, square := 0.0, 0.0
		for i, share := range strata[1:] {
			upTo, squareTo := 1.0, 1.0
			if share < 1 {
				q := mathext.GammaIncRegInv(c.a, share)
				upTo, squareTo = mathext.GammaIncReg(c.a+1, q), mathext.GammaIncReg(c.a+2, q)
			}
			weight := share - strata[i]
			mean := (upTo - below) / weight
			off := math.Sqrt(max((1+1/c.a)*(squareTo-square)/weight-mean*mean, 0))
			below, square = upTo, squareTo
			for _, rate := range [...]float64{mean - off, mean + off} {
				laws = append(laws, Law{Shape: c.shape, Scale: c.mid * math.Pow(max(rate, 1e-12), -1/c.shape), PerStart: c.perStart, Weight: c.weight * weight / 2})
			}
		}
	}
	order.Stable(laws, func(a, b Law) int { return cmp.Compare(a.Scale, b.Scale) })
	return laws
}
