package life

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mathext"

	"kerfside/calc/problem"
)

// PartLifeInput is a part in the torch, the crew's history of such parts, and what
// is asked of it.
type PartLifeInput struct {
	Slot  string
	Lives []Part // the part itself may be among them
	Age   Use
	Job   Use // what it shall last; none to ask about its life alone
	Seen  Seen
}

// How a part's life was told.
const (
	Assumed   = "assumed"       // nothing failed yet
	ShapeOnly = "shape assumed" // one or two failures, or none that tell a spread
	Weak      = "weak"          // three or four
	Few       = "few"           // five to nine
	Enough    = "enough"        // ten and more
)

// PartLifeResult is what is known of the part's life. Lives are in equivalent minutes.
type PartLifeResult struct {
	Model        *Model // of the sort of work that was asked about
	How          string
	Lasts        Chance
	Asked        bool
	Typical, B10 Told // of new parts of the crew

	Least     float64  // no failure: half of such parts last at least this; else 0
	Left      Told     // what this part has left
	MeanLeft  float64  // by the fit; 0 without one
	Fit       *Weibull // of three failures and more, at Model.PerStart; nil without one
	Shape     Interval // of Fit, by the likelihood ratio
	Assumed   Weibayes // at the shape that is assumed
	StartTold bool     // the history says something of what a start counts as
	Effects   []Effect
}

// Told is a life and the range that goes with it.
type Told struct {
	At float64
	Interval
}

// ComputePartLife tells how long a part lasts. What is shown depends on how many
// failures there are (NIST/SEMATECH e-Handbook 8.4.1: likelihood is preferred except
// with very sparse failures):
//
//	0        the least that such parts last, and the chance by what is assumed
//	1 or 2   life with the shape assumed; no shape
//	3 or 4   the same; the shape with its range, as too few to tell
//	5 to 9   life by maximum likelihood and likelihood ratio, its shape being biased
//	10 …     the same
//
// The chance that this part lasts is always that of the posterior, with all doubt.
func ComputePartLife(in PartLifeInput) (PartLifeResult, error) {
	if in.Age.Minutes < 0 || in.Age.Starts < 0 || in.Job.Minutes < 0 || in.Job.Starts < 0 {
		return PartLifeResult{}, problem.New(problem.Range, "minutes", "a use is below nothing", "Enter arc time and starts, or nothing for a new part.")
	}
	prior := PriorOf(in.Slot)
	all := Learn(Others(in.Lives, in.Age), prior)
	res := PartLifeResult{Model: all.On(in.Seen), Asked: in.Job != (Use{}), How: Assumed}
	res.Lasts = res.Model.Lasts(in.Age, in.Job)
	res.Left = res.Model.Fitted(in.Age).told()
	res.Effects = all.Effects()
	start := all.PerStartRange()
	res.StartTold = prior.PerStartSpread > 0 && math.Log(start.High/start.Low) < 0.7*2*1.96*prior.PerStartSpread

	lives := all.lives(in.Lives)
	res.Assumed = NewWeibayes(lives, prior.Shape)
	var err error
	if all.Failures >= 3 {
		res.Fit, err = Fit(lives)
	}
	switch {
	case errors.Is(err, ErrLongest):
		res.How = ShapeOnly
	case err != nil:
		return PartLifeResult{}, err
	case all.Failures >= 10:
		res.How = Enough
	case all.Failures >= 5:
		res.How = Few
	case all.Failures >= 3:
		res.How = Weak
	case all.Failures >= 1:
		res.How = ShapeOnly
	}
	if res.Fit != nil {
		res.Shape = res.Fit.RatioShape(0.95)
	}
	res.tell(all, lives, in.Age)
	return res, nil
}

// lives are the parts that the model was made of, in equivalent minutes.
func (m *Model) lives(parts []Part) []Life {
	var list []Life
	for _, p := range parts {
		if t := m.Equivalent(p.Use); t > 0 && (p.Slot == "" || p.Slot == m.Prior.Slot) {
			list = append(list, Life{T: t, Failed: p.Failed})
		}
	}
	return list
}

// tell fills in the lives of the crew's parts.
func (r *PartLifeResult) tell(all *Model, lives []Life, age Use) {
	switch r.How {
	case Assumed:
		fitted := all.Fitted(Use{})
		r.Typical = fitted.told()
		r.B10 = Told{At: fitted.gone(0.1)}
		if len(lives) > 0 {
			r.Least = math.Inf(1)
			for _, shape := range []float64{1, 2, 3, 4} { // nobody knows it: the least of all
				w := NewWeibayes(lives, shape)
				r.Least = min(r.Least, w.At(0.5, w.Lower(0.95)))
			}
		}
	case ShapeOnly, Weak:
		w := r.Assumed
		at := func(p float64) Told {
			return Told{At: w.At(p, w.Scale()), Interval: Interval{Low: w.At(p, w.Lower(0.975)), High: w.At(p, w.Upper(0.975))}}
		}
		r.Typical, r.B10 = at(0.5), at(0.1)
	default:
		at := func(p float64) Told {
			in := r.Fit.RatioQuantile(p, 0.95)
			if in.Low == 0 || math.IsInf(in.High, 1) {
				in = r.Fit.WaldQuantile(p, 0.95)
			}
			return Told{At: r.Fit.Quantile(p), Interval: in}
		}
		r.Typical, r.B10 = at(0.5), at(0.1)
		r.MeanLeft = r.Fit.MeanLeft(all.Equivalent(age))
	}
}

// MeanLeft is the mean of what parts of that age have left:
//
//	∫ S(t) dt / S(age) = e·Γ(1 + 1/b)·Q(1/b, z)·exp(z),  z = (age/e)^b
func (w *Weibull) MeanLeft(age float64) float64 {
	z := math.Exp(w.Shape * math.Log(age/w.Scale))
	if z > 500 {
		return w.Scale / w.Shape * math.Pow(z, 1/w.Shape-1) // the first term of Q's asymptotic series
	}
	return w.Mean() * mathext.GammaIncRegComp(1/w.Shape, z) * math.Exp(z)
}

// told is what half of such parts have left, and what 8 in 10 have.
func (f *Fitted) told() Told {
	return Told{At: f.gone(0.5), Interval: Interval{Low: f.gone(0.1), High: f.gone(0.9)}}
}

// gone is by how many arc minutes from now so large a share of such parts is gone: not
// before that share by the shortest law is, nor after that by the longest.
func (f *Fitted) gone(share float64) float64 {
	const never, least, apart = 1e9, 1e-9, 1e-9
	low, high := never, least
	for _, l := range f.laws {
		left := f.left(l, -math.Log1p(-share))
		low, high = min(low, left), max(high, left)
	}
	below := func(ln float64) float64 {
		sum := 0.0
		for _, l := range f.laws {
			sum += l.Weight * l.fails(f.age.Equivalent(l.PerStart), math.Exp(ln))
		}
		return sum - share
	}
	lnLow, lnHigh := math.Log(max(low, least))-apart, math.Log(min(high, never))+apart
	if below(lnHigh) < 0 {
		return never
	}
	return math.Exp(rootWithin(below, lnLow, lnHigh, apart))
}
