package diagnose

// Net is a noisy-OR network: causes above, findings below.
type Net struct {
	Priors []float64 // chance of each cause before anything is seen, 0 ≤ p < 1
	Leaks  []float64 // chance of each finding without any cause
	Links  []Link
}

// Link says that a cause, when present, shows a finding with chance P by
// itself, beyond the leak.
type Link struct {
	Cause, Finding int
	P              float64
}

// Answer of a finding.
type Answer int

const (
	Unknown Answer = iota
	Yes
	No
)

// maxTogether is how many causes are taken to be present at the same time at
// the most. No chance is wrong by more than the share of the answers that four
// and more would explain; on the stories of testdata/diagnose that moves no
// chance by as much as .02 from the exact one, which tests reckon by Heckerman's
// way.
const maxTogether = 3

// Posterior is what is known after some answers.
type Posterior struct {
	Cause    []float64 // chance that each cause is present
	None     float64   // chance that none is
	Evidence float64   // chance of the answers, up to the bound
}

// Posterior enumerates every set of at most maxTogether causes:
//
//	P(S | e) ∝ ∏_{c∈S} p_c/(1−p_c) · ∏_f P(e_f | S)
//	P(f yes | S) = 1 − (1 − leak_f)·∏_{c∈S} (1 − p_cf)
//
// Exact but for sets of more causes, which are left out. With answers that
// cannot be, all chances are 0. Source: Pearl 1988.
func (n *Net) Posterior(answers []Answer) *Posterior {
	causes := len(n.Priors)
	e := n.given(answers)
	p := &Posterior{Cause: make([]float64, causes), None: e.chance(1, e.start)}
	total := p.None
	one, two := make([]float64, len(e.start)), make([]float64, len(e.start))
	for c := range causes {
		e.with(one, e.start, c)
		alone := e.chance(e.odds[c], one)
		total += alone
		p.Cause[c] += alone
		for d := c + 1; d < causes; d++ {
			odds := e.odds[c] * e.odds[d]
			e.with(two, one, d)
			both := e.chance(odds, two)
			for last := d + 1; last < causes; last++ {
				// Nine sets in ten end here, so their chance is worked out on
				// the spot.
				weight, misses := odds*e.odds[last], e.misses[last][:len(two)]
				for k, no := range two {
					weight *= 1 - no*misses[k]
				}
				p.Cause[last] += weight
				both += weight
			}
			p.Cause[c] += both
			p.Cause[d] += both
			total += both
		}
	}
	p.Evidence = total * e.off
	for _, prior := range n.Priors {
		p.Evidence *= 1 - prior
	}
	p.None = ratio(p.None, total)
	for c := range p.Cause {
		p.Cause[c] = ratio(p.Cause[c], total)
	}
	return p
}

// evidence is what the answers make of the sets of causes.
type evidence struct {
	odds   []float64   // of each cause, given all that does not show
	off    float64     // chance that nothing of that shows by itself
	start  []float64   // chance of no for each finding that shows, without any cause
	misses [][]float64 // by cause, then by finding that shows: chance that it does not show it
}

func (n *Net) given(answers []Answer) evidence {
	e := evidence{odds: make([]float64, len(n.Priors)), off: 1, misses: make([][]float64, len(n.Priors))}
	at := make([]int, len(answers)) // among the findings that show
	for f, answer := range answers {
		switch answer {
		case Yes:
			at[f] = len(e.start)
			e.start = append(e.start, 1-n.Leaks[f])
		case No:
			e.off *= 1 - n.Leaks[f]
		}
	}
	for c, prior := range n.Priors {
		e.odds[c] = prior / (1 - prior)
		e.misses[c] = make([]float64, len(e.start))
		for k := range e.misses[c] {
			e.misses[c][k] = 1
		}
	}
	for _, l := range n.Links {
		switch answers[l.Finding] {
		case Yes:
			e.misses[l.Cause][at[l.Finding]] *= 1 - l.P
		case No:
			// The chance of a no is a product over the causes that are present,
			// so it moves into their odds and needs no further look.
			e.odds[l.Cause] *= 1 - l.P
		}
	}
	return e
}

// with writes into nos the chances of no once the cause c joins those of before.
func (e *evidence) with(nos, before []float64, c int) {
	for k, no := range before {
		nos[k] = no * e.misses[c][k]
	}
}

// chance is the weight of a set: its odds and that everything shows that does.
func (e *evidence) chance(odds float64, nos []float64) float64 {
	for _, no := range nos {
		odds *= 1 - no
	}
	return odds
}

func ratio(part, whole float64) float64 {
	if whole <= 0 {
		return 0
	}
	return part / whole
}
