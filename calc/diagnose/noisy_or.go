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

	net  *Net
	sets []float64 // by place: chance that exactly these causes are present
	rows []int     // by c·n+d: the place of {c, d, 0}, if there were one
	both []float64 // by c·n+d: chance that c and d are present, whatever else is
}

// posterior returns one in which nothing has a chance yet. Its sets stand in the
// order of their causes, without room for those in another order, which would be
// five in six.
func (n *Net) posterior() *Posterior {
	causes := len(n.Priors)
	p := &Posterior{Cause: make([]float64, causes), net: n, both: make([]float64, causes*causes), rows: make([]int, causes*causes)}
	sets := 0
	for c := range causes {
		for d := c; d < causes; d++ {
			p.rows[c*causes+d] = sets - d
			sets += causes - d
		}
	}
	p.sets = make([]float64, sets)
	return p
}

// place is where the set {c, d, e} with c ≤ d ≤ e stands; a smaller set repeats
// its last cause.
func (p *Posterior) place(c, d, e int) int { return p.rows[c*len(p.Cause)+d] + e }

// row is where the sets of c and d with a last cause from d on stand.
func (p *Posterior) row(c, d int) []float64 {
	return p.sets[p.place(c, d, d) : p.place(c, d, len(p.Cause)-1)+1]
}

// Posterior enumerates every set of at most maxTogether causes:
//
//	P(S | e) ∝ ∏_{c∈S} p_c/(1−p_c) · ∏_f P(e_f | S)
//	P(f yes | S) = 1 − (1 − leak_f)·∏_{c∈S} (1 − p_cf)
//
// Exact but for sets of more causes, which are left out. Source: Pearl 1988.
func (n *Net) Posterior(answers []Answer) *Posterior {
	causes := len(n.Priors)
	p := n.posterior()
	e := n.given(answers)
	p.None = e.chance(1, e.start)
	total := p.None
	one, two := make([]float64, len(e.start)), make([]float64, len(e.start))
	for c := range causes {
		e.with(one, e.start, c)
		weight := e.chance(e.odds[c], one)
		p.sets[p.place(c, c, c)] = weight
		total += weight
		for d := c + 1; d < causes; d++ {
			odds := e.odds[c] * e.odds[d]
			e.with(two, one, d)
			weight := e.chance(odds, two)
			row := p.row(c, d)
			row[0] = weight
			total += weight
			for last := d + 1; last < causes; last++ {
				// Nine sets in ten end here, so their chance is worked out on
				// the spot.
				weight, misses := odds*e.odds[last], e.misses[last][:len(two)]
				for k, no := range two {
					weight *= 1 - no*misses[k]
				}
				row[last-d] = weight
				total += weight
			}
		}
	}
	p.Evidence = total * e.off
	for _, prior := range n.Priors {
		p.Evidence *= 1 - prior
	}
	p.sum(total)
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

// sum scales the weights of the sets by their total and adds them up for each
// cause and each two causes. With a total of 0, from answers that cannot be, all
// stay 0.
func (p *Posterior) sum(total float64) {
	n := len(p.Cause)
	p.None = ratio(p.None, total)
	for c := range n {
		for d := c; d < n; d++ {
			row := p.row(c, d)
			two := 0.0
			for e := d; e < n; e++ {
				weight := ratio(row[e-d], total)
				row[e-d] = weight
				two += weight
				if c < d && d < e {
					p.both[c*n+e] += weight
					p.both[d*n+e] += weight
					p.Cause[e] += weight
				}
			}
			p.Cause[c] += two
			if c < d {
				p.Cause[d] += two
				p.both[c*n+d] += two
			}
		}
	}
	for c := range n {
		p.both[c*n+c] = p.Cause[c]
		for d := range c {
			p.both[c*n+d] = p.both[d*n+c]
		}
	}
}

// all returns the chance that three causes are present together, two or all of
// which may be the same.
func (p *Posterior) all(c, d, e int) float64 {
	c, d = min(c, d), max(c, d)
	d, e = min(d, e), max(d, e)
	c, d = min(c, d), max(c, d)
	switch {
	case c == d:
		return p.both[d*len(p.Cause)+e]
	case d == e:
		return p.both[c*len(p.Cause)+d]
	}
	return p.sets[p.place(c, d, e)]
}

// Split returns the chance that a finding will turn out yes, and each cause's
// chance in both cases. The product over the causes that are present is
// multiplied out, with q the chance that a cause shows the finding:
//
//	P(no, c) = (1 − leak)·[P(c) − Σ q_k·P(c,k) + Σ q_k·q_l·P(c,k,l) − …]
//
// which ends after the products of maxTogether causes and needs no walk through
// the sets.
func (p *Posterior) Split(finding int) (yes float64, ifYes, ifNo []float64) {
	n := len(p.Cause)
	ks, qs := p.net.showing(finding)
	ifYes, ifNo = make([]float64, n), make([]float64, n)
	no := 1.0
	copy(ifNo, p.Cause)
	for i, k := range ks {
		no -= qs[i] * p.Cause[k]
		for c := range ifNo {
			ifNo[c] -= qs[i] * p.both[k*n+c]
		}
		for j, l := range ks[:i] {
			q := qs[i] * qs[j]
			no += q * p.both[k*n+l]
			for c := range ifNo {
				ifNo[c] += q * p.all(c, k, l)
			}
			for h, m := range ks[:j] {
				three := q * qs[h] * p.all(k, l, m)
				no -= three
				ifNo[k] -= three
				ifNo[l] -= three
				ifNo[m] -= three
			}
		}
	}
	off := 1 - p.net.Leaks[finding]
	no *= off
	yes = 1 - no
	for c := range ifNo {
		ifYes[c], ifNo[c] = ratio(p.Cause[c]-off*ifNo[c], yes), ratio(off*ifNo[c], no)
	}
	return yes, ifYes, ifNo
}

// showing returns the causes that show a finding, and how often each does.
func (n *Net) showing(finding int) (causes []int, qs []float64) {
	for _, l := range n.Links {
		if l.Finding == finding {
			causes, qs = append(causes, l.Cause), append(qs, l.P)
		}
	}
	return causes, qs
}

func ratio(part, whole float64) float64 {
	if whole <= 0 {
		return 0
	}
	return part / whole
}
