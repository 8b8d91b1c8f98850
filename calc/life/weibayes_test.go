package life

import (
	"math"
	"testing"
)

// Worked with R's survreg at that fixed scale, and qchisq.
func TestWeibayes(t *testing.T) {
	for _, test := range []struct {
		lives                            string
		shape                            float64
		failures                         int
		scale, low90, low95, high90, b10 float64 // b10 at the low 90 % bound
	}{
		{lives: "30F 40", shape: 2, failures: 1, scale: 50, low90: 25.35191820, low95: 22.95640435, high90: 154.03913124, b10: 8.22905128},
		{lives: "60F 120 40 95", shape: 2, failures: 1, scale: 169.18924316, low90: 85.78543705, low95: 77.67953354, high90: 521.23528061, b10: 27.84533916},
		{lives: "60 120 40 95", shape: 2, failures: 0, scale: math.Inf(1), low90: 111.49744187, low95: 97.75100892, high90: math.Inf(1), b10: 36.19127198},
		{lives: nist, shape: 1, failures: 10, scale: 777.1, low90: 504.39287274, low95: 458.13580711, high90: 1249.09492351, b10: 53.14309317},
	} {
		w := NewWeibayes(lives(test.lives), test.shape)
		for what, pair := range map[string][2]float64{
			"scale": {w.Scale(), test.scale}, "low 90": {w.Lower(0.9), test.low90}, "low 95": {w.Lower(0.95), test.low95},
			"high 90": {w.Upper(0.9), test.high90}, "B10": {w.At(0.1, w.Lower(0.9)), test.b10},
		} {
			if pair[0] != pair[1] && !near(pair[0], pair[1], 1e-9) {
				t.Errorf("%s at %v: %s = %.10g, want %.10g", test.lives, test.shape, what, pair[0], pair[1])
			}
		}
		if w.Failures != test.failures {
			t.Errorf("%s: %d failures", test.lives, w.Failures)
		}
	}
}

// NIST/SEMATECH e-Handbook 8.4.5.1: 800 h, two failures, from 127.0690 h to
// 2251.229 h with 90 % from both sides.
func TestExponentialOfTheHandbook(t *testing.T) {
	w := NewWeibayes(lives("300F 400F 100"), 1)
	if low, high := w.Lower(0.95), w.Upper(0.95); !near(low, 127.0690, 1e-6) || !near(high, 2251.229, 1e-6) {
		t.Errorf("%v to %v", low, high)
	}
}

// How long one of n parts has to run without failure to show a share p with
// confidence C, as multiples of that life: k = (ln(1−C)/(n·ln(1−p)))^(1/b).
// Worked with the formula of the R package SMRD.
func TestZeroFailures(t *testing.T) {
	for _, test := range []struct{ shape, p, confidence, n, k float64 }{
		{shape: 2, p: 0.1, confidence: 0.99, n: 5, k: 2.95664305},
		{shape: 1, p: 0.01, confidence: 0.95, n: 5, k: 59.61457044},
		{shape: 2, p: 0.01, confidence: 0.95, n: 5, k: 7.72104724},
	} {
		list := make([]Life, int(test.n))
		for i := range list {
			list[i].T = test.k
		}
		w := NewWeibayes(list, test.shape)
		if got := w.At(test.p, w.Lower(test.confidence)); !near(got, 1, 1e-8) {
			t.Errorf("%+v: shown for %v, want 1", test, got)
		}
	}
}
