package life

import (
	"math"
	"testing"
)

// NIST/SEMATECH e-Handbook 8.2.5 prints the prior of 600 h even odds and 5 % below
// 250 h: a = 2.863055, B = 1522.506.
func TestPriorOfTheHandbook(t *testing.T) {
	g := fixed(1, 600, 250).rate(1)
	if !near(g.a, 2.8630553062, 1e-9) || !near(g.a*g.mid, 1522.5056220645, 1e-9) {
		t.Errorf("a = %.10f, B = %.10f, want 2.8630553062, 1522.5056220645", g.a, g.a*g.mid)
	}
}

// The table gives what solving gives, for every prior and shape.
func TestQuickRate(t *testing.T) {
	worst := 0.0
	for _, p := range append(priors, fixed(2, 100, 50), fixed(2, 100, 5)) {
		for ln := math.Log(0.07); ln < math.Log(60); ln += 0.11 {
			b := math.Exp(ln)
			quick, exact := p.quickRate(b), p.rate(b)
			worst = max(worst, math.Abs(math.Log(quick.a/exact.a)), math.Abs(math.Log(quick.mid/exact.mid)))
		}
	}
	if worst > 1e-3 {
		t.Errorf("off by %v", worst)
	}
}

// TestWornIsNoBetterThanNew: by what is taken for granted alone, a part that has done
// up to its usual life is no likelier to last than a new one, and none lasts for days.
// Diffusers and cups go by chance as well as by wear, so that an old one proves itself.
func TestWornIsNoBetterThanNew(t *testing.T) {
	for _, p := range []Prior{PriorOf("tip"), PriorOf("electrode")} {
		m := Learn(nil, p)
		for _, share := range []float64{0.05, 0.25, 1} {
			more := Use{Minutes: share * p.Scale}
			before := m.Lasts(Use{}, more).P
			for age := 0.1; age <= 1; age += 0.1 {
				if now := m.Lasts(Use{Minutes: age * p.Scale}, more).P; now > before+1e-9 && age <= 0.5 || now > m.Lasts(Use{}, more).P {
					t.Errorf("%s: at %.0f %% of its usual life, %.0f min more: %.3f, before %.3f", p.Slot, 100*age, more.Minutes, now, before)
				} else {
					before = now
				}
			}
		}
		if c := m.Lasts(Use{}, Use{Minutes: 20 * p.Scale}).P; c > 0.01 {
			t.Errorf("%s: %.3f to last twenty usual lives", p.Slot, c)
		}
	}
}

// TestPlainWorkAddsNoDoubt: what is taken for granted speaks of clean mild steel, cut
// flat from the edge, on any rig; other work adds doubt.
func TestPlainWorkAddsNoDoubt(t *testing.T) {
	m, more := Learn(nil, PriorOf("tip")), Use{Minutes: 45}
	plain := m.Lasts(Use{}, more)
	if got := m.On(Seen{Metal: "mild-steel", Surface: "clean", Position: "flat", Start: "edge", Air: "dry", Partner: "good", Rig: "any"}).Lasts(Use{}, more); got != plain {
		t.Errorf("plain work: %+v, of the prior %+v", got, plain)
	}
	if got := m.On(Seen{Metal: "stainless", Surface: "rusty"}).Lasts(Use{}, more); got.High-got.Low <= plain.High-plain.Low {
		t.Errorf("rusty stainless: %+v, no more doubt than %+v", got, plain)
	}
}
