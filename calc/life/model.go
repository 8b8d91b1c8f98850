package life

import (
	"cmp"
	"math"

	"gonum.org/v1/gonum/mathext"

	"kerfside/calc/chance"
	"kerfside/calc/order"
)

// Model is what prior and history together say about the lives of one sort of part.
// It is a mixture of cells, and never changes.
type Model struct {
	Prior    Prior
	Parts    int // of the history
	Failures int // of them

	design design
	peaks  []peak
	cells  []cell // what the peaks say of the sort of work that is asked about
}

// cell is one shape and one worth of a start, with the weight that prior and
// history give to them. Within it scale^−shape is Gamma-distributed with shape a
// and rate a·mid^shape, so that a new part's chance to last t is
//
//	R(t) = (1 + (t/mid)^shape / a)^−a
type cell struct {
	weight   float64 // all of a model's make 1
	shape    float64
	perStart float64
	a        float64
	mid      float64
}

// load is (t/mid)^shape.
func (c cell) load(t float64) float64 {
	if t <= 0 {
		return 0
	}
	return math.Exp(c.shape * math.Log(t/c.mid))
}

// wear is ln(1 + load/a) after t: a new part's chance to last so long is e^(−a·wear).
func (c cell) wear(t float64) float64 {
	if t <= 0 {
		return 0
	}
	x := c.shape*math.Log(t/c.mid) - math.Log(c.a)
	if x > 40 {
		return x
	}
	return math.Log1p(math.Exp(x))
}

// Learn returns the model of the parts of prior.Slot, the fitted one that will be
// asked about aside (see Others). Parts of no use at all tell nothing and are left
// out.
func Learn(parts []Part, prior Prior) *Model {
	l := newLearner(parts, prior)
	m := &Model{Prior: prior, Parts: len(l.parts), Failures: l.failures, design: l.design, peaks: l.peaks()}
	return m.On(Seen{})
}

// On returns the model of parts that work on and with that. What the history has
// not seen adds its doubt.
func (m *Model) On(s Seen) *Model {
	on := *m
	weights, unseen := m.design.of(s)
	on.cells = make([]cell, len(m.peaks))
	for i, p := range m.peaks {
		zeta, variance := p.along(weights)
		spread := p.shape * m.Prior.Groups
		c := cell{weight: math.Exp(p.logW), shape: p.shape, perStart: p.perStart}
		c.a = 1 / (variance + unseen*spread*spread)
		c.mid = m.Prior.Scale * math.Exp(zeta/p.shape)
		on.cells[i] = c
	}
	order.Sort(on.cells, func(a, b cell) int { return cmp.Or(cmp.Compare(a.mid, b.mid), cmp.Compare(a.perStart, b.perStart)) }) // so that draws rise with u, and always alike
	return &on
}

// Equivalent returns a use in minutes, at the worth of a start that is as likely
// too high as too low. For words; sums go through the chances, which know the
// doubt of it.
func (m *Model) Equivalent(use Use) float64 { return use.Equivalent(m.PerStart()) }

// PerStart is how many minutes a start counts as: as likely too high as too low.
func (m *Model) PerStart() float64 {
	mean, _ := m.logStart()
	return math.Exp(mean)
}

// PerStartRange is where that lies with 95 %.
func (m *Model) PerStartRange() Interval {
	mean, spread := m.logStart()
	half := chance.NormalQuantile(0.975) * spread
	return Interval{Low: math.Exp(mean - half), High: math.Exp(mean + half)}
}

// logStart is the mean and the deviation of the logarithm of what a start counts as.
// That is taken as normal: the cells lie a deviation apart, which is close enough for
// these two and too coarse for its tails.
func (m *Model) logStart() (mean, spread float64) {
	for _, c := range m.cells {
		mean += c.weight * math.Log(c.perStart)
	}
	for _, c := range m.cells {
		off := math.Log(c.perStart) - mean
		spread += c.weight * off * off
	}
	return mean, math.Sqrt(spread)
}

