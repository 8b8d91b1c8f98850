package air

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Colebrook at Re 1e5, ε/D 1e-4 as the fluids library's documentation prints
// it; Haaland's explicit form (J. Fluids Eng. 105:89, 1983) is good to 2 %.
func TestFrictionPublished(t *testing.T) {
	if got, want := friction(1e5, 1e-4), 0.01851386607747165; math.Abs(got-want) > 1e-12 {
		t.Errorf("friction(1e5, 1e-4) = %.16f, want %.16f", got, want)
	}
	haaland := func(re, r float64) float64 {
		x := -1.8 * math.Log10(math.Pow(r/3.7, 1.11)+6.9/re)
		return 1 / (x * x)
	}
	for _, re := range []float64{4e3, 1e4, 3e4, 1e5, 1e6, 1e7, 1e8} {
		for _, r := range []float64{0, 1e-6, 1e-4, 1e-3, 0.01, 0.05} {
			if got, want := friction(re, r), haaland(re, r); math.Abs(got/want-1) > 0.02 {
				t.Errorf("friction(%g, %g) = %g, Haaland %g", re, r, got, want)
			}
		}
	}
	if got := friction(1000, 0); got != 0.064 {
		t.Errorf("laminar friction at Re 1000 = %g, want 64/1000", got)
	}
}

// TestFrictionSolvesColebrook: what comes out satisfies the equation.
func TestFrictionSolvesColebrook(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		re, r := 4000*math.Pow(10, 6*random.Float64()), 0.1*math.Pow(random.Float64(), 4)
		f := friction(re, r)
		x := 1 / math.Sqrt(f)
		if rest := x + 2*math.Log10(r/3.7+2.51/(re*math.Sqrt(f))); math.Abs(rest) > 1e-10 {
			t.Fatalf("seed 1,2: friction(%g, %g) = %g leaves %g of Colebrook's equation", re, r, f, rest)
		}
	}
}

// TestMoreFlowCostsMore: f·Re², which the drop follows, rises throughout,
// also from laminar to turbulent.
func TestMoreFlowCostsMore(t *testing.T) {
	for _, r := range []float64{0, 1e-5, 1e-3, 0.05} {
		last := 0.0
		for re := 10.0; re < 1e7; re *= 1.01 {
			if y := friction(re, r) * re * re; y <= last {
				t.Fatalf("f·Re² falls at Re %g, ε/D %g", re, r)
			} else {
				last = y
			}
		}
	}
}
