package wear

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

func ones(n int) []float64 {
	c := make([]float64, n)
	for i := range c {
		c[i] = 1
	}
	return c
}

func near(t *testing.T, name string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Max(math.Abs(want), 1e-300)) {
		t.Errorf("%s = %.15g, want %.15g within %g", name, got, want, relative)
	}
}

// certified holds one set of the NIST Statistical Reference Datasets, linear
// least squares: certified coefficients, their standard deviations and the
// residual standard deviation.
type certified struct {
	name      string
	columns   [][]float64
	y         []float64
	coef, sd  []float64
	deviation float64
	within    float64 // relative, of the coefficients
}

func (c certified) check(t *testing.T) {
	t.Helper()
	s, ok := fit(c.columns, c.y)
	if !ok {
		t.Fatalf("%s: no fit", c.name)
	}
	for j := range c.coef {
		near(t, c.name+" coefficient", s.coef[j], c.coef[j], c.within)
		if c.sd[j] > 0 {
			near(t, c.name+" deviation of a coefficient", s.deviation()*math.Sqrt(s.inner[j][j]), c.sd[j], c.within)
		}
	}
	if c.deviation > 0 {
		near(t, c.name+" residual deviation", s.deviation(), c.deviation, 1e-8)
	}
}

func TestNorris(t *testing.T) {
	x := []float64{.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, .4, .6, 775.5, 666.9, 338.0, 447.5, 11.6,
		556.0, 228.1, 995.8, 887.6, 120.2, .3, .3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, .5}
	y := []float64{.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, .3, .1, 778.1, 668.8, 339.3, 448.9, 10.8,
		557.7, 228.3, 998.0, 888.8, 119.6, .3, .6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, .2}
	certified{name: "Norris", columns: [][]float64{ones(36), x}, y: y,
		coef: []float64{-0.262323073774029, 1.00211681802045}, sd: []float64{0.232818234301152, 0.429796848199937e-3}, deviation: 0.884796396144373, within: 1e-11}.check(t)
}

func TestLongley(t *testing.T) {
	y := []float64{60323, 61122, 60171, 61187, 63221, 63639, 64989, 63761, 66019, 67857, 68169, 66513, 68655, 69564, 69331, 70551}
	x := [][]float64{ones(16),
		{83.0, 88.5, 88.2, 89.5, 96.2, 98.1, 99.0, 100.0, 101.2, 104.6, 108.4, 110.8, 112.6, 114.2, 115.7, 116.9},
		{234289, 259426, 258054, 284599, 328975, 346999, 365385, 363112, 397469, 419180, 442769, 444546, 482704, 502601, 518173, 554894},
		{2356, 2325, 3682, 3351, 2099, 1932, 1870, 3578, 2904, 2822, 2936, 4681, 3813, 3931, 4806, 4007},
		{1590, 1456, 1616, 1650, 3099, 3594, 3547, 3350, 3048, 2857, 2798, 2637, 2552, 2514, 2572, 2827},
		{107608, 108632, 109773, 110929, 112075, 113270, 115094, 116219, 117388, 118734, 120445, 121950, 123366, 125368, 127852, 130081},
		{1947, 1948, 1949, 1950, 1951, 1952, 1953, 1954, 1955, 1956, 1957, 1958, 1959, 1960, 1961, 1962}}
	certified{name: "Longley", columns: x, y: y,
		coef:      []float64{-3482258.63459582, 15.0618722713733, -0.358191792925910e-1, -2.02022980381683, -1.03322686717359, -0.511041056535807e-1, 1829.15146461355},
		sd:        []float64{890420.383607373, 84.9149257747669, 0.334910077722432e-1, 0.488399681651699, 0.214274163161675, 0.226073200069370, 455.478499142212},
		deviation: 304.854073561965, within: 1e-8}.check(t)
}

func TestWampler(t *testing.T) {
	powers := make([][]float64, 6)
	for j := range powers {
		for x := range 21 {
			powers[j] = append(powers[j], math.Pow(float64(x), float64(j)))
		}
	}
	sum := func(scale []float64) []float64 {
		y := make([]float64, 21)
		for j, k := range scale {
			for i := range y {
				y[i] += k * powers[j][i]
			}
		}
		return y
	}
	noise := []float64{759, -2048, 2048, -2048, 2523, -2048, 2048, -2048, 1838, -2048, 2048, -2048, 1838, -2048, 2048, -2048, 2523, -2048, 2048, -2048, 759}
	all := []float64{1, 1, 1, 1, 1, 1}
	none := make([]float64, 6)
	sd3 := []float64{2152.32624678170, 2363.55173469681, 779.343524331583, 101.475507550350, 5.64566512170752, 0.112324854679312}
	sets := []certified{
		{name: "Wampler1", columns: powers, y: sum(all), coef: all, sd: none, deviation: 0, within: 1e-8},
		{name: "Wampler2", columns: powers, y: sum([]float64{1, .1, .01, .001, .0001, .00001}), coef: []float64{1, .1, .01, .001, .0001, .00001}, sd: none, deviation: 0, within: 1e-9},
	}
	for i, times := range []float64{1, 100, 10000} {
		y, sd := sum(all), make([]float64, 6)
		for k := range y {
			y[k] += times * noise[k]
		}
		for k := range sd {
			sd[k] = times * sd3[k]
		}
		sets = append(sets, certified{name: "Wampler" + string(rune('3'+i)), columns: powers, y: y, coef: all, sd: sd, deviation: times * 2360.14502379268, within: 1e-5})
	}
	for _, set := range sets {
		set.check(t)
	}
}