// Chance is a chance with the range in which it lies with 95 %.
type Chance struct{ P, Low, High float64 }

// Lasts returns the chance that a part of that age lasts so much more use. P is
// what odds are made of, the doubt about the parts included; Low and High say how
// much a longer history may still move it; a chance so small that its few large
// values make all of it widens the range to itself.
func (m *Model) Lasts(age, more Use) Chance {
	var ch Chance
	aged := m.aged(age)
	grown := make([]float64, len(aged))
	for i, c := range aged {
		t := age.Equivalent(c.perStart)
		grown[i] = c.load(t+more.Equivalent(c.perStart)) - c.load(t)
		ch.P += c.weight * math.Exp(-c.a*math.Log1p(grown[i]/c.a))
	}
	ch.P = min(ch.P, 1) // the weights add up to 1 but for their last digits
	ch.Low, ch.High = min(survival(aged, grown, 0.025), ch.P), max(survival(aged, grown, 0.975), ch.P)
	return ch
}

// aged returns the cells after a part has lasted that long: its rates grow by
// age^shape, and cells in which it would hardly have done so lose weight.
func (m *Model) aged(age Use) []cell {
	aged := make([]cell, len(m.cells))
	logs, top := make([]float64, len(m.cells)), math.Inf(-1)
	for i, c := range m.cells {
		wear := c.wear(age.Equivalent(c.perStart))
		logs[i] = math.Log(c.weight) - c.a*wear
		top = max(top, logs[i])
		c.mid *= math.Exp(wear / c.shape)
		aged[i] = c
	}
	sum := 0.0
	for i := range aged {
		aged[i].weight = math.Exp(logs[i] - top)
		sum += aged[i].weight
	}
	for i := range aged {
		aged[i].weight /= sum
	}
	return aged
}

// survival returns the chance that is below with chance p: within a cell it is
// exp(−L·grown) with L·mid^shape Gamma-distributed of mean 1.
func survival(cells []cell, grown []float64, p float64) float64 {
	below := func(lnHazard float64) float64 {
		hazard, sum := math.Exp(lnHazard), 0.0
		for i, c := range cells {
			if grown[i] > 0 {
				sum += c.weight * mathext.GammaIncRegComp(c.a, c.a*hazard/grown[i])
			}
		}
		return sum - p
	}
	low, high := math.Log(1e-9), math.Log(100)
	mean, spread := lnHazards(cells, grown, low, high)
	from := min(max(mean-chance.NormalQuantile(p)*spread, low), high)
	at, step := below(from), 0.5*spread
	if at < 0 { // what is below falls as the hazard rises
		step = -step
	}
	for {
		to := min(max(from+step, low), high)
		next := below(to)
		switch {
		case (at < 0) != (next < 0):
			return math.Exp(-math.Exp(rootBetween(below, from, at, to, next, 1e-7)))
		case to == low:
			return 1
		case to == high:
			return 0
		}
		from, at, step = to, next, 2*step
	}
}

// lnHazards is about where the logarithms of what cells make of a hazard lie, and how
// far apart: no less than a step from which the range is soon crossed.
func lnHazards(cells []cell, grown []float64, low, high float64) (mean, spread float64) {
	at := func(i int) float64 {
		if !(grown[i] > 0) {
			return low - 9
		}
		return min(max(math.Log(grown[i]), low-9), high+9)
	}
	for i, c := range cells {
		mean += c.weight * at(i)
	}
	for i, c := range cells {
		off := at(i) - mean
		spread += c.weight * (off*off + 1/c.a)
	}
	return mean, min(max(math.Sqrt(spread), 0.01), 9)
}

// Draw is Fitted(age).Draw(u, v). Whoever draws often keeps the Fitted.
func (m *Model) Draw(u, v float64, age Use) Left { return m.Fitted(age).Draw(u, v) }
