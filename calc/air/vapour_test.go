package air

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/unit"
)

func TestSaturationPublished(t *testing.T) {
	tests := []struct {
		where    string
		at       unit.Temperature
		want     float64
		relative float64
	}{
		{where: "IAPWS-IF97 table 35", at: 300, want: 3536.58941, relative: 1e-8},
		{where: "IAPWS-IF97 table 35, beyond the range used", at: 500, want: 2638897.76, relative: 1e-8},
		{where: "IAPWS-IF97 table 35, beyond the range used", at: 600, want: 12344314.6, relative: 1e-8},
		{where: "IAPWS R14-08, sublimation", at: 230, want: 8.94735, relative: 1e-6},
		{where: "ASHRAE 2017 table 3", at: unit.Celsius(5), want: 872.6, relative: 3e-4},
		{where: "ASHRAE 2017 table 3", at: unit.Celsius(25), want: 3169.7, relative: 3e-4},
		{where: "ASHRAE 2017 table 3", at: unit.Celsius(50), want: 12351.3, relative: 3e-4},
	}
	for _, test := range tests {
		if got := float64(Saturation(test.at)); math.Abs(got/test.want-1) > test.relative {
			t.Errorf("Saturation(%.2f K) = %.9g Pa, want %.9g (%s)", float64(test.at), got, test.want, test.where)
		}
	}
	// Magnus' formula as WMO 611.2 gives it, good to 0.35 % there.
	for c := 0.0; c <= 50; c += 0.5 {
		want := 611.2 * math.Exp(17.62*c/(243.12+c))
		if got := float64(Saturation(unit.Celsius(c))); math.Abs(got/want-1) > 0.0035 {
			t.Errorf("Saturation(%g °C) = %g Pa, Magnus %g", c, got, want)
		}
	}
}

// TestSaturationLaws: it rises throughout, also past the triple point, and the
// dew point finds the temperature back.
func TestSaturationLaws(t *testing.T) {
	for c := -99.9; c < 200; c += 0.1 {
		if Saturation(unit.Celsius(c)) <= Saturation(unit.Celsius(c-0.1)) {
			t.Errorf("saturation does not rise at %.1f °C", c)
		}
	}
	random := rand.New(rand.NewPCG(9, 10))
	for range 1000 {
		at := unit.Celsius(-95 + 290*random.Float64())
		if got := DewPoint(Saturation(at)); math.Abs(float64(got-at)) > 1e-4 {
			t.Errorf("seed 9,10: DewPoint(Saturation(%v)) = %v", at, got)
		}
		w := unit.Ratio(random.Float64())
		p := unit.Pressure(1e4 + 4e6*random.Float64())
		if got := HumidityRatio(VapourPressure(w, p), p); math.Abs(float64(got-w)) > 1e-9 {
			t.Errorf("seed 9,10: humidity ratio %v comes back as %v", w, got)
		}
	}
}

// Upstream test values of psychrolib, which took them from the ASHRAE
// Handbook: humidity ratio of saturated air, and vapour pressure and dew point
// of air of 30 °C and 60 % pressed to 8 bar absolute.
func TestHumidityPublished(t *testing.T) {
	if got := float64(HumidityRatio(3169.7, 95461)); math.Abs(got-0.0213603998047487) > 1e-9 {
		t.Errorf("HumidityRatio(3169.7, 95461) = %.12f, want 0.0213603998", got)
	}
	if got := float64(HumidityRatio(Saturation(unit.Celsius(25)), unit.Atmosphere)); math.Abs(got/0.020173-1) > 0.005 {
		t.Errorf("saturated at 25 °C: %.6f, want 0.020173", got)
	}
	w := HumidityRatio(0.6*Saturation(unit.Celsius(30)), unit.Atmosphere)
	if got := DewPoint(VapourPressure(w, 8*unit.Bar)).Celsius(); math.Abs(got-60.18422174) > 0.02 {
		t.Errorf("pressure dew point = %.5f °C, want 60.184", got)
	}
}
