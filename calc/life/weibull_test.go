package life

import (
	"errors"
	"math"
	"testing"
)

// The sets' fits by R 4.2.2 survival 3.5-3 survreg (rel.tolerance 1e-15), those of
// nist and shock by 40-digit arithmetic as well. NIST prints shape 1.7208, scale
// 606.5280, −ln L 75.135; of the shock absorbers 27718.72 (3046.02) and 3.16 (0.73)
// are printed, of the fans 1.058 and 26,297.
var fits = []struct {
	name, lives            string
	failures               int
	logL, shape, scale     float64
	seScale, seShape, cov  float64 // of ln scale, ln shape
	b10, seB10, b50, seB50 float64
	shapeLow, shapeHigh    float64 // Wald, 95 %
	b10Low, b10High        float64
}{
	{name: "nist", lives: nist, failures: 10, logL: -75.1346181645, shape: 1.7207972608, scale: 606.52755800, seScale: 0.205943909, seShape: 0.291812763, cov: 2.712784240e-2,
		b10: 164.02243866, seB10: 56.12633819, b50: 490.17378123, seB50: 91.33555843, shapeLow: 0.97126610, shapeHigh: 3.04874556, b10Low: 83.8751295, b10High: 320.7549191},
	{name: "ovarian", lives: ovarian, failures: 12, logL: -97.9539010471, shape: 1.1080597396, scale: 1225.41895893, seScale: 0.292727956, seShape: 0.253604701, cov: 3.385160326e-2,
		b10: 160.79497849, seB10: 74.29091965, b50: 880.30467692, seB50: 233.45861063, shapeLow: 0.67405365, shapeHigh: 1.82151138, b10Low: 65.0126849, b10High: 397.6920064},
	{name: "fans", lives: fans, failures: 12, logL: -135.1527199434, shape: 1.0584458499, scale: 26296.84517482, seScale: 0.465889661, seShape: 0.253438535, cov: 9.572761123e-2,
		b10: 3137.24077789, seB10: 993.79022883, b50: 18600.23787822, seB50: 7404.17494866, shapeLow: 0.64408231, shapeHigh: 1.73938579, b10Low: 1686.2073720, b10High: 5836.9331446},
	{name: "shock", lives: shock, failures: 11, logL: -123.9953611888, shape: 3.1604703145, scale: 27718.71812852, seScale: 0.109890478, seShape: 0.231237228, cov: 1.261167000e-2,
		b10: 13600.03471506, seB10: 1981.37799472, b50: 24683.62548999, seB50: 2452.25615509, shapeLow: 2.00873307, shapeHigh: 4.97257338, b10Low: 10221.8418300, b10High: 18094.6787602},
}

func TestFitOfPublishedLives(t *testing.T) {
	for _, want := range fits {
		w, err := Fit(lives(want.lives))
		if err != nil {
			t.Fatalf("%s: %v", want.name, err)
		}
		check := func(what string, got, wanted, share float64) {
			t.Helper()
			if !near(got, wanted, share) {
				t.Errorf("%s: %s = %.12g, want %.12g", want.name, what, got, wanted)
			}
		}
		if w.Failures != want.failures {
			t.Errorf("%s: %d failures", want.name, w.Failures)
		}
		check("shape", w.Shape, want.shape, 1e-10)
		check("scale", w.Scale, want.scale, 1e-10)
		check("ln L", w.LogL, want.logL, 1e-10)
		check("se ln scale", math.Sqrt(w.VarScale), want.seScale, 1e-8)
		check("se ln shape", math.Sqrt(w.VarShape), want.seShape, 1e-8)
		check("covariance", w.Cov, want.cov, 1e-7)
		check("B10", w.Quantile(0.1), want.b10, 1e-10)
		check("B50", w.Quantile(0.5), want.b50, 1e-10)
		shape, b10 := w.WaldShape(0.95), w.WaldQuantile(0.1, 0.95)
		check("shape low", shape.Low, want.shapeLow, 1e-7)
		check("shape high", shape.High, want.shapeHigh, 1e-7)
		check("B10 low", b10.Low, want.b10Low, 1e-7)
		check("B10 high", b10.High, want.b10High, 1e-7)
		z := 1.959963984540054
		half := func(q, se float64) float64 { return q * math.Exp(z*se/q) }
		check("B50 high", w.WaldQuantile(0.5, 0.95).High, half(want.b50, want.seB50), 1e-7)
	}
}

// surpyval's test prints R's limits to ten figures.
func TestQuantilesOfSurpyval(t *testing.T) {
	w, err := Fit(lives(surpyval))
	if err != nil {
		t.Fatal(err)
	}
	b10, b50 := w.WaldQuantile(0.1, 0.95), w.WaldQuantile(0.5, 0.95)
	for _, pair := range [][2]float64{
		{b10.Low, 22.86730250}, {b10.High, 44.99812722}, {b50.Low, 48.61939354}, {b50.High, 67.15344941},
		{w.Shape, 3.2630069281}, {w.Scale, 63.93232264}, {w.Quantile(0.1), 32.07780832}, {w.Quantile(0.5), 57.13982836},
	} {
		if !near(pair[0], pair[1], 1e-8) {
			t.Errorf("%.10f, want %.10f", pair[0], pair[1])
		}
	}
}

// The mean and deviation that NIST prints: 540.737, 323.806.
func TestMeanOfNIST(t *testing.T) {
	w, err := Fit(lives(nist))
	if err != nil || !near(w.Mean(), 540.737025, 1e-8) {
		t.Errorf("mean %v, %v", w.Mean(), err)
	}
}

