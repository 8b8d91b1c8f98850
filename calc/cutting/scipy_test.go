//go:build !js

// Native only: it runs another program, which a phone cannot.

package cutting

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/outside"
	"kerfside/calc/unit"
)

// closeFactor is what our sum over 1601 places of ln c may differ from SciPy's
// over 8001.
const closeFactor = 2e-4

// TestLearnAgainstSciPy: what cuts tell of a rig's factor, calibration's answer,
// beside SciPy's posterior of the law that the calculator states.
func TestLearnAgainstSciPy(t *testing.T) {
	random := rand.New(rand.NewPCG(36, 1))
	type question struct {
		Ask  string   `json:"ask"`
		Cuts [][3]any `json:"cuts"`
	}
	var ask []question
	var ours []Learned
	for range 200 {
		tries := someTries(random, random.IntN(13))
		q := question{Ask: "factor", Cuts: [][3]any{}}
		for _, try := range tries {
			q.Cuts = append(q.Cuts, [3]any{float64(try.Speed), float64(try.Most), try.Verdict})
		}
		ask, ours = append(ask, q), append(ours, Learn(tries))
	}
	var theirs [][]float64
	outside.Python(t, outside.SciPy, "statistics.py", ask, &theirs)
	for i, want := range theirs {
		compareFactor(t, ask[i], ours[i], want)
	}
	if len(theirs) != len(ask) {
		t.Errorf("%d answers to %d questions", len(theirs), len(ask))
	}
	t.Logf("tally: %d comparisons with SciPy", 3*len(ask))
}

// TestStripsAgainstSciPy: three timed strips, some not cut, some not measured.
func TestStripsAgainstSciPy(t *testing.T) {
	random := rand.New(rand.NewPCG(36, 2))
	type question struct {
		Ask         string   `json:"ask"`
		Plan        float64  `json:"plan"`
		Most        float64  `json:"most"`
		Calibration float64  `json:"calibration"`
		Length      float64  `json:"length"`
		Strips      [][3]any `json:"strips"`
	}
	var ask []question
	var ours []StripsResult
	for range 200 {
		plan := unit.Speed(0.003 + 0.03*random.Float64())
		in := StripsInput{Speed: plan, Most: plan * unit.Speed(1.2+0.4*random.Float64()), Calibration: unit.Ratio(math.Exp(0.3 * random.NormFloat64())), Length: unit.Length(0.05 + 0.1*random.Float64())}
		q := question{Ask: "strips", Plan: float64(in.Speed), Most: float64(in.Most), Calibration: float64(in.Calibration), Length: float64(in.Length), Strips: [][3]any{}}
		for i, try := range someTries(random, 3) {
			s := Strip{Time: unit.Duration(float64(in.Length) / (float64(in.Most) * float64(try.Speed/try.Most))), Verdict: try.Verdict}
			if random.IntN(5) == 0 {
				s = Strip{}
			}
			if random.IntN(2) == 0 {
				s.Kerf = unit.Length(0.001 + 0.001*random.Float64())
			}
			in.Strips[i] = s
			q.Strips = append(q.Strips, [3]any{float64(s.Time), s.Verdict, float64(s.Kerf)})
		}
		res, err := ComputeStrips(in)
		if err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
		ask, ours = append(ask, q), append(ours, res)
	}
	var theirs [][]float64
	outside.Python(t, outside.SciPy, "statistics.py", ask, &theirs)
	for i, want := range theirs {
		compareFactor(t, ask[i], ours[i].Learned, want)
		if got := float64(ours[i].Next); !outside.Near(got, want[3], closeFactor) {
			t.Errorf("%+v: next at %.6g m/s, SciPy %.6g", ask[i], got, want[3])
		}
		if got := float64(ours[i].Kerf); !outside.Near(got, want[4], 1e-12) {
			t.Errorf("%+v: kerf %.6g m, SciPy %.6g", ask[i], got, want[4])
		}
	}
	if len(theirs) != len(ask) {
		t.Errorf("%d answers to %d questions", len(theirs), len(ask))
	}
	t.Logf("tally: %d comparisons with SciPy", 5*len(ask))
}

func compareFactor(t *testing.T, q any, got Learned, want []float64) {
	t.Helper()
	if !outside.Near(float64(got.Factor), want[0], closeFactor) || !outside.Near(float64(got.Low), want[1], closeFactor) || !outside.Near(float64(got.High), want[2], closeFactor) {
		t.Errorf("%+v: factor %.6f, %.6f to %.6f, SciPy %.6f, %.6f to %.6f", q, got.Factor, got.Low, got.High, want[0], want[1], want[2])
	}
}

// someTries draws cuts by one rig and what a hand that strays says of them, with
// one verdict in twenty mistaken.
func someTries(random *rand.Rand, n int) []Try {
	verdicts := []Verdict{TooSlow, Good, TooFast, NotSevered}
	rig := 0.3 * random.NormFloat64()
	var tries []Try
	for range n {
		most := unit.Speed(0.005 + 0.03*random.Float64())
		share := 1.5*random.Float64() - 1
		y := math.Exp(share - rig + 0.1*random.NormFloat64())
		verdict := verdicts[3]
		switch {
		case random.IntN(20) == 0:
			verdict = verdicts[random.IntN(4)]
		case y < 0.5:
			verdict = verdicts[0]
		case y < 0.9:
			verdict = verdicts[1]
		case y < 1:
			verdict = verdicts[2]
		}
		tries = append(tries, Try{Speed: most * unit.Speed(math.Exp(share)), Most: most, Verdict: verdict})
	}
	return tries
}
