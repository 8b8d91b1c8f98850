package life

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// poissonTable are the smallest stocks s with P(N ≤ s) ≥ level, N Poisson's of mean
// m: figures of R's qpois and of gonum's distuv.
func TestPoissonSpares(t *testing.T) {
	levels := []float64{.50, .80, .90, .95, .99}
	for _, row := range []struct {
		m    float64
		want []int
	}{
		{0.1, []int{0, 0, 0, 1, 1}}, {0.5, []int{0, 1, 1, 2, 3}}, {1, []int{1, 2, 2, 3, 4}}, {2, []int{2, 3, 4, 5, 6}},
		{3, []int{3, 4, 5, 6, 8}}, {5, []int{5, 7, 8, 9, 11}}, {10, []int{10, 13, 14, 15, 18}}, {50, []int{50, 56, 59, 62, 67}},
	} {
		c := Poisson(row.m)
		for i, level := range levels {
			if got := c.Spares(level); got != row.want[i] {
				t.Errorf("Poisson(%v).Spares(%v) = %d, want %d", row.m, level, got, row.want[i])
			}
		}
	}
}

// TestOffByOne: MTBF 8760 h over 26,280 h. P(N ≤ 2) = 0.4231900811 is the chance
// that two spares are enough; three are enough with 0.6472318888. An article on the
// web tells the first figure for three spares.
func TestOffByOne(t *testing.T) {
	for _, c := range []Counts{Poisson(3), Law{Shape: 1, Scale: 8760}.Counts(0, 26280, 1e-9), Law{Shape: 1, Scale: 8760}.Counts(5000, 26280, 1e-9)} {
		wantNear(t, "two spares", c.Chance(2), 0.4231900811, 1e-10)
		wantNear(t, "three spares", c.Chance(3), 0.6472318888, 1e-10)
		wantNear(t, "without a spare", c.Chance(0), math.Exp(-3), 1e-12)
	}
}

// TestTrivedi: Probability & Statistics with Reliability, Queuing, and Computer
// Science Applications, 2nd edition, chapter 6, problem 2: three positions run
// 1300, 1500 and 1200 h at 0.002 failures an hour; 12 spares for more than 0.90.
func TestTrivedi(t *testing.T) {
	c := Poisson(0.002 * (1300 + 1500 + 1200))
	wantNear(t, "11 spares", c.Chance(11), 0.8880759990, 1e-10)
	wantNear(t, "12 spares", c.Chance(12), 0.9362028033, 1e-10)
	if got := c.Spares(0.90); got != 12 {
		t.Errorf("spares = %d, want 12", got)
	}
}

// renewals are P(N ≤ n) of Weibull lives, new at the start, by the series of
// McShane, Adrian, Bradlow & Fader (2008), eq. 11, in arithmetic of 60 digits.
var renewals = []struct {
	shape, use float64
	atMost     []float64
	mean       float64
	meanWithin float64
}{
	{shape: 2, use: 1, atMost: []float64{.367879441171, .886841868052, .991899351287, .999695209977, .999992962964}, mean: 0.753691277537, meanWithin: 1e-10},
	{shape: 2, use: 2, atMost: []float64{.018315638889, .342115593120, .786035536674, .963489399148, .996269074827, .999747929440, .999987924756}, mean: 1.89403934679, meanWithin: 1e-10},
	{shape: 2, use: 3, atMost: []float64{.000123409804, .041779828755, .319109870591, .707983417354, .923871357029, .987061668770, .998468008939}, mean: 3.02174501, meanWithin: 1e-8},
	{shape: 1.5, use: 3, atMost: []float64{.005537830714, .096320660331, .356371061876, .664791155758, .871349221395, .962433630388, .991371122956}, mean: 3.053714, meanWithin: 1e-6},
}

func TestRenewals(t *testing.T) {
	for _, r := range renewals {
		c := Law{Shape: r.shape, Scale: 40}.Counts(0, 40*r.use, 1e-10)
		t.Logf("shape %v, %v scales: error told %.2g", r.shape, r.use, c.Error)
		for n, want := range r.atMost {
			if got := c.Chance(n); math.Abs(got-want) > 2e-9 {
				t.Errorf("shape %v, %v scales: P(N ≤ %d) = %.12f, want %.12f", r.shape, r.use, n, got, want)
			}
		}
		if got := c.Expected(); math.Abs(got-r.mean) > max(r.meanWithin, 1e-8) {
			t.Errorf("shape %v, %v scales: mean %.12f, want %.12f", r.shape, r.use, got, r.mean)
		}
	}
}

// TestMethods: the smallest stocks by the exact count beside Poisson's, which takes
// too many of parts that wear out; the exact ones are those of convolution and of
// the series.
func TestMethods(t *testing.T) {
	for _, test := range []struct {
		shape, use, level float64
		exact, poisson    int
	}{{shape: 2, use: 3, level: 0.90, exact: 4, poisson: 6}, {shape: 2, use: 3, level: 0.95, exact: 5, poisson: 7}, {shape: 1.5, use: 3, level: 0.95, exact: 5, poisson: 7}, {shape: 2, use: 6, level: 0.95, exact: 9, poisson: 11}, {shape: 1, use: 3, level: 0.95, exact: 6, poisson: 6}} {
		l := Law{Shape: test.shape, Scale: 25}
		exact, poisson := l.Counts(0, 25*test.use, 1e-8).Spares(test.level), Poisson(25*test.use/l.Mean()).Spares(test.level)
		if exact != test.exact || poisson != test.poisson {
			t.Errorf("%+v: exactly %d, by Poisson %d", test, exact, poisson)
		}
	}
}

