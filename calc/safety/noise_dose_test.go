package safety

import (
	"math"
	"math/rand"
	"testing"

	"kerfside/calc/unit"
)

// A steady 8 h at a rule's own criterion is its whole dose, each halving step
// louder halves the time, and a day parted into pieces has the same dose.
func TestNoiseLaws(t *testing.T) {
	for _, x := range []exchange{oshaNoise, nioshNoise} {
		for l := 80.0; l < 137; l += 0.7 {
			a, b := x.allowed(unit.Level(l)), x.allowed(unit.Level(l+x.halving))
			if math.Abs(float64(a/b)-2) > 1e-9 {
				t.Errorf("%+v: %v dB allows %v, %v dB %v", x, l, a, l+x.halving, b)
			}
		}
	}
	r := rand.New(rand.NewSource(3))
	for range 300 {
		level := unit.Level(70 + 60*r.Float64())
		whole := NoiseInput{Exposures: []Exposure{{level, 7200}}}
		parted := NoiseInput{Exposures: []Exposure{{level, 3000}, {60, 500}, {level, 4200}}}
		a, errA := ComputeNoise(whole)
		b, errB := ComputeNoise(parted)
		if errA != nil || errB != nil || math.Abs(float64(a.NIOSH.Dose-b.NIOSH.Dose)) > 1e-9*math.Max(1, float64(a.NIOSH.Dose)) {
			t.Errorf("%v: whole %v (%v), parted %v (%v)", level, a.NIOSH.Dose, errA, b.NIOSH.Dose, errB)
		}
		if a.NIOSH.Dose < a.OSHA.Dose {
			t.Errorf("%v: the NIOSH dose %v is below the OSHA dose %v", level, a.NIOSH.Dose, a.OSHA.Dose)
		}
	}
}
