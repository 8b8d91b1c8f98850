package chance

import (
	"math"
	"testing"
)

// TestSobol: the first points are those printed for the sequence in three dimensions
// (from memory); every coordinate takes
// each of n steps once, and each pair of neighbouring coordinates puts one point into each
// box of a (0, m, 2)-net where the sequence is one: dimensions 1 and 2.
func TestSobol(t *testing.T) {
	const n = 64
	points := Sobol(n, mostSobol)
	want := [][3]float64{{0, 0, 0}, {0.5, 0.5, 0.5}, {0.75, 0.25, 0.25}, {0.25, 0.75, 0.75}, {0.375, 0.375, 0.625}, {0.875, 0.875, 0.125}, {0.625, 0.125, 0.875}, {0.125, 0.625, 0.375}}
	for i, w := range want {
		for d := range w {
			if got := points[i][d] - 0.5/n; math.Abs(got-w[d]) > 1e-12 {
				t.Errorf("point %d, dimension %d: %v, want %v", i, d, got, w[d])
			}
		}
	}
	for d := range mostSobol {
		seen := [n]bool{}
		for _, p := range points {
			seen[int(p[d]*n)] = true
		}
		for i, ok := range seen {
			if !ok {
				t.Errorf("dimension %d has nothing in step %d", d, i)
			}
		}
	}
	for across := 1; across <= n; across *= 2 {
		boxes := map[[2]int]int{}
		for _, p := range points {
			boxes[[2]int{int(p[0] * float64(across)), int(p[1] * float64(n/across))}]++
		}
		if len(boxes) != n {
			t.Errorf("%d × %d boxes: %d of %d hold a point", across, n/across, len(boxes), n)
		}
	}
}

// TestSobolPairs: in any two coordinates the points are as if independent, closer than
// random ones, whose correlation is off by 1/√n = 0.125.
func TestSobolPairs(t *testing.T) {
	const n = 64
	points, sum := Sobol(n, mostSobol), 0.0
	for a := range mostSobol {
		for b := range a {
			r := 0.0
			for _, p := range points {
				r += 12 * (p[a] - 0.5) * (p[b] - 0.5) / n
			}
			sum += r * r
			if math.Abs(r) > 0.25 {
				t.Errorf("coordinates %d and %d: correlation %.2f", a, b, r)
			}
		}
	}
	if off := math.Sqrt(sum / (mostSobol * (mostSobol - 1) / 2)); off > 0.08 {
		t.Errorf("correlations are off by %.3f, no better than by chance", off)
	}
}

// TestSobolIntegrates: the mean of a product of 13 factors, each with mean 1, comes out as
// 1, better with more points and far better than by chance, which is off by about 0.2/√n.
func TestSobolIntegrates(t *testing.T) {
	before := math.Inf(1)
	for _, n := range []int{64, 1024, 16384} {
		sum := 0.0
		for _, p := range Sobol(n, mostSobol) {
			f := 1.0
			for _, x := range p {
				f *= 1 + 0.2*(x-0.5)
			}
			sum += f
		}
		off := math.Abs(sum/float64(n) - 1)
		if off > 0.05/math.Sqrt(float64(n)) || off > before {
			t.Errorf("%d points: off by %.2g, before by %.2g", n, off, before)
		}
		before = off
	}
}
