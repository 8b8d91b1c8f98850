package life

import (
	"math"

	"gonum.org/v1/gonum/mathext"

	"kerfside/calc/chance"
)

// Interval is where a figure lies with some confidence.
type Interval struct{ Low, High float64 }

// Wald intervals go by the covariance, on the logarithm: x·exp(± z·se).

// WaldShape is the interval of the shape.
func (w *Weibull) WaldShape(confidence float64) Interval {
	return wald(w.Shape, w.VarShape, confidence)
}

// WaldScale is the interval of the scale.
func (w *Weibull) WaldScale(confidence float64) Interval {
	return wald(w.Scale, w.VarScale, confidence)
}

// WaldQuantile is the interval of the life by which the share p is gone:
// ln t = m + s·k with k = ln(−ln(1 − p)), so var = Vm + (s·k)² Vs + 2 s·k Cov.
func (w *Weibull) WaldQuantile(p, confidence float64) Interval {
	k := math.Log(-math.Log1p(-p)) / w.Shape
	return wald(w.Quantile(p), w.VarScale+k*k*w.VarShape+2*k*w.Cov, confidence)
}

func wald(x, variance, confidence float64) Interval {
	half := math.Exp(chance.NormalQuantile(0.5+confidence/2) * math.Sqrt(variance))
	return Interval{Low: x / half, High: x * half}
}

// Likelihood-ratio intervals hold all values whose best likelihood is within half
// of a χ² quantile, with one degree of freedom, of the greatest. The likelihood is
// concave in 1/s and m/s, and what is asked of here is a line through these, so
// that all such values lie between two ends. An end that is not found is 0 or +Inf.

// RatioShape is the interval of the shape.
func (w *Weibull) RatioShape(confidence float64) Interval {
	r := float64(w.Failures)
	return w.ratio(math.Log(w.Shape), math.Sqrt(w.VarShape), confidence, func(lnB float64) float64 {
		b := math.Exp(lnB)
		s, _, _ := w.powers(b, 0)
		return w.logL(b, math.Log(s/r)/b, 1)
	})
}

// RatioScale is the interval of the scale.
func (w *Weibull) RatioScale(confidence float64) Interval {
	return w.RatioQuantile(1-math.Exp(-1), confidence)
}

// RatioQuantile is the interval of the life by which the share p is gone.
func (w *Weibull) RatioQuantile(p, confidence float64) Interval {
	q, at := -math.Log1p(-p), w.Quantile(p)
	k := math.Log(q) / w.Shape
	se := math.Sqrt(w.VarScale + k*k*w.VarShape + 2*k*w.Cov)
	in := w.ratio(math.Log(at/w.longest), se, confidence, func(lnAt float64) float64 { return w.best(lnAt, q) })
	return Interval{Low: in.Low * w.longest, High: in.High * w.longest}
}

// ratio goes out from the best ln x in steps of about its standard error.
func (w *Weibull) ratio(best, se, confidence float64, profile func(float64) float64) Interval {
	drop := mathext.GammaIncRegInv(0.5, confidence) // half of the χ² quantile
	above := func(lnX float64) float64 { return profile(lnX) - w.LogL + drop }
	in := Interval{Low: 0, High: math.Inf(1)}
	if !(se > 1e-12 && se < 1e3) {
		se = 1
	}
	if low, ok := leave(above, best, -se, 700); ok {
		in.Low = math.Exp(low)
	}
	if high, ok := leave(above, best, se, 700); ok {
		in.High = math.Exp(high)
	}
	return in
}

// best is the greatest likelihood over the shape where −ln S is q at e^lnAt of the
// longest time: concave in the shape, so its slope
//
//	r/b + Σ d ln(t/at) − q Σ (t/at)^b ln(t/at)
//
// falls through nothing once.
func (w *Weibull) best(lnAt, q float64) float64 {
	r := float64(w.Failures)
	slope := func(b float64) (f, df float64) {
		_, sx, sxx := w.powers(b, lnAt)
		return r/b + w.sum - r*lnAt - q*sx, -r/(b*b) - q*sxx
	}
	b, low, high := w.Shape, 0.0, math.Inf(1)
	for range 200 {
		f, df := slope(b)
		if math.IsNaN(f) || math.IsInf(f, 0) {
			f = -1
		}
		if f > 0 {
			low = b
		} else {
			high = b
		}
		next := b - f/df
		if !(next > low && next < high) {
			next = low + (high-low)/2
			if math.IsInf(high, 1) {
				next = 2 * b
			}
		}
		if math.Abs(next-b) <= 1e-12*b {
			break
		}
		b = next
	}
	return w.logL(b, lnAt, q)
}
