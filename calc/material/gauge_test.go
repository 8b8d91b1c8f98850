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
		{MildSteel, "16", 0.0598, 5e-5, "Manufacturers' Standard table"},
		{MildSteel, "16ga", 0.0598, 5e-5, "Manufacturers' Standard table"},
		{MildSteel, "3", 0.2391, 5e-5, "Manufacturers' Standard table"},
		{MildSteel, "10 gauge", 0.1345, 5e-5, "Manufacturers' Standard table"},
		{MildSteel, "28", 0.0149, 5e-5, "Manufacturers' Standard table"},
		{Galvanised, "8", 0.1681, 1e-4, "galvanised sheet table"},
		{Galvanised, "14", 0.0785, 1e-4, "galvanised sheet table"},
		{Galvanised, "16", 0.0635, 1e-4, "galvanised sheet table"},
		{Galvanised, "28", 0.0187, 1e-4, "galvanised sheet table"},
		{Stainless, "7/0", 0.5, 0, "15 U.S.C. 206"},
		{Stainless, "16", 0.0625, 0, "15 U.S.C. 206"},
		{Stainless, "20", 0.0375, 1e-15, "15 U.S.C. 206"},
		{Stainless, "#8", 0.171875, 0, "15 U.S.C. 206"},
		{Aluminium, "16", 0.0508, 5e-5, "American Wire Gauge table"},
		{Aluminium, "10", 0.10189712, 5e-9, "GNU Units 2.22, wiregauge(10)"},
		{Aluminium, "0000", 0.46, 1e-12, "definition: 0.46 in at 4/0"},
		{Aluminium, "4/0", 0.46, 1e-12, "definition: 0.46 in at 4/0"},
		{Aluminium, "36", 0.005, 1e-12, "definition: 0.005 in at 36"},
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
		{MildSteel, "2", problem.Range},
		{MildSteel, "39", problem.Range},
		{Galvanised, "7", problem.Range},
		{Galvanised, "33", problem.Range},
		{Stainless, "8/0", problem.Range},
		{Aluminium, "41", problem.Range},
		{Aluminium, "0000000", problem.Range},
		{MildSteel, "16.5", problem.Malformed},
		{MildSteel, "-3", problem.Malformed},
		{MildSteel, "", problem.Malformed},
		{MildSteel, "thin", problem.Malformed},
		{MildSteel, "0/0", problem.Malformed},
		{CastIron, "16", problem.Refused},
		{"tin", "16", problem.Refused},
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