// Delivery times: Montgomery, Peck & Vining, Introduction to Linear Regression
// Analysis, table 3.2, as printed in two course scripts (coefficients, residual
// deviation) and by R's lm and predict (the rest): the same shape as wear by
// minutes and starts.
func TestDeliveryTimes(t *testing.T) {
	rows := [][3]float64{{16.68, 7, 560}, {11.50, 3, 220}, {12.03, 3, 340}, {14.88, 4, 80}, {13.75, 6, 150}, {18.11, 7, 330}, {8.00, 2, 110},
		{17.83, 7, 210}, {79.24, 30, 1460}, {21.50, 5, 605}, {40.33, 16, 688}, {21.00, 10, 215}, {13.50, 4, 255}, {19.75, 6, 462}, {24.00, 9, 448},
		{29.00, 10, 776}, {15.35, 6, 200}, {19.00, 7, 132}, {9.50, 3, 36}, {35.10, 17, 770}, {17.90, 10, 140}, {52.32, 26, 810}, {18.75, 9, 450},
		{19.83, 8, 635}, {10.75, 4, 150}}
	var y, cases, distance []float64
	for _, r := range rows {
		y, cases, distance = append(y, r[0]), append(cases, r[1]), append(distance, r[2])
	}
	s, ok := fit([][]float64{ones(len(y)), cases, distance}, y)
	if !ok {
		t.Fatal("no fit")
	}
	near(t, "intercept", s.coef[0], 2.34123115, 1e-8)
	near(t, "per case", s.coef[1], 1.61590721, 1e-8)
	near(t, "per distance", s.coef[2], 0.01438483, 3e-7)
	near(t, "residual deviation", s.deviation(), 3.259473447580096, 1e-12)
	near(t, "deviation of the intercept", s.deviation()*math.Sqrt(s.inner[0][0]), 1.096730168180104, 1e-11)
	near(t, "deviation per case", s.deviation()*math.Sqrt(s.inner[1][1]), 0.1707349182810888, 1e-11)
	near(t, "deviation per distance", s.deviation()*math.Sqrt(s.inner[2][2]), 0.003613085874304194, 1e-11)
	at := []float64{1, 8, 275}
	near(t, "at 8 cases, 275 ft", s.at(at), 19.224316050342, 1e-12)
	near(t, "leverage", s.leverage(at), 0.0539725517939, 1e-11)
	near(t, "t of 22", distuv.StudentsT{Mu: 0, Sigma: 1, Nu: 22}.Quantile(0.975), 2.07387306790403, 1e-12)
	half := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: 22}.Quantile(0.975) * s.deviation() * math.Sqrt(1+s.leverage(at))
	near(t, "prediction interval, low", s.at(at)-half, 12.28455895, 1e-9)
	near(t, "prediction interval, high", s.at(at)+half, 26.16407315, 1e-9)
}

// Non-negative least squares: the example of SciPy's documentation, and one run
// in R's nnls and in SciPy.
func TestNonNegative(t *testing.T) {
	tests := []struct {
		name    string
		columns [][]float64
		y       []float64
		want    []float64
		norm    float64
	}{
		{name: "SciPy, first", columns: [][]float64{{1, 1, 0}, {0, 0, 1}}, y: []float64{2, 1, 1}, want: []float64{1.5, 1}, norm: 0.7071067811865475},
		{name: "SciPy, second", columns: [][]float64{{1, 1, 0}, {0, 0, 1}}, y: []float64{-1, -1, -1}, want: []float64{0, 0}, norm: 1.7320508075688772},
		{name: "R nnls and SciPy", columns: [][]float64{{1, 2, 3, 4}, {4, 3, 2, 1}, {1, 0, 1, 0}}, y: []float64{-1, 2, 3, 1}, want: []float64{8.0 / 15, 0, 0}, norm: 2.5429641497},
	}
	for _, test := range tests {
		s, kept := nonNegative(test.columns, test.y)
		got := make([]float64, len(test.columns))
		for i, j := range kept {
			got[j] = s.coef[i]
		}
		for j := range got {
			if math.Abs(got[j]-test.want[j]) > 1e-12 {
				t.Errorf("%s: k = %v, want %v", test.name, got, test.want)
			}
		}
		near(t, test.name+" norm", math.Sqrt(s.sse), test.norm, 1e-10)
	}
}
