package layout

import (
	"math"
)

// at is a place on a piece, metres: along it from its left end, and across it from its
// middle line.
type at struct{ x, y float64 }

// span is what a support may carry of a weight of 1: the least and the most, over all
// ways in which the supports that there are can carry it without one of them pulling down.
type span struct{ low, high float64 }

// shares returns for each support what it may carry of a weight of 1 that acts at g, and
// whether the supports carry it at all. Where low and high are one the statics of a rigid
// body say it; else they leave it open, and a stiff support may carry all that high says.
//
// Equilibrium of the weight and of its moments about both axes, with no support pulling
// down:
//
//	Σ Rᵢ = 1    Σ Rᵢ·xᵢ = g.x    Σ Rᵢ·yᵢ = g.y    Rᵢ ≥ 0
//
// What solves it is a convex body whose corners have at most three supports that carry
// (linear programming: as many as there are equations). So each one, two and three are
// tried, and low and high are taken over those corners.
func shares(supports []at, g at) ([]span, bool) {
	carry := make([]span, len(supports))
	for i := range carry {
		carry[i] = span{low: math.Inf(1), high: 0}
	}
	found := false
	corner := func(who []int, r []float64) {
		found = true
		for i := range carry {
			v := 0.0
			for k, n := range who {
				if n == i {
					v = max(0, r[k])
				}
			}
			carry[i] = span{low: min(carry[i].low, v), high: max(carry[i].high, v)}
		}
	}
	size := 0.0
	for _, p := range supports {
		size = max(size, math.Abs(p.x-g.x), math.Abs(p.y-g.y))
	}
	near := 1e-9 * (1 + size) // a tape reads a millionth of a metre at best
	for i, p := range supports {
		if math.Hypot(p.x-g.x, p.y-g.y) <= near {
			corner([]int{i}, []float64{1})
		}
		for j := i + 1; j < len(supports); j++ {
			q := supports[j]
			if r, ok := between(p, q, g, near); ok {
				corner([]int{i, j}, []float64{1 - r, r})
			}
			for k := j + 1; k < len(supports); k++ {
				if r, ok := within(p, q, supports[k], g); ok {
					corner([]int{i, j, k}, r)
				}
			}
		}
	}
	return carry, found
}

// between returns how far g lies from p on the way to q, if it lies on it.
func between(p, q, g at, near float64) (part float64, ok bool) {
	dx, dy := q.x-p.x, q.y-p.y
	long := math.Hypot(dx, dy)
	if long <= near {
		return 0, false
	}
	part = ((g.x-p.x)*dx + (g.y-p.y)*dy) / (long * long)
	off := math.Abs((g.x-p.x)*dy-(g.y-p.y)*dx) / long
	return part, off <= near && part > -1e-12 && part < 1+1e-12
}

// within returns the shares of three supports that are not in line, if g lies among them.
func within(p, q, s, g at) ([]float64, bool) {
	twice := (q.x-p.x)*(s.y-p.y) - (s.x-p.x)*(q.y-p.y)
	size := math.Hypot(q.x-p.x, q.y-p.y) * math.Hypot(s.x-p.x, s.y-p.y)
	if math.Abs(twice) <= 1e-9*size {
		return nil, false
	}
	second := ((g.x-p.x)*(s.y-p.y) - (s.x-p.x)*(g.y-p.y)) / twice
	third := ((q.x-p.x)*(g.y-p.y) - (g.x-p.x)*(q.y-p.y)) / twice
	r := []float64{1 - second - third, second, third}
	return r, min(r[0], r[1], r[2]) > -1e-12
}
