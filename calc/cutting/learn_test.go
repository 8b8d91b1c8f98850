package cutting

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"kerfside/calc/unit"
)

func TestLearnNothing(t *testing.T) {
	got := Learn(nil)
	want := math.Exp(1.6448536269514722 * math.Log(priorOff))
	if math.Abs(float64(got.Factor)-1) > 1e-6 || math.Abs(float64(got.High)-want) > 1e-3 || math.Abs(float64(got.Low)-1/want) > 1e-3 {
		t.Errorf("Learn(nil) = %+v, want the prior: 1, between %.3f and %.3f", got, 1/want, want)
	}
}

// TestLearnProbit checks the mean of ln c after one "did not sever" against the
// closed form of Rasmussen and Williams (2006), equation 3.85:
//
//	E = μ + y·σ²·N(z) / (Φ(z)·√(1+σ²)),   z = y·(μ−m)/√(v²+σ²)
func TestLearnProbit(t *testing.T) {
	for _, x := range []float64{-0.5, -0.2, 0, 0.2} {
		sigma := math.Log(priorOff)
		spread := math.Sqrt(tryNoise*tryNoise + sigma*sigma)
		z := x / spread // the cut failed although theta ~ N(0, sigma) would have let speed exp(x) pass
		want := -sigma * sigma * distuv.UnitNormal.Prob(z) / (distuv.UnitNormal.CDF(z) * spread)
		got, total := 0.0, 0.0
		prior := distuv.Normal{Mu: 0, Sigma: sigma}
		for theta := -2.0; theta <= 2; theta += 1.0 / 400 {
			w := prior.Prob(theta) * Try{Speed: unit.Speed(math.Exp(x)), Most: 1, Verdict: NotSevered}.likelihood(theta)
			got, total = got+w*theta, total+w
		}
		if math.Abs(got/total-want) > 1e-6 {
			t.Errorf("x = %v: mean of ln c = %.8f, want %.8f", x, got/total, want)
		}
	}
}

// TestLearnLaws: a rig that fails slower cuts is rated lower; verdicts sum to
// one; more cuts narrow the range.
func TestLearnLaws(t *testing.T) {
	previous := unit.Ratio(0)
	for v := unit.Speed(0.3); v < 3; v *= 1.2 {
		got := Learn([]Try{{Speed: v, Most: 1, Verdict: NotSevered}})
		if got.Factor < previous {
			t.Errorf("failing at %v of the plan rates the rig lower than failing slower", v)
		}
		if !(got.Low < got.Factor && got.Factor < got.High) {
			t.Errorf("%+v is out of order", got)
		}
		previous = got.Factor
		sum := 0.0
		for _, verdict := range []Verdict{TooSlow, Good, TooFast, NotSevered} {
			sum += Try{Speed: v, Most: 1, Verdict: verdict}.likelihood(0.1)
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Errorf("the chances of the verdicts sum to %v", sum)
		}
	}
}

// TestLearnFindsTruth cuts with rigs of known factors: the range must hold the
// truth about nine times in ten when factors follow the prior.
func TestLearnFindsTruth(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 11))
	held, rigs, before := 0, 200, Learn(nil)
	for range rigs {
		truth := math.Exp(math.Log(priorOff) * rnd.NormFloat64())
		var tries []Try
		for range 12 {
			v := math.Exp(rnd.Float64()*1.6 - 1.0)
			y := math.Log(v/truth) + tryNoise*rnd.NormFloat64()
			verdict := NotSevered
			switch {
			case y < math.Log(slowShare):
				verdict = TooSlow
			case y < math.Log(fastShare):
				verdict = Good
			case y < 0:
				verdict = TooFast
			}
			tries = append(tries, Try{Speed: unit.Speed(v), Most: 1, Verdict: verdict})
		}
		got := Learn(tries)
		if float64(got.Low) <= truth && truth <= float64(got.High) {
			held++
		}
		if got.High/got.Low > before.High/before.Low {
			t.Errorf("twelve cuts widened the range to %v…%v", got.Low, got.High)
		}
	}
	if share := float64(held) / float64(rigs); share < 0.85 || share > 0.95 {
		t.Errorf("the range held the truth in %.3f of rigs, want about 0.9", share)
	}
}

// TestLearnBearsNonsense: verdicts that contradict each other still give a
// finite answer.
func TestLearnBearsNonsense(t *testing.T) {
	got := Learn([]Try{{Speed: 0.01, Most: 1, Verdict: NotSevered}, {Speed: 100, Most: 1, Verdict: TooSlow}, {Speed: 1, Most: 1, Verdict: Good}, {Speed: 0.02, Most: 1, Verdict: NotSevered}})
	for _, v := range []unit.Ratio{got.Factor, got.Low, got.High} {
		if math.IsNaN(float64(v)) || v <= 0 || math.IsInf(float64(v), 0) {
			t.Errorf("%+v is not finite", got)
		}
	}
}
