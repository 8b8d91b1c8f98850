package air

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/unit"
)

// TestCriticalRatio against the fluids library's P_critical_flow(1, 1.4).
func TestCriticalRatio(t *testing.T) {
	if want := 0.5282817877171742; math.Abs(criticalRatio-want) > 1e-15 {
		t.Errorf("critical ratio = %.16f, want %.16f", criticalRatio, want)
	}
}

// TestOrificeLaws: the flow is continuous at the critical ratio, does not
// depend on what lies behind below it, rises with pressure and with the square
// of the hole, and is never a negative or NaN.
func TestOrificeLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 1000 {
		hole := unit.Length(0.0002 + 0.01*random.Float64())
		at := unit.Celsius(-40 + 120*random.Float64())
		p1 := unit.Pressure(1e5 + 15e5*random.Float64())
		p2 := p1 * unit.Pressure(1.1*random.Float64())
		m := OrificeFlow(hole, 1, p1, p2, at)
		if !(m >= 0) || math.IsInf(float64(m), 0) {
			t.Fatalf("OrificeFlow(%v, %v → %v, %v) = %v", hole, p1, p2, at, m)
		}
		if p2 < p1 {
			if twice := OrificeFlow(2*hole, 1, p1, p2, at); math.Abs(float64(twice/m)-4) > 1e-9 {
				t.Errorf("twice the hole passes %g times as much, want 4", twice/m)
			}
			if more := OrificeFlow(hole, 1, p1*1.01, p2, at); more <= m {
				t.Errorf("more pressure passes %v, not more than %v", more, m)
			}
		}
		sonic := OrificeFlow(hole, 1, p1, 0, at)
		if m > sonic {
			t.Errorf("%v passes, more than the sonic %v", m, sonic)
		}
		if got, want := float64(sonic), 0.684731*math.Pi/4*float64(hole*hole)*float64(p1)/math.Sqrt(gasConstant*float64(at)); math.Abs(got/want-1) > 1e-5 {
			t.Errorf("sonic flow = %g, want %g by the short form", got, want)
		}
		edge := p1 * unit.Pressure(criticalRatio)
		if a, b := OrificeFlow(hole, 1, p1, edge*0.9999, at), OrificeFlow(hole, 1, p1, edge*1.0001, at); math.Abs(float64(b/a)-1) > 1e-6 {
			t.Errorf("the flow jumps at the critical ratio from %v to %v", a, b)
		}
	}
}
