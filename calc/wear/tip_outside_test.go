//go:build !js

// Native only: it runs other programs, which a phone cannot.

package wear

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/outside"
	"kerfside/calc/unit"
)

// TestTipAgainstOutside: the current density of random worn bores beside GNU Units,
// whose circlearea knows circles, and the air that they take more beside the hole
// that API Standard 520 asks for that much more air, by the library fluids. An oval
// bore counts as the circle of its area.
func TestTipAgainstOutside(t *testing.T) {
	type hole struct {
		Flow        float64 `json:"flow"`
		Discharge   float64 `json:"discharge"`
		Temperature float64 `json:"temperature"`
		Inlet       float64 `json:"inlet"`
		Outlet      float64 `json:"outlet"`
	}
	random := rand.New(rand.NewPCG(40, 1))
	var tips []TipInput
	var results []TipResult
	var densities [][2]string
	var holes []hole
	for range 300 {
		fresh := 0.6 + 2*random.Float64()
		small := fresh * (1 + 0.3*random.Float64())
		large := small * (1 + 0.2*random.Float64())
		in := tip(small, large)
		in.New, in.Current = unit.Length(fresh)*unit.Millimetre, unit.Current(20+80*random.Float64())
		res := mustTip(t, in)
		tips, results = append(tips, in), append(results, res)
		for _, square := range []float64{fresh * fresh, small * large} {
			densities = append(densities, [2]string{fmt.Sprintf("%.15g A / circlearea(%.15g mm / 2)", float64(in.Current), math.Sqrt(square)), "A/m^2"})
		}
		flow, inlet := 1e-3*(0.2+random.Float64()), 4e5+4e5*random.Float64()
		for _, share := range []float64{1, 1 + float64(res.Air)} {
			holes = append(holes, hole{Flow: flow * share, Discharge: 0.9, Temperature: 293.15, Inlet: inlet, Outlet: 101325})
		}
	}
	var theirs struct{ Holes []float64 }
	none := []any{}
	outside.Python(t, outside.Fluids, "air_flow.py", map[string]any{"lines": none, "walls": none, "holes": holes}, &theirs)
	amps := outside.Units(t, densities)
	for i, res := range results {
		if !outside.Near(float64(res.DensityNew), amps[2*i], 1e-12) || !outside.Near(float64(res.Density), amps[2*i+1], 1e-12) {
			t.Errorf("%+v: new %v A/m², now %v, GNU Units %v and %v", tips[i], float64(res.DensityNew), float64(res.Density), amps[2*i], amps[2*i+1])
		}
		grown := math.Sqrt(float64(tips[i].Smallest*tips[i].Largest)) / float64(tips[i].New)
		if want := theirs.Holes[2*i+1] / theirs.Holes[2*i]; !outside.Near(grown, want, 1e-12) {
			t.Errorf("%+v: %v more air passes a hole %.12g times as wide, fluids %.12g", tips[i], float64(res.Air), grown, want)
		}
	}
	t.Logf("tally: %d comparisons with GNU Units", len(densities))
	t.Logf("tally: %d comparisons with fluids", len(results))
}
