package cutting

import (
	"math"

	"kerfside/calc/chance"

	"kerfside/calc/unit"
)

// Verdict is what the metal said of a cut.
type Verdict string

const (
	TooSlow    Verdict = "too-slow"      // thick dross below that comes off easily, wide kerf
	Good       Verdict = "good"          // clean, sparks trailing a little
	TooFast    Verdict = "too-fast"      // severed, but thin hard bead below or ridge on top
	NotSevered Verdict = "did-not-sever" // melt came back
)

// Try is a cut at a known speed, with the speed that the balance had said would
// just sever at calibration 1.
type Try struct {
	Speed   unit.Speed
	Most    unit.Speed
	Verdict Verdict
}

// Learned is a rig's calibration as its cuts leave it.
type Learned struct {
	Factor    unit.Ratio // median
	Low, High unit.Ratio // nine times in ten between these
	Cuts      int
}

const priorOff = 1.36

// Where verdicts part, as shares of the speed that just severs, and how far a
// hand's mean speed strays from what it meant (standard deviation of the
// logarithm). The authors' judgement.
const (
	slowShare = 0.5
	fastShare = 0.9
	tryNoise  = 0.10
)

// Learn estimates the factor c between what a rig severs and what the balance
// says, from the verdicts on cuts.
//
//	ln c ~ N(0, ln 1.36)                                  before any cut
//	y = ln(speed / (c·most)) + e,   e ~ N(0, 0.10)        for each cut
//	too-slow: y < ln 0.5    good: ln 0.5 … ln 0.9    too-fast: ln 0.9 … 0
//	did-not-sever: y > 0
//
// The posterior is summed on a grid of ln c from −2 to 2 in steps of 1/400.
// priorOff, 1.36, is the typical misfit of the balance on the rows of tables 17-2
// and 17-3, which print their bores. With no cuts
// it returns 1 and the prior's range. A verdict is one interval of y, so a
// single did-not-sever has the probit posterior of Rasmussen and Williams,
// Gaussian Processes for Machine Learning (2006), section 3.9.
func Learn(tries []Try) Learned {
	const reach, step = 2.0, 1.0 / 400
	n := int(2*reach/step) + 1
	weights := make([]float64, n)
	log := func(i int) float64 {
		theta := -reach + float64(i)*step
		l := chance.NormalLogDensity(theta, 0, math.Log(priorOff))
		for _, t := range tries {
			l += math.Log(t.likelihood(theta) + 1e-12) // a slip of the finger must not rule anything out
		}
		return l
	}
	// Most of the grid weighs nothing. It is looked over in steps of a fifth of a hand's
	// scatter first; between two of them that weigh less than e^−80 of the best nothing stands out, for
	// no try changes within less than the scatter.
	const apart = int(tryNoise / 5 / step)
	best := math.Inf(-1)
	coarse := make([]float64, 0, n/apart+1)
	for i := 0; i < n; i += apart {
		coarse = append(coarse, log(i))
		best = max(best, coarse[len(coarse)-1])
	}
	for i := range weights {
		at := i / apart
		if max(coarse[at], coarse[min(at+1, len(coarse)-1)]) < best-80 {
			weights[i] = math.Inf(-1)
			continue
		}
		weights[i] = log(i)
	}
	for _, l := range weights {
		best = max(best, l)
	}
	total := 0.0
	for i, l := range weights {
		weights[i] = math.Exp(l - best)
		total += weights[i]
	}
	quantile := func(p float64) unit.Ratio {
		sum := 0.0
		for i, w := range weights {
			if sum+w >= p*total {
				return unit.Ratio(math.Exp(-reach + (float64(i)-0.5+(p*total-sum)/w)*step))
			}
			sum += w
		}
		return unit.Ratio(math.Exp(reach))
	}
	return Learned{Factor: quantile(0.5), Low: quantile(0.05), High: quantile(0.95), Cuts: len(tries)}
}

// likelihood is the chance of the verdict if the rig's factor is exp(theta).
func (t Try) likelihood(theta float64) float64 {
	y := math.Log(float64(t.Speed/t.Most)) - theta
	below := func(edge float64) float64 { return chance.Normal((edge - y) / tryNoise) }
	slow, fast, severs := below(math.Log(slowShare)), below(math.Log(fastShare)), below(0)
	switch t.Verdict {
	case TooSlow:
		return slow
	case Good:
		return fast - slow
	case TooFast:
		return severs - fast
	}
	return 1 - severs
}

// about says a learned factor to the two figures that it is worth.
func about(r unit.Ratio) string { return unit.Figures(unit.Round(float64(r), 2), 2) }
