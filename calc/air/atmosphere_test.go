package air

import (
	"math"
	"testing"

	"kerfside/calc/unit"
)

// TestAirPressurePublished: rows of ISO 2533 by geometric altitude: hPa, K, and
// density from both.
func TestAirPressurePublished(t *testing.T) {
	rows := []struct{ metres, hPa, kelvin, density float64 }{
		{metres: 0, hPa: 1013.250, kelvin: 288.150, density: 1.22500}, {metres: 300, hPa: 977.727, kelvin: 286.200, density: 1.19011}, {metres: 500, hPa: 954.612, kelvin: 284.900, density: 1.16727},
		{metres: 1000, hPa: 898.763, kelvin: 281.651, density: 1.11166}, {metres: 1500, hPa: 845.597, kelvin: 278.402, density: 1.05810}, {metres: 2000, hPa: 795.014, kelvin: 275.154, density: 1.00655},
		{metres: 3000, hPa: 701.212, kelvin: 268.659, density: 0.909254}, {metres: 4000, hPa: 616.604, kelvin: 262.166, density: 0.819347},
	}
	for _, row := range rows {
		h := unit.Length(row.metres)
		if got := float64(AirPressure(h)) / 100; math.Abs(got-row.hPa) > 0.01 {
			t.Errorf("AirPressure(%g m) = %.3f hPa, ISO 2533 %.3f", row.metres, got, row.hPa)
		}
		if got := float64(standardTemperature(h)); math.Abs(got-row.kelvin) > 0.001 {
			t.Errorf("temperature at %g m = %.3f K, ISO 2533 %.3f", row.metres, got, row.kelvin)
		}
		if got := float64(Density(AirPressure(h), standardTemperature(h))); math.Abs(got-row.density) > 2e-5 {
			t.Errorf("density at %g m = %.5f, ISO 2533 %.5f", row.metres, got, row.density)
		}
	}
	// ASHRAE Handbook 2017, chapter 1, table 1, by geopotential altitude.
	for h, want := range map[float64]float64{-500: 107478, 500: 95461, 1000: 89875, 4000: 61640} {
		geometric := unit.Length(6356766 * h / (6356766 - h))
		if got := float64(AirPressure(geometric)); math.Abs(got-want) > 2 {
			t.Errorf("AirPressure at geopotential %g m = %.1f Pa, ASHRAE %g", h, got, want)
		}
	}
}

// TestGasPublished: viscosity of ISO 2533 at 15 °C, and the densities of the
// reference states.
func TestGasPublished(t *testing.T) {
	if got := viscosity(288.15); math.Abs(got-1.7894e-5) > 5e-10 {
		t.Errorf("viscosity(288.15 K) = %g, ISO 2533 1.7894e-5", got)
	}
	for word, want := range map[string]float64{"anr": 1.188, "scf-60f": 1.2226, "scf-68f": 1.204, "normal": 1.2923, "iso-2533": 1.2250} {
		ref, ok := FindReference(word)
		if got := float64(ref.Density()); !ok || math.Abs(got/want-1) > 5e-4 {
			t.Errorf("density of %s = %.4f, want %.4f", word, got, want)
		}
	}
}
