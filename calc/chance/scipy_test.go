//go:build !js

// Native only: it runs another program, which a phone cannot.

package chance

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/outside"
)

// TestAgainstSciPy compares both distributions at random places, out to where one
// in a million lies and from one degree of freedom to a thousand. SciPy 1.10 finds
// Student's quantile to eight figures only, so it is asked how probable ours is.
func TestAgainstSciPy(t *testing.T) {
	random := rand.New(rand.NewPCG(35, 1))
	type question map[string]any
	var ask []question
	var ours [][]float64
	for range 1000 {
		z, mean, sigma := 5*random.NormFloat64(), random.NormFloat64(), 0.1+random.Float64()
		p := math.Pow(10, -6*random.Float64())
		nu := math.Pow(1000, random.Float64())
		ask = append(ask,
			question{"ask": "normal", "z": z, "mean": mean, "sigma": sigma, "p": p},
			question{"ask": "student", "t": StudentQuantile(p, nu), "nu": nu})
		ours = append(ours, []float64{Normal(z), NormalQuantile(p), NormalLogDensity(z, mean, sigma)}, []float64{p})
	}
	var theirs []json.RawMessage
	outside.Python(t, outside.SciPy, "statistics.py", ask, &theirs)
	if len(theirs) != len(ask) {
		t.Fatalf("%d answers to %d questions", len(theirs), len(ask))
	}
	compared := 0
	for i, text := range theirs {
		want := make([]float64, len(ours[i]))
		var err error
		if len(want) == 1 {
			err = json.Unmarshal(text, &want[0])
		} else {
			err = json.Unmarshal(text, &want)
		}
		if err != nil {
			t.Fatal(err)
		}
		for j, got := range ours[i] {
			if !outside.Near(got, want[j], 1e-10) && math.Abs(got-want[j]) > 1e-14 {
				t.Errorf("%v: %.14g, SciPy %.14g", ask[i], got, want[j])
			}
			compared++
		}
	}
	t.Logf("tally: %d comparisons with SciPy", compared)
}
