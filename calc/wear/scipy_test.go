//go:build !js

// Native only: it runs another program, which a phone cannot.

package wear

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/outside"
)

// TestWearAgainstSciPy learns an electrode's two rates from random readings, by
// SciPy's non-negative least squares as well. Where both rates count, the range of
// one more reading is compared too; SciPy's covariance comes from differences, so
// six figures are all that it can give.
func TestWearAgainstSciPy(t *testing.T) {
	random := rand.New(rand.NewPCG(37, 1))
	type question struct {
		Ask     string     `json:"ask"`
		Starts  []float64  `json:"starts"`
		Minutes []float64  `json:"minutes"`
		Depths  []float64  `json:"depths"`
		At      [2]float64 `json:"at"`
	}
	var ask []question
	var ours []*WearFit
	for len(ask) < 300 {
		q := question{Ask: "rates", At: [2]float64{50 + 200*random.Float64(), 10 + 100*random.Float64()}}
		perStart, perMinute := 4*random.Float64(), 10*random.Float64()
		var readings []Reading
		for range 4 + random.IntN(8) {
			starts, minutes := math.Round(10+200*random.Float64()), 5+80*random.Float64()
			depth := max(0, perStart*starts+perMinute*minutes+100*random.NormFloat64())
			q.Starts, q.Minutes, q.Depths = append(q.Starts, starts), append(q.Minutes, minutes), append(q.Depths, depth)
			readings = append(readings, Reading{Starts: starts, Minutes: minutes, Depth: depth})
		}
		if w := learn(readings); w.Told {
			ask, ours = append(ask, q), append(ours, w)
		}
	}
	var theirs [][]float64
	outside.Python(t, outside.SciPy, "statistics.py", ask, &theirs)
	if len(theirs) != len(ask) {
		t.Fatalf("%d answers to %d questions", len(theirs), len(ask))
	}
	compared := 0
	for i, want := range theirs {
		w := ours[i]
		for j, got := range []float64{w.PerStart, w.PerMinute} {
			if math.Abs(got-want[j]) > 1e-9 {
				t.Errorf("%+v: rate %d = %.12g, SciPy %.12g", ask[i], j, got, want[j])
			}
			compared++
		}
		if !w.ranged() {
			continue
		}
		if got := w.half(ask[i].At[0], ask[i].At[1], 0.9); !outside.Near(got, want[2], 1e-6) {
			t.Errorf("%+v: half range = %.9g, SciPy %.9g", ask[i], got, want[2])
		}
		compared++
	}
	t.Logf("tally: %d comparisons with SciPy", compared)
}
