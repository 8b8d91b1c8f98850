package life

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Model is what prior and history together say about the lives of one sort of part.
// It is a mixture of cells, and never changes.
type Model struct {
	Prior    Prior
	Parts    int // of the history
	Failures int // of them

	cells []cell
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

// lasts is the chance of a new part to last t equivalent minutes.
func (c cell) lasts(t float64) float64 { return math.Exp(-c.a * math.Log1p(c.load(t)/c.a)) }

// Learn returns the model of the parts of prior.Slot, the fitted one that will be
// asked about aside (see Others). Parts of no use at all tell nothing and are left
// out. With the shape given, scale^−shape has a Gamma posterior: a + failures, and
// B + Σ use^shape over all parts, failed or not.
func Learn(parts []Part, prior Prior) *Model {
	m := &Model{Prior: prior}
	c := cell{weight: 1, shape: prior.Shape, perStart: prior.PerStart}
	a, mid := prior.rate(c.shape)
	sum := a
	c.mid = mid
	for _, p := range parts {
		use := p.Equivalent(c.perStart)
		if use <= 0 || p.Slot != "" && p.Slot != prior.Slot {
			continue
		}
		m.Parts++
		sum += c.load(use)
		if p.Failed {
			m.Failures++
		}
	}
	c.a = a + float64(m.Failures)
	c.mid *= math.Pow(sum/c.a, 1/c.shape)
	m.cells = []cell{c}
	return m
}

// On returns the model of parts that work on and with that.
func (m *Model) On(Seen) *Model { return m }

// Equivalent returns a use in minutes, at the worth of a start that is as likely
// too high as too low. For words; sums go through the chances, which know the
// doubt of it.
func (m *Model) Equivalent(use Use) float64 { return use.Equivalent(m.PerStart()) }

// PerStart is how many minutes a start counts as: as likely too high as too low.
func (m *Model) PerStart() float64 { return m.cells[0].perStart }

// Chance is a chance with the range in which it lies with 95 %.
type Chance struct{ P, Low, High float64 }

// Lasts returns the chance that a part of that age lasts so much more use. P is
// what odds are made of, the doubt about the parts included; Low and High say how
// much a longer history may still move it; a chance so small that its few large
// values make all of it widens the range to itself.
func (m *Model) Lasts(age, more Use) Chance { return m.Fitted(age).Lasts(more) }

// Draw is Fitted(age).Draw(u, v). Whoever draws often keeps the Fitted.
func (m *Model) Draw(u, v float64, age Use) Left { return m.Fitted(age).Draw(u, v) }

// Fitted is the model of a part of some age: what is known of it for having lasted
// so long is counted in.
type Fitted struct {
	age   Use
	cells []cell // their rates after that age
}

// Fitted returns the model of a part of that age, new or in the torch.
func (m *Model) Fitted(age Use) *Fitted {
	f := &Fitted{age: age, cells: make([]cell, len(m.cells))}
	sum := 0.0
	for i, c := range m.cells {
		t := age.Equivalent(c.perStart)
		c.weight *= c.lasts(t)
		c.mid *= math.Pow(1+c.load(t)/c.a, 1/c.shape) // the rate grows by t^shape
		sum += c.weight
		f.cells[i] = c
	}
	for i := range f.cells {
		f.cells[i].weight /= sum
	}
	return f
}

// grown is ((t+more)^shape − t^shape)/mid^shape of the cell for the part.
func (f *Fitted) grown(c cell, more Use) float64 {
	age := f.age.Equivalent(c.perStart)
	return c.load(age+more.Equivalent(c.perStart)) - c.load(age)
}

// Lasts is the chance to last so much more use.
func (f *Fitted) Lasts(more Use) Chance {
	var ch Chance
	grown := make([]float64, len(f.cells))
	for i, c := range f.cells {
		grown[i] = f.grown(c, more)
		ch.P += c.weight * math.Exp(-c.a*math.Log1p(grown[i]/c.a))
	}
	ch.Low, ch.High = min(f.quantile(grown, 0.025), ch.P), max(f.quantile(grown, 0.975), ch.P)
	return ch
}

// quantile returns the survival that is below with chance p: within a cell it is
// exp(−L·grown) with L·mid^shape Gamma-distributed of mean 1.
func (f *Fitted) quantile(grown []float64, p float64) float64 {
	low, high := 0.0, 1.0
	for range 40 {
		s := (low + high) / 2
		below := 0.0
		for i, c := range f.cells {
			if grown[i] > 0 {
				below += c.weight * mathext.GammaIncRegComp(c.a, -c.a*math.Log(s)/grown[i])
			}
		}
		if below < p {
			low = s
		} else {
			high = s
		}
	}
	return (low + high) / 2
}

// Left is what one possible part has left: when Spent is above Minutes it is gone.
type Left struct {
	Minutes  float64 // equivalent
	PerStart float64 // what a start counts as
}

// Spent returns what a use takes of it.
func (l Left) Spent(use Use) float64 { return use.Equivalent(l.PerStart) }

// Draw returns what is left of the part, for two uniform numbers in (0, 1): u draws
// from what is not known about such parts, v the life of one of them.
func (f *Fitted) Draw(u, v float64) Left {
	c := f.cells[len(f.cells)-1]
	for _, x := range f.cells {
		if u < x.weight {
			c = x
			break
		}
		u -= x.weight
	}
	rate := mathext.GammaIncRegInv(c.a, min(max(u/c.weight, 1e-9), 1-1e-9)) / c.a
	age := f.age.Equivalent(c.perStart)
	end := c.mid * math.Pow(c.load(age)-math.Log1p(-v)/rate, 1/c.shape)
	return Left{Minutes: max(end-age, 0), PerStart: c.perStart}
}
