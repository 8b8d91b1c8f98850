package diagnose

import (
	"math"
	"math/bits"
	"testing"
)

// TestFiveNodes: the noisy-OR network of five nodes that a help page prints:
// each parent shows itself with .8 if it is on and .1 if not.
func TestFiveNodes(t *testing.T) {
	noisy := func(parents int) []float64 {
		table := make([]float64, 1<<parents)
		for row := range table {
			on := bits.OnesCount(uint(row))
			table[row] = 1 - math.Pow(.2, float64(on))*math.Pow(.9, float64(parents-on))
		}
		return table
	}
	net := Network{[]Node{
		{Name: "0", True: []float64{.5}}, {Name: "4", True: []float64{.5}},
		{Name: "1", Parents: []int{0}, True: noisy(1)}, {Name: "2", Parents: []int{0, 1}, True: noisy(2)}, {Name: "3", Parents: []int{2, 3, 1}, True: noisy(3)},
	}}
	got, _ := net.Marginals(nil)
	close12(t, "P(3)", got[4], 130307.0/160000, 1e-12)
}

// quickscore returns the chance of the answers and of each cause given them,
// with any number of causes at once. It sums over the sets of findings that
// show, with the sign of inclusion and exclusion, instead of the sets of causes.
// Source: Heckerman, A tractable inference algorithm for diagnosing multiple
// diseases, Uncertainty in Artificial Intelligence 5 (1990) 163.
func quickscore(n *Net, answers []Answer) (chance float64, causes []float64) {
	misses := make([][]float64, len(n.Leaks)) // by finding, then by cause
	for f := range misses {
		misses[f] = make([]float64, len(n.Priors))
		for c := range misses[f] {
			misses[f][c] = 1
		}
	}
	for _, l := range n.Links {
		misses[l.Finding][l.Cause] = 1 - l.P
	}
	var shown []int
	off, no := 1.0, make([]float64, len(n.Priors))
	for c := range no {
		no[c] = 1
	}
	for f, answer := range answers {
		switch answer {
		case Yes:
			shown = append(shown, f)
		case No:
			off *= 1 - n.Leaks[f]
			for c := range no {
				no[c] *= misses[f][c]
			}
		}
	}
	causes = make([]float64, len(n.Priors))
	for subset := range 1 << len(shown) {
		term := off
		if bits.OnesCount(uint(subset))%2 == 1 {
			term = -term
		}
		miss := append([]float64(nil), no...)
		for k, f := range shown {
			if subset>>k&1 == 1 {
				term *= 1 - n.Leaks[f]
				for c := range miss {
					miss[c] *= misses[f][c]
				}
			}
		}
		for c, p := range n.Priors {
			term *= p*miss[c] + 1 - p
		}
		chance += term
		for c, p := range n.Priors {
			causes[c] += term * p * miss[c] / (p*miss[c] + 1 - p)
		}
	}
	for c := range causes {
		causes[c] /= chance
	}
	return chance, causes
}

// TestBoundAgainstExact: on every story, the ranking with three causes at once
// at the most is held against the exact one without a bound.
func TestBoundAgainstExact(t *testing.T) {
	worst, most := 0.0, ""
	for _, s := range readStories(t) {
		if s.is != "" {
			continue
		}
		answers, _, _ := s.seen.read(&Result{})
		net := build(s.seen)
		chance, want := quickscore(net, answers)
		got := net.Posterior(answers)
		if got.Evidence > chance*(1+1e-9) {
			t.Errorf("%s: a part of the sets has more than all: %v of %v", s.name, got.Evidence, chance)
		}
		// What is left out is this share of the whole, and no chance can be
		// wrong by more.
		left := 1 - got.Evidence/chance
		for c := range want {
			off := math.Abs(got.Cause[c] - want[c])
			if off > left+1e-9 {
				t.Errorf("%s: %s is off by %v, more than the share left out, %v", s.name, Causes[c].Key, off, left)
			}
			if off > worst {
				worst, most = off, s.name
			}
		}
	}
	if worst > boundError {
		t.Errorf("a chance is off by %v in %q", worst, most)
	}
	t.Logf("largest error of the bound: %.2g in %q", worst, most)
}

// boundError is what leaving out four causes and more may move a chance by: a
// fifth of the step in which odds are told (about 6 in 10).
const boundError = .02