// TestBirolini: Reliability Engineering (5th edition, 2007), section 4.5: n lives add up
// to about a normal sum, so that n = [k·d/2 + √((k·d/2)² + T/E)]² parts in all; k the
// coefficient of variation, d the normal quantile. It says that it holds for levels up
// to 0.95: there the exact stock is never more than one away.
func TestBirolini(t *testing.T) {
	for _, shape := range []float64{1, 1.5, 2, 3} {
		for _, use := range []float64{2, 3, 5, 10} {
			for _, level := range []float64{0.8, 0.9, 0.95} {
				l := Law{Shape: shape, Scale: 1}
				k := math.Sqrt(math.Gamma(1+2/shape)/math.Pow(math.Gamma(1+1/shape), 2) - 1)
				half := k * distuv.UnitNormal.Quantile(level) / 2
				n := math.Pow(half+math.Sqrt(half*half+use/l.Mean()), 2)
				about, exact := int(math.Ceil(n-1)), l.Counts(0, use, 1e-6).Spares(level)
				if about-exact > 1 || exact > about {
					t.Errorf("shape %v, %v scales, level %v: %d by the normal sum (%.3f), exactly %d", shape, use, level, about, n-1, exact)
				}
			}
		}
	}
}

// TestManyLives: where convolution ends the normal sum is as near as it says.
func TestManyLives(t *testing.T) {
	for _, shape := range []float64{0.7, 1.5, 2, 4} {
		l := Law{Shape: shape, Scale: 1}
		use := 0.999 * many * l.Mean()
		exact, normal := l.Counts(0.4, use, 1e-4), l.normalSum(0.4+use)
		for n := range 80 {
			if off := math.Abs(exact.Chance(n) - normal.Chance(n)); off > normal.Error {
				t.Errorf("shape %v: P(N ≤ %d) = %.4f by the normal sum, convolved %.4f", shape, n, normal.Chance(n), exact.Chance(n))
			}
		}
	}
}

// TestGammaPoisson: the negative binomial of two published cases; gamma shape 4.863 and
// 3372.46 h are those of NIST's worked reliability test (e-Handbook 8.4.6), over the
// next 1000 h. Figures by R.
func TestGammaPoisson(t *testing.T) {
	c := GammaPoisson(4.863, 3372.46, 1000)
	sum := 0.0
	for n, p := range []float64{0.2828495804, 0.3145820681, 0.2109104103, 0.1103481142, 0.0496097861, 0.0201118608} {
		sum += p
		wantNear(t, fmt.Sprintf("P(N ≤ %d)", n), c.Chance(n), sum, 1e-9)
	}
	plug := Poisson(1000 * 4.863 / 3372.46)
	for i, level := range []float64{.8, .9, .95, .99} {
		if got, want := c.Spares(level), []int{2, 3, 4, 6}[i]; got != want {
			t.Errorf("level %v: %d spares, want %d", level, got, want)
		}
		if got, want := plug.Spares(level), []int{2, 3, 4, 5}[i]; got != want {
			t.Errorf("level %v: %d spares without the doubt, want %d", level, got, want)
		}
	}
	// Nothing failed in as many hours as are planned next.
	c = GammaPoisson(0.5, 700, 700)
	for n, want := range []float64{.70710678, .88388348, .95017474, .97779610, .98988044} {
		if math.Abs(c.Chance(n)-want) > 1e-8 {
			t.Errorf("nothing failed: P(N ≤ %d) = %.9f, want %v", n, c.Chance(n), want)
		}
	}
}

// TestGammaPoissonIsTheMixture: shape 1 with a Gamma rate is the negative binomial, so
// the laws that stand for such a posterior have to give it.
func TestGammaPoissonIsTheMixture(t *testing.T) {
	for _, a := range []float64{0.5, 1.1, 2, 6, 40} {
		m := &Model{cells: []cell{{weight: 1, shape: 1, perStart: 0.5, a: a, mid: 80}}}
		for _, job := range []Use{{Minutes: 10}, {Minutes: 60, Starts: 80}, {Minutes: 300}} {
			got := side{laws: m.Fitted(Use{}).Laws(), job: job}.counts(1e-6)
			want := GammaPoisson(a, a*80, job.Equivalent(0.5))
			for n := range 6 {
				if math.Abs(got.Chance(n)-want.Chance(n)) > 2e-3 {
					t.Errorf("gamma shape %v, job %v: P(N ≤ %d) = %.5f, want %.5f", a, job, n, got.Chance(n), want.Chance(n))
				}
			}
		}
	}
}

func wantNear(t *testing.T, name string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within*max(math.Abs(want), 1e-300)) {
		t.Errorf("%s = %.15g, want %.15g within %g", name, got, want, within)
	}
}
