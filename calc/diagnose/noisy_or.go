package diagnose

// Net is a noisy-OR network: causes above, findings below.
type Net struct {
	Priors []float64 // chance of each cause before anything is seen, 0 < p < 1
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
// the most. Four and more have less than one in a thousand before anything is
// seen, and no chance is wrong by more than the share of the answers that they
// would explain; on the stories of testdata/diagnose that moves no chance by as
// much as .01 from the exact one, which tests reckon by Heckerman's way.
const maxTogether = 3

// Posterior is what is known after some answers.
type Posterior struct {
	Cause    []float64 // chance that each cause is present
	None     float64   // chance that none is
	Evidence float64   // chance of the answers, up to the bound

	sets []set
	net  *Net
}

// set is one set of causes and its weight given the answers, summing to 1.
type set struct {
	causes [maxTogether]int
	n      int
	weight float64
}

// Posterior enumerates every set of at most maxTogether causes:
//
//	P(S | e) ∝ ∏_{c∈S} p_c/(1−p_c) · ∏_f P(e_f | S)
//	P(f yes | S) = 1 − (1 − leak_f)·∏_{c∈S} (1 − p_cf)
//
// Exact but for sets of more causes, which are left out. Source: Pearl 1988.
func (n *Net) Posterior(answers []Answer) Posterior {
	misses := n.misses()
	e := enumeration{net: n, odds: make([]float64, len(n.Priors)), sets: make([]set, 0, 1+len(n.Priors)*len(n.Priors)*len(n.Priors)/6)}
	for c, p := range n.Priors {
		e.odds[c] = p / (1 - p)
	}
	e.misses = make([][]float64, len(n.Priors))
	start, weight := []float64{}, 1.0
	for f, answer := range answers {
		switch answer {
		case Yes:
			for c, miss := range misses[f] {
				e.misses[c] = append(e.misses[c], miss)
			}
			start = append(start, 1-n.Leaks[f])
		case No:
			// The chance of a no is a product over the causes that are present,
			// so it moves into their odds and needs no further look.
			weight *= 1 - n.Leaks[f]
			for c, miss := range misses[f] {
				e.odds[c] *= miss
			}
		}
	}
	e.grow(set{weight: weight}, 0, start)
	return e.finish()
}

// enumeration walks through the sets of causes.
type enumeration struct {
	net    *Net
	odds   []float64   // of each cause, given all that does not show
	misses [][]float64 // by cause, then by finding that shows
	sets   []set
	total  float64
}

// grow adds the set s and all that hold it and later causes. s.weight comes in
// as the product of its causes' odds; nos is the chance of no for each finding
// that shows, given s.
func (e *enumeration) grow(s set, from int, nos []float64) {
	odds := s.weight
	for _, no := range nos {
		s.weight *= 1 - no
	}
	e.add(s)
	next := make([]float64, len(nos))
	for c := from; c < len(e.net.Priors); c++ {
		larger := s
		larger.causes[larger.n] = c
		larger.n++
		larger.weight = odds * e.odds[c]
		misses := e.misses[c][:len(nos)]
		if larger.n == maxTogether { // nine sets in ten end here: nothing is kept for larger ones
			for k, no := range nos {
				larger.weight *= 1 - no*misses[k]
			}
			e.add(larger)
			continue
		}
		for k, no := range nos {
			next[k] = no * misses[k]
		}
		e.grow(larger, c+1, next)
	}
}

func (e *enumeration) add(s set) {
	e.total += s.weight
	e.sets = append(e.sets, s)
}

// hardly is the share of the whole under which a set is passed over when
// checks are weighed; together such sets have less than 6·10⁻⁵.
const hardly = 1e-8

// finish scales the weights and sums the causes.
func (e *enumeration) finish() Posterior {
	post := Posterior{Cause: make([]float64, len(e.net.Priors)), Evidence: e.total, net: e.net}
	for _, p := range e.net.Priors {
		post.Evidence *= 1 - p
	}
	for _, s := range e.sets {
		s.weight = ratio(s.weight, e.total)
		if s.n == 0 {
			post.None = s.weight
		}
		for _, c := range s.causes[:s.n] {
			post.Cause[c] += s.weight
		}
		if s.weight > hardly {
			post.sets = append(post.sets, s)
		}
	}
	return post
}

// misses[f][c] is the chance that cause c does not show finding f by itself.
func (n *Net) misses() [][]float64 {
	m := make([][]float64, len(n.Leaks))
	for f := range m {
		m[f] = make([]float64, len(n.Priors))
		for c := range m[f] {
			m[f][c] = 1
		}
	}
	for _, l := range n.Links {
		m[l.Finding][l.Cause] *= 1 - l.P
	}
	return m
}

// Split returns the chance that a finding will turn out yes, and each cause's
// chance in both cases.
func (p Posterior) Split(finding int) (yes float64, ifYes, ifNo []float64) {
	ifYes, ifNo = make([]float64, len(p.Cause)), make([]float64, len(p.Cause))
	miss := make([]float64, len(p.Cause))
	for c := range miss {
		miss[c] = 1
	}
	for _, l := range p.net.Links {
		if l.Finding == finding {
			miss[l.Cause] *= 1 - l.P
		}
	}
	for _, s := range p.sets {
		no := 1 - p.net.Leaks[finding]
		for _, c := range s.causes[:s.n] {
			no *= miss[c]
		}
		yes += s.weight * (1 - no)
		for _, c := range s.causes[:s.n] {
			ifYes[c] += s.weight * (1 - no)
			ifNo[c] += s.weight * no
		}
	}
	for c := range ifYes {
		ifYes[c], ifNo[c] = ratio(ifYes[c], yes), ratio(ifNo[c], 1-yes)
	}
	return yes, ifYes, ifNo
}

func ratio(part, whole float64) float64 {
	if whole <= 0 {
		return 0
	}
	return part / whole
}
