package material

import (
	"math"
	"testing"

	"kerfside/calc/unit"
)

// mean integrates f from a to b by Simpson's rule and divides by b − a.
func mean(f func(float64) float64, a, b float64) float64 {
	const n = 2000
	h, sum := (b-a)/n, f(a)+f(b)
	for i := 1; i < n; i++ {
		sum += f(a+float64(i)*h) * float64(2+2*(i%2))
	}
	return sum * h / 3 / (b - a)
}

// TestMeltByVolume checks iron and aluminium against NASA's enthalpies and CRC
// densities: 10.26 and 2.90 J/mm³ from 20 °C to liquid.
func TestMeltByVolume(t *testing.T) {
	for metal, want := range map[Metal]float64{MildSteel: 10.26, Aluminium: 2.90} {
		h, _ := metal.Heat("")
		rho, _, _ := metal.Density()
		if got := float64(rho) * float64(h.Melt) / 1e9; math.Abs(got/want-1) > 0.01 {
			t.Errorf("%s takes %.3f J/mm³ to melt, want %.2f within 1 %%", metal, got, want)
		}
	}
}

// TestCarbonSteelConductivity integrates the law of EN 1993-1-2, 54 − 0.0333·θ
// to 800 °C and 27.3 above, up to the liquidus.
func TestCarbonSteelConductivity(t *testing.T) {
	h, _ := MildSteel.Heat("")
	law := func(c float64) float64 {
		if c < 800 {
			return 54 - 0.0333*c
		}
		return 27.3
	}
	want := mean(law, 20, h.Liquidus.Celsius())
	if math.Abs(float64(h.Conductivity)/want-1) > 0.01 {
		t.Errorf("mean conductivity %v, want %.2f within 1 %%", h.Conductivity, want)
	}
	if math.Abs(float64(h.High)-law(20)) > 0.1 || math.Abs(float64(h.Low)-27.3) > 0.1 {
		t.Errorf("range %v to %v, want the law's %.1f to 27.3", h.Low, h.High, law(20))
	}
}

// TestStainless integrates Kim's lines for 316 from room to 1700 K, latent heat
// 268 kJ/kg on top; EN 1993-1-2 Annex C has to agree on conductivity within 10 %.
func TestStainless(t *testing.T) {
	h, _ := Stainless.Heat("")
	room, top := float64(Room), float64(h.Liquidus)
	k := mean(func(t float64) float64 { return 9.248 + 0.01571*t }, room, top)
	melt := mean(func(t float64) float64 { return 459.3 + 0.1329*t }, room, top)*(top-room) + 268e3
	if math.Abs(float64(h.Conductivity)/k-1) > 0.01 || math.Abs(float64(h.Melt)/melt-1) > 0.005 {
		t.Errorf("conductivity %v and melt %v, want %.2f and %.0f", h.Conductivity, h.Melt, k, melt)
	}
	code := mean(func(t float64) float64 { return 14.6 + 0.0127*(t-273.15) }, room, top)
	if math.Abs(float64(h.Conductivity)/code-1) > 0.1 {
		t.Errorf("conductivity %v, EN 1993-1-2 gives %.2f", h.Conductivity, code)
	}
}

// TestCopper integrates the Shomate line of solid copper in NIST's WebBook (from
// memory) from room to its melting point and adds 13.26 kJ/mol of the CRC Handbook.
func TestCopper(t *testing.T) {
	h, _ := Copper.Heat("")
	capacity := func(kelvin float64) float64 { // J/(mol·K)
		t := kelvin / 1000
		return 17.72891 + 28.09870*t - 31.25289*t*t + 13.97243*t*t*t + 0.068611/(t*t)
	}
	room, top := float64(Room), float64(h.Liquidus)
	want := (mean(capacity, room, top)*(top-room) + 13260) / 0.063546
	if math.Abs(float64(h.Melt)/want-1) > 0.005 {
		t.Errorf("copper melts with %v, want %.0f J/kg", h.Melt, want)
	}
}

func TestHeatOfEveryMetal(t *testing.T) {
	for metal := range densities {
		h, ok := metal.Heat("")
		if !ok || h.Melt <= 0 || h.Hotter <= 0 || h.Rise() < 500 || len(h.Sources) == 0 {
			t.Errorf("%s: %+v, %v", metal, h, ok)
		}
		if h.Conductivity < h.Low || h.Conductivity > h.High {
			t.Errorf("%s: conductivity %v is outside its own range %v to %v", metal, h.Conductivity, h.Low, h.High)
		}
	}
	for alloy := range alloys {
		h, _ := Aluminium.Heat(alloy)
		if h.Conductivity < h.Low || h.Conductivity > h.High {
			t.Errorf("%s: conductivity %v is outside %v to %v", alloy, h.Conductivity, h.Low, h.High)
		}
	}
	plain, _ := MildSteel.Heat("")
	zinc, _ := Galvanised.Heat("")
	if zinc.Melt != plain.Melt || zinc.Conductivity != plain.Conductivity {
		t.Error("galvanised sheet does not melt as the steel that it is")
	}
	if _, ok := Metal("tin").Heat(""); ok {
		t.Error("tin is not listed, and yet has figures")
	}
	// An alloy's number means nothing for another metal.
	steel, _ := MildSteel.Heat("6061")
	if steel.Conductivity != unit.Conductivity(34) {
		t.Errorf("6061 changed mild steel to %v", steel.Conductivity)
	}
}
