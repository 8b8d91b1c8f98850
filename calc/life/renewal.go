package life

import (
	"math"

	"kerfside/calc/chance"
)

// Counts is how many parts are used up in so much use from now, where the one that
// is fitted has that age and each that fails is changed for a new one.
//
//	P(N ≥ k) = G_k(T)     G_1(t) = 1 − R(age+t)/R(age)     G_{k+1} = G_k ∗ F
//
// R and F are those of the law. N counts failures: n spares beside the part that
// is fitted are enough if N ≤ n. Convolution is by the trapezoid rule over the
// increments of F, on steps that are halved until Richardson's extrapolation moves
// by less than within; Error is what it moved last. Shape 1 is Poisson's, exact. Past
// many lives, which only the least likely laws come to, the sum of n+1 of them is taken
// as normal, which is good to five hundredths:
//
//	P(N ≤ n) = Φ(((n+1)·E − age − T) / (σ·√(n+1)))
func (l Law) Counts(age, use, within float64) Counts {
	switch {
	case use <= 0:
		return Counts{AtMost: []float64{1}}
	case l.Shape == 1:
		return Poisson(use / l.Scale)
	case use > many*l.Mean():
		return l.normalSum(age + use)
	}
	steps := 32
	for float64(steps) < 4*use/l.Scale*max(1, l.Shape) && steps < mostSteps/8 {
		steps *= 2
	}
	coarse := l.convolve(age, use, steps)
	var last []float64
	for {
		steps *= 2
		fine := l.convolve(age, use, steps)
		now := make([]float64, min(len(coarse), len(fine)))
		for k := range now {
			now[k] = fine[k] + (fine[k]-coarse[k])/3
		}
		moved := 1.0
		if last != nil {
			moved = farthest(last, now)
		}
		if moved < within || steps >= mostSteps {
			return fromReached(now, moved)
		}
		coarse, last = fine, now
	}
}

// many is how many lives are convolved.
const many = 12

// normalSum is the count over so much use of new parts, by a normal sum of lives.
func (l Law) normalSum(use float64) Counts {
	mean := l.Mean()
	spread := math.Sqrt(max(l.Scale*l.Scale*math.Gamma(1+2/l.Shape)-mean*mean, 0))
	before := 0.0
	c := counted(func(n int) float64 {
		lives := float64(n + 1)
		p := chance.Normal((lives*mean - use) / (spread * math.Sqrt(lives)))
		gain := p - before
		before = p
		return gain
	})
	c.Error = 0.05
	return c
}

// mostSteps bounds what a convolution costs.
const mostSteps = 8192

// fromReached turns P(N ≥ k), k from 1, into a count.
func fromReached(reached []float64, off float64) Counts {
	c := Counts{Error: off}
	below := 0.0
	for _, g := range reached {
		below = max(below, min(1-g, 1))
		c.AtMost = append(c.AtMost, below)
		if below >= 1-hardly {
			return c
		}
	}
	c.AtMost = append(c.AtMost, 1)
	return c
}

// farthest is the largest difference of two lists, as far as both go.
func farthest(a, b []float64) float64 {
	far := 0.0
	for i := range min(len(a), len(b)) {
		far = max(far, math.Abs(a[i]-b[i]))
	}
	return far
}

// convolve returns G_1(use), G_2(use) … on that many steps.
func (l Law) convolve(age, use float64, steps int) []float64 {
	h := use / float64(steps)
	half := make([]float64, steps) // half of what F gains in each step
	now, next := make([]float64, steps+1), make([]float64, steps+1)
	before := 0.0
	for i := range steps {
		f := l.fails(0, h*float64(i+1))
		half[i] = (f - before) / 2
		before = f
		now[i+1] = l.fails(age, h*float64(i+1))
	}
	var reached []float64
	for len(reached) < mostParts {
		reached = append(reached, now[steps])
		if now[steps] < hardly {
			break
		}
		for i := range steps {
			next[i] = now[i] + now[i+1]
		}
		for i := 1; i <= steps; i++ {
			sum := 0.0
			for j, f := range half[:i] {
				sum += f * next[i-1-j]
			}
			now[i] = sum
		}
	}
	return reached
}

// counts is Law.Counts over all laws of a side, each by its weight: what weighs little
// need not be told so finely.
func (s side) counts(within float64) Counts {
	var c Counts
	each := make([]Counts, len(s.laws))
	for i, l := range s.laws {
		each[i] = l.Counts(s.age.Equivalent(l.PerStart), s.job.Equivalent(l.PerStart), within/(l.Weight*float64(len(s.laws))))
		c.Error += l.Weight * each[i].Error
	}
	for n := 0; ; n++ {
		p := 0.0
		for i, one := range each {
			p += s.laws[i].Weight * one.Chance(n)
		}
		c.AtMost = append(c.AtMost, min(p, 1))
		if p >= 1-hardly || n > mostParts {
			return c
		}
	}
}
