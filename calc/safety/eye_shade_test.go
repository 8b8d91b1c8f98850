package safety

import (
	"testing"

	"kerfside/calc/unit"
)

// More current never asks for a lighter shade, the finer table never for a
// darker one than the law, and the comfort shade is never below the least.
func TestShadeRises(t *testing.T) {
	last := ShadeResult{}
	for a := 0.5; a <= 800; a += 0.5 {
		got, err := ComputeShade(ShadeInput{Current: unit.Current(a), Hidden: true})
		if err != nil {
			t.Fatal(err)
		}
		if got.Minimum < last.Minimum || got.Finer < last.Finer || got.Start < last.Start || got.Comfort < last.Comfort {
			t.Errorf("%v A: %+v is lighter than %+v at less current", a, got, last)
		}
		if got.Finer > got.Minimum || got.Start < got.Minimum || got.Comfort < got.Finer {
			t.Errorf("%v A: %+v does not hang together", a, got)
		}
		last = got
	}
}

// Whatever the glasses, glasses and helmet together make the least shade.
func TestHelmetOverGlasses(t *testing.T) {
	for g := 1.0; g <= 14; g += 0.1 {
		got, err := ComputeShade(ShadeInput{Current: 60, Glasses: g})
		if err != nil {
			t.Fatal(err)
		}
		if together := g + float64(got.Helmet) - 1; together < float64(got.Minimum)-1e-6 || got.Helmet < 1 {
			t.Errorf("glasses %.1f and helmet %d make %.1f, want at least %d", g, got.Helmet, together, got.Minimum)
		}
	}
}
