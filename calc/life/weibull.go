package life

import (
	"math"

	"kerfside/calc/problem"
)

// Life is how long a part was used, in one measure, and whether it failed then.
type Life struct {
	T      float64
	Failed bool
}

// Weibull is the distribution that fits lives best, by maximum likelihood, with
// what is needed for its intervals.
type Weibull struct {
	Failures     int
	Shape, Scale float64
	LogL         float64 // with the terms −Σ ln t of the failures

	// Covariance of ln Scale and −ln Shape, from the observed information.
	VarScale, VarShape, Cov float64

	logs    []float64 // ln(t/longest)
	longest float64
	sum     float64 // of the logs of the failures
	logT    float64 // Σ ln t of the failures
}

// Why no distribution can be told.
var (
	ErrNoFailure = problem.New(problem.Refused, "lives", "no part has failed yet", "Until one wears out, only the least that they last can be told.")
	ErrLongest   = problem.New(problem.Refused, "lives", "every failure is at the longest time", "Their spread cannot be told. One more part, used longer than these, is enough.")
	ErrNoTime    = problem.New(problem.Range, "lives", "a life is nothing", "Give what it was used; half of what you count in if it failed at once.")
)

// Fit returns the Weibull distribution of greatest likelihood,
//
//	ln L = Σ d(ln b − b ln e + (b−1) ln t) − Σ (t/e)^b      d 1 for a failure, else 0
//
// It has the one shape b at which
//
//	Σ t^b ln t / Σ t^b − 1/b − Σ d ln t / Σ d = 0,  e = (Σ t^b / Σ d)^(1/b)
//
// whose left side rises with b (NIST/SEMATECH e-Handbook 8.4.1.2). There is none
// without a failure, nor where every failure is at the longest time of all: the
// likelihood then grows with b for ever.
func Fit(lives []Life) (*Weibull, error) {
	w := &Weibull{}
	for _, l := range lives {
		if !(l.T > 0) || math.IsInf(l.T, 0) {
			return nil, ErrNoTime
		}
		w.longest = max(w.longest, l.T)
	}
	equal := true
	for _, l := range lives {
		x := math.Log(l.T / w.longest)
		w.logs = append(w.logs, x)
		if l.Failed {
			w.Failures++
			w.sum += x
			w.logT += math.Log(l.T)
			equal = equal && l.T == w.longest
		}
	}
	switch {
	case w.Failures == 0:
		return nil, ErrNoFailure
	case equal:
		return nil, ErrLongest
	}
	r := float64(w.Failures)
	profile := func(lnB float64) float64 {
		b := math.Exp(lnB)
		s, sx, _ := w.powers(b, 0)
		return sx/s - 1/b - w.sum/r
	}
	low, high := math.Log(1e-6), math.Log(1e12)
	if profile(low) >= 0 || profile(high) <= 0 { // the failures differ by less than can be told
		return nil, ErrLongest
	}
	w.Shape = math.Exp(root(profile, low, high))
	s, _, _ := w.powers(w.Shape, 0)
	lnScale := math.Log(s/r) / w.Shape
	w.Scale = w.longest * math.Exp(lnScale)
	w.LogL = w.logL(w.Shape, lnScale, 1)
	w.inform(lnScale)
	return w, nil
}

// powers returns Σ (t/at)^b and that with ln(t/at) and its square as factors; at is
// e^lnAt of the longest time.
func (w *Weibull) powers(b, lnAt float64) (s, sx, sxx float64) {
	for _, x := range w.logs {
		x -= lnAt
		p := math.Exp(b * x)
		s, sx, sxx = s+p, sx+p*x, sxx+p*x*x
	}
	return s, sx, sxx
}

// logL is the likelihood of shape b where −ln S is q at e^lnAt of the longest time;
// q = 1 makes that the scale.
func (w *Weibull) logL(b, lnAt, q float64) float64 {
	r := float64(w.Failures)
	s, _, _ := w.powers(b, lnAt)
	return r*(math.Log(b)+math.Log(q)) + b*(w.sum-r*lnAt) - w.logT - q*s
}

// inform works out the covariance: the inverse of the observed information in
// m = ln e and ln s, s = 1/b, with z = (ln t − m)/s,
//
//	A = Σ e^z/s²,  B = Σ (z e^z + e^z − d)/s,  C = Σ (z² e^z + z e^z − d z)
func (w *Weibull) inform(lnScale float64) {
	b, r := w.Shape, float64(w.Failures)
	s, sx, sxx := w.powers(b, lnScale)
	a := s * b * b
	c := (b*sx + s - r) * b
	d := b*b*sxx + b*sx - b*(w.sum-r*lnScale)
	det := a*d - c*c
	w.VarScale, w.VarShape, w.Cov = d/det, a/det, -c/det
}

// Quantile is the life by which the share p is gone.
func (w *Weibull) Quantile(p float64) float64 {
	return w.Scale * math.Pow(-math.Log1p(-p), 1/w.Shape)
}

// Survival is the share that lasts t.
func (w *Weibull) Survival(t float64) float64 {
	return math.Exp(-math.Exp(w.Shape * math.Log(t/w.Scale)))
}

// Mean is the mean life, e·Γ(1 + 1/b).
func (w *Weibull) Mean() float64 { return w.Scale * math.Gamma(1+1/w.Shape) }

// Unbiased is the shape with the greater part of what few failures add to it taken
// off: b·(n − 2)/(n − 0.68) for n failures (Ross 1994), 3 and more. It is meant for
// samples that all failed.
func (w *Weibull) Unbiased() float64 {
	n := float64(w.Failures)
	return w.Shape * (n - 2) / (n - 0.68)
}