// Likelihood-ratio limits by 40-digit arithmetic.
func TestRatioLimits(t *testing.T) {
	for _, test := range []struct {
		lives             string
		shape, scale, b10 Interval
	}{
		{lives: nist, shape: Interval{Low: 0.905645359, High: 2.88573787}, scale: Interval{Low: 437.556745, High: 1118.87762}, b10: Interval{Low: 59.8545542, High: 271.949518}},
		{lives: shock, shape: Interval{Low: 1.89853217, High: 4.77139078}, scale: Interval{Low: 23330.0661, High: 37961.9108}, b10: Interval{Low: 9371.20239, High: 17291.2379}},
	} {
		w, err := Fit(lives(test.lives))
		if err != nil {
			t.Fatal(err)
		}
		for i, pair := range [][2]Interval{{w.RatioShape(0.95), test.shape}, {w.RatioScale(0.95), test.scale}, {w.RatioQuantile(0.1, 0.95), test.b10}} {
			if !near(pair[0].Low, pair[1].Low, 1e-8) || !near(pair[0].High, pair[1].High, 1e-8) {
				t.Errorf("interval %d: %+v, want %+v", i, pair[0], pair[1])
			}
		}
	}
}

// Tiny samples have figures, which nobody should be shown; these are by R.
func TestTinySamples(t *testing.T) {
	for text, want := range map[string][2]float64{
		"60F 95": {2.7820992, 103.77001}, "60F 95 110 40": {2.3015984, 150.54262}, "60F 95F": {5.2213025, 84.585645},
		"60F 95F 100": {4.3400415, 98.937032}, "60F 75F 90F": {7.0871766, 80.250982}, "60F 75F 90F 50 100": {4.9642851, 91.628426},
	} {
		w, err := Fit(lives(text))
		if err != nil || !near(w.Shape, want[0], 1e-7) || !near(w.Scale, want[1], 1e-7) {
			t.Errorf("%s: %v, %v, %v, want %v", text, w.Shape, w.Scale, err, want)
		}
	}
}

func TestNoFit(t *testing.T) {
	for text, want := range map[string]error{
		"60 40 95": ErrNoFailure, "": ErrNoFailure, "60F": ErrLongest, "60F 60F": ErrLongest, "60 40 95F": ErrLongest, "95F 95F 95 20": ErrLongest,
		"1e-300F": ErrLongest, "0F 5F": ErrNoTime, "5F 0": ErrNoTime, "5F 6F NaN": ErrNoTime, "5F -6F": ErrNoTime, "5F +Inf": ErrNoTime,
	} {
		if w, err := Fit(lives(text)); !errors.Is(err, want) {
			t.Errorf("%q: %+v, %v, want %v", text, w, err, want)
		}
	}
}

// Lives in another unit scale the scale and leave the shape, from the smallest to
// the largest times; so do ties, and what the limits hold.
func TestFitInAnyUnit(t *testing.T) {
	for _, text := range []string{nist, shock, "60F 95", "5F 5F 5F 5F 5.1", "1F 1F 1F 2F 2F 3 3 3", "1F 1000000F"} {
		base, err := Fit(lives(text))
		if err != nil {
			t.Fatal(err)
		}
		for _, unit := range []float64{1e-150, 1e-9, 60, 1e9, 1e150} {
			scaled := lives(text)
			for i := range scaled {
				scaled[i].T *= unit
			}
			w, err := Fit(scaled)
			if err != nil || !near(w.Shape, base.Shape, 1e-9) || !near(w.Scale, base.Scale*unit, 1e-9) {
				t.Errorf("%s × %g: %v, %v, %v; without %v, %v", text, unit, w.Shape, w.Scale, err, base.Shape, base.Scale)
				continue
			}
			for _, in := range []Interval{w.RatioShape(0.95), w.RatioQuantile(0.1, 0.95), w.WaldQuantile(0.1, 0.95)} {
				if !(in.Low < in.High) {
					t.Errorf("%s × %g: %+v", text, unit, in)
				}
			}
			got, want := w.RatioScale(0.95), base.RatioScale(0.95)
			if !near(got.Low, want.Low*unit, 1e-6) || !near(got.High, want.High*unit, 1e-6) || !(got.Low < w.Scale && w.Scale < got.High) {
				t.Errorf("%s × %g: scale %v in %+v, want %+v", text, unit, w.Scale, got, want)
			}
		}
	}
}

// No shape and scale near the fit is more likely, and the profile touches it.
func TestNothingIsLikelier(t *testing.T) {
	for _, text := range []string{nist, shock, fans, "60F 95", "5F 5F 5F 5F 5.1"} {
		list := lives(text)
		w, err := Fit(list)
		if err != nil {
			t.Fatal(err)
		}
		logL := func(b, e float64) (sum float64) {
			for _, l := range list {
				if l.Failed {
					sum += math.Log(b) - b*math.Log(e) + (b-1)*math.Log(l.T)
				}
				sum -= math.Pow(l.T/e, b)
			}
			return sum
		}
		if best := logL(w.Shape, w.Scale); !near(best, w.LogL, 1e-9) {
			t.Errorf("%s: ln L = %v, want %v", text, w.LogL, best)
		}
		for _, db := range []float64{-1e-3, 0, 1e-3} {
			for _, de := range []float64{-1e-3, 0, 1e-3} {
				if l := logL(w.Shape*(1+db), w.Scale*(1+de)); l > w.LogL+1e-12*math.Abs(w.LogL) {
					t.Errorf("%s: %v at %v, %v, more than %v", text, l, db, de, w.LogL)
				}
			}
		}
	}
}
