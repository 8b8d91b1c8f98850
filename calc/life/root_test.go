package life

import (
	"math"
	"testing"
)

// TestRoot: roots of known functions, however steep, flat or endless these are.
func TestRoot(t *testing.T) {
	for name, c := range map[string]struct {
		f               func(float64) float64
		low, high, root float64
	}{
		// J. Wallis, A Treatise of Algebra (1685), where Newton's method is first shown: from memory.
		"Wallis":      {f: func(x float64) float64 { return x*x*x - 2*x - 5 }, low: 2, high: 3, root: 2.0945514815423265},
		"falls":       {f: func(x float64) float64 { return math.Cos(x) - x }, low: 0, high: 1, root: 0.7390851332151607}, // the Dottie number, from memory
		"at an end":   {f: func(x float64) float64 { return x }, low: 0, high: 1, root: 0},
		"other way":   {f: func(x float64) float64 { return x - 1 }, low: 4, high: -4, root: 1},
		"flat":        {f: func(x float64) float64 { return math.Pow(x-1, 9) }, low: 0, high: 1.7, root: 1},
		"a step":      {f: func(x float64) float64 { return math.Copysign(1, x-math.Pi) }, low: -100, high: 100, root: math.Pi},
		"to infinity": {f: func(x float64) float64 { return math.Log(x) }, low: 0, high: 9, root: 1},
		"all but off": {f: func(x float64) float64 { return -math.Expm1(-math.Exp(x)) - 0.5 }, low: -300, high: 300, root: math.Log(math.Ln2)},
	} {
		calls := 0
		f := func(x float64) float64 { calls++; return c.f(x) }
		if x := root(f, c.low, c.high); math.Abs(x-c.root) > 1e-12*max(1, math.Abs(c.root)) && c.f(x) != 0 {
			t.Errorf("%s: %v, want %v", name, x, c.root)
		}
		if calls > 140 {
			t.Errorf("%s: %d calls", name, calls)
		}
		if x := rootWithin(c.f, c.low, c.high, 1e-3); math.Abs(x-c.root) > 1e-3 && c.f(x) != 0 {
			t.Errorf("%s: %v within a thousandth, want %v", name, x, c.root)
		}
	}
}
