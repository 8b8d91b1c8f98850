package material

import (
	"math"
	"testing"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

func TestGauge(t *testing.T) {
	tests := []struct {
		metal  Metal
		number string
		inch   float64
		within float64
		from   string
	}{
		{metal: MildSteel, number: "16", inch: 0.0598, within: 5e-5, from: "Manufacturers' Standard table"},
		{metal: MildSteel, number: "16ga", inch: 0.0598, within: 5e-5, from: "Manufacturers' Standard table"},
		{metal: MildSteel, number: "3", inch: 0.2391, within: 5e-5, from: "Manufacturers' Standard table"},
		{metal: MildSteel, number: "10 gauge", inch: 0.1345, within: 5e-5, from: "Manufacturers' Standard table"},
		{metal: MildSteel, number: "28", inch: 0.0149, within: 5e-5, from: "Manufacturers' Standard table"},
		{metal: Galvanised, number: "8", inch: 0.1681, within: 1e-4, from: "galvanised sheet table"},
		{metal: Galvanised, number: "14", inch: 0.0785, within: 1e-4, from: "galvanised sheet table"},
		{metal: Galvanised, number: "16", inch: 0.0635, within: 1e-4, from: "galvanised sheet table"},
		{metal: Galvanised, number: "28", inch: 0.0187, within: 1e-4, from: "galvanised sheet table"},
		{metal: Stainless, number: "7/0", inch: 0.5, within: 0, from: "15 U.S.C. 206"},
		{metal: Stainless, number: "16", inch: 0.0625, within: 0, from: "15 U.S.C. 206"},
		{metal: Stainless, number: "20", inch: 0.0375, within: 1e-15, from: "15 U.S.C. 206"},
		{metal: Stainless, number: "#8", inch: 0.171875, within: 0, from: "15 U.S.C. 206"},
		{metal: Aluminium, number: "16", inch: 0.0508, within: 5e-5, from: "American Wire Gauge table"},
		{metal: Aluminium, number: "10", inch: 0.10189712, within: 5e-9, from: "GNU Units 2.22, wiregauge(10)"},
		{metal: Aluminium, number: "0000", inch: 0.46, within: 1e-12, from: "definition: 0.46 in at 4/0"},
		{metal: Aluminium, number: "4/0", inch: 0.46, within: 1e-12, from: "definition: 0.46 in at 4/0"},
		{metal: Aluminium, number: "36", inch: 0.005, within: 1e-12, from: "definition: 0.005 in at 36"},
	}
	for _, test := range tests {
		got, err := Gauge(test.metal, test.number)
		if inch := float64(got / unit.Inch); err != nil || math.Abs(inch-test.inch) > test.within+1e-15 {
			t.Errorf("Gauge(%s, %q) = %.6f in, %v, want %.6f (%s)", test.metal, test.number, inch, err, test.inch, test.from)
		}
	}
}

func TestGaugeRefuses(t *testing.T) {
	tests := []struct {
		metal  Metal
		number string
		want   problem.Kind
	}{
		{metal: MildSteel, number: "2", want: problem.Range},
		{metal: MildSteel, number: "39", want: problem.Range},
		{metal: Galvanised, number: "7", want: problem.Range},
		{metal: Galvanised, number: "33", want: problem.Range},
		{metal: Stainless, number: "8/0", want: problem.Range},
		{metal: Aluminium, number: "41", want: problem.Range},
		{metal: Aluminium, number: "0000000", want: problem.Range},
		{metal: MildSteel, number: "16.5", want: problem.Malformed},
		{metal: MildSteel, number: "-3", want: problem.Malformed},
		{metal: MildSteel, want: problem.Malformed},
		{metal: MildSteel, number: "thin", want: problem.Malformed},
		{metal: MildSteel, number: "0/0", want: problem.Malformed},
		{metal: CastIron, number: "16", want: problem.Refused},
		{metal: "tin", number: "16", want: problem.Refused},
	}
	for _, test := range tests {
		if got, err := Gauge(test.metal, test.number); problem.KindOf(err) != test.want || got != 0 {
			t.Errorf("Gauge(%s, %q) = %v, %v, want a problem of kind %s", test.metal, test.number, got, err, test.want)
		}
	}
}

// The ounces of 15 U.S.C. 206, number 0000000 to 38, with the even steps of
// the law written out by hand.
func TestLadder(t *testing.T) {
	law := []float64{
		320, 300, 280, 260, 240, 220, 200, // 7/0 to 0
		180, 170, 160, 150, 140, 130, 120, 110, 100, 90, 80, 70, 60, 50, // 1 to 14
		45, 40, 36, 32, 28, 24, 22, 20, 18, 16, 14, 12, 11, 10, 9, 8, 7, // 15 to 31
		6.5, 6, 5.5, 5, 4.5, 4.25, 4, // 32 to 38
	}
	for i, want := range law {
		if got := ounces(i - 6); math.Abs(got-want) > 1e-12 {
			t.Errorf("ounces(%s) = %v, want %v", GaugeName(i-6), got, want)
		}
	}
}

// Every gauging falls from number to number, and each number is the nearest
// to its own thickness: names and thicknesses convert both ways.
func TestGaugingsFall(t *testing.T) {
	for _, metal := range []Metal{MildSteel, Galvanised, Stainless, Aluminium} {
		g, err := GaugingOf(metal)
		if err != nil {
			t.Fatal(err)
		}
		for n := g.First; n <= g.Last; n++ {
			if n > g.First && g.Thickness(n) >= g.Thickness(n-1) {
				t.Errorf("%s: number %s is not thinner than %s", g.Name, GaugeName(n), GaugeName(n-1))
			}
			read, err := g.Read(GaugeName(n))
			if err != nil || read != n {
				t.Errorf("%s: Read(%q) = %d, %v, want %d", g.Name, GaugeName(n), read, err, n)
			}
			of := func(n int) float64 { return float64(g.Thickness(n)) }
			if got := g.Nearest(of(n), of); got != n {
				t.Errorf("%s: Nearest(%v) = %d, want %d", g.Name, g.Thickness(n), got, n)
			}
		}
	}
}
