package diagnose

import (
	"math/big"
	"strconv"
	"testing"
)

// fraction is the decimal as it is printed, exactly: .05 is 1/20.
func fraction(t *testing.T, decimal float64) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(strconv.FormatFloat(decimal, 'g', -1, 64))
	if !ok {
		t.Fatalf("%v is no number", decimal)
	}
	return r
}

func not(p *big.Rat) *big.Rat { return new(big.Rat).Sub(big.NewRat(1, 1), p) }

func float(r *big.Rat) float64 {
	f, _ := r.Float64()
	return f
}

// fractions is Marginals in exact fractions, over a table of all that can be
// that grows node by node.
func fractions(t *testing.T, n Network, evidence map[string]bool) (marginals []*big.Rat, chance *big.Rat) {
	t.Helper()
	type row struct {
		yes []bool
		p   *big.Rat
	}
	rows := []row{{nil, big.NewRat(1, 1)}}
	for _, node := range n.Nodes {
		var longer []row
		for _, r := range rows {
			at := 0
			for bit, parent := range node.Parents {
				if r.yes[parent] {
					at += 1 << bit
				}
			}
			p := fraction(t, node.True[at])
			for yes, p := range map[bool]*big.Rat{true: p, false: not(p)} {
				if want, known := evidence[node.Name]; !known || want == yes {
					longer = append(longer, row{append(append([]bool(nil), r.yes...), yes), new(big.Rat).Mul(r.p, p)})
				}
			}
		}
		rows = longer
	}
	chance = new(big.Rat)
	for range n.Nodes {
		marginals = append(marginals, new(big.Rat))
	}
	for _, r := range rows {
		chance.Add(chance, r.p)
		for i, yes := range r.yes {
			if yes {
				marginals[i].Add(marginals[i], r.p)
			}
		}
	}
	for _, m := range marginals {
		m.Quo(m, chance)
	}
	return marginals, chance
}

// TestChestClinicFractions: every chance of the chest clinic, to 1e-12 of the
// exact fractions of the tables of Lauritzen and Spiegelhalter (1988). The
// fractions themselves are held to those of the evidence.
func TestChestClinicFractions(t *testing.T) {
	tests := []struct {
		name     string
		evidence map[string]bool
		chance   *big.Rat
	}{
		{name: "none", chance: big.NewRat(1, 1)},
		{name: "asia, dysp", evidence: map[string]bool{"asia": true, "dysp": true}, chance: big.NewRat(36011, 8000000)},
		{name: "dysp", evidence: map[string]bool{"dysp": true}, chance: big.NewRat(2179853, 5000000)},
		{name: "xray", evidence: map[string]bool{"xray": true}, chance: big.NewRat(2757251, 25000000)},
		{name: "no smoke, no xray, dysp", evidence: map[string]bool{"smoke": false, "xray": false, "dysp": true}, chance: big.NewRat(361039159, 2500000000)},
	}
	for _, test := range tests {
		want, chance := fractions(t, chest, test.evidence)
		if chance.Cmp(test.chance) != 0 {
			t.Errorf("%s: P(evidence) = %v in fractions, want %v", test.name, chance, test.chance)
		}
		got, p := chest.Marginals(test.evidence)
		close12(t, test.name+": P(evidence)", p, float(chance), 1e-12)
		for i, node := range chest.Nodes {
			close12(t, test.name+": "+node.Name, got[i], float(want[i]), 1e-12)
		}
	}
}

// TestThreeCausesFractions: the leaky noisy-OR of three causes under all 27 ways
// of answering, to 1e-12 of exact fractions.
func TestThreeCausesFractions(t *testing.T) {
	for way := range 27 {
		answers := []Answer{Answer(way % 3), Answer(way / 3 % 3), Answer(way / 9)}
		chance := new(big.Rat)
		present := []*big.Rat{new(big.Rat), new(big.Rat), new(big.Rat)}
		for state := range 8 {
			p := big.NewRat(1, 1)
			for c, prior := range three.Priors {
				if r := fraction(t, prior); state>>c&1 == 1 {
					p.Mul(p, r)
				} else {
					p.Mul(p, not(r))
				}
			}
			for f, answer := range answers {
				no := not(fraction(t, three.Leaks[f]))
				for _, l := range three.Links {
					if l.Finding == f && state>>l.Cause&1 == 1 {
						no.Mul(no, not(fraction(t, l.P)))
					}
				}
				switch answer {
				case Yes:
					p.Mul(p, not(no))
				case No:
					p.Mul(p, no)
				}
			}
			chance.Add(chance, p)
			for c := range present {
				if state>>c&1 == 1 {
					present[c].Add(present[c], p)
				}
			}
		}
		got := three.Posterior(answers)
		close12(t, "P(answers)", got.Evidence, float(chance), 1e-12)
		for c, p := range present {
			close12(t, "posterior", got.Cause[c], float(p.Quo(p, chance)), 1e-12)
		}
	}
}
