package life

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Weibayes is the scale of lives whose shape is taken for granted (Nelson, J.
// Quality Technology 17(3), 1985). The lower bound counts one failure more than
// there were, as if the next part were about to fail, and so errs to the safe side.
type Weibayes struct {
	Shape    float64
	Failures int

	lnSum float64 // ln Σ t^shape over all parts, failed or not
}

// NewWeibayes sums up lives above nothing.
func NewWeibayes(lives []Life, shape float64) Weibayes {
	w := Weibayes{Shape: shape}
	longest, sum := 0.0, 0.0
	for _, l := range lives {
		longest = max(longest, l.T)
	}
	for _, l := range lives {
		sum += math.Exp(shape * math.Log(l.T/longest))
		if l.Failed {
			w.Failures++
		}
	}
	w.lnSum = math.Log(sum) + shape*math.Log(longest)
	return w
}

// scale is (Σ t^b / n)^(1/b).
func (w Weibayes) scale(n float64) float64 { return math.Exp((w.lnSum - math.Log(n)) / w.Shape) }

// Scale is (Σ t^b / r)^(1/b); +Inf without a failure.
func (w Weibayes) Scale() float64 { return w.scale(float64(w.Failures)) }

// Lower is the least scale with that confidence, (2 Σ t^b / χ²_C;2r+2)^(1/b).
// Without a failure that is (Σ t^b / −ln(1 − C))^(1/b).
func (w Weibayes) Lower(confidence float64) float64 {
	return w.scale(mathext.GammaIncRegInv(float64(w.Failures+1), confidence))
}

// Upper is the greatest scale with that confidence, (2 Σ t^b / χ²_1−C;2r)^(1/b);
// +Inf without a failure.
func (w Weibayes) Upper(confidence float64) float64 {
	if w.Failures == 0 {
		return math.Inf(1)
	}
	return w.scale(mathext.GammaIncRegInv(float64(w.Failures), 1-confidence))
}

// At turns a scale into the life by which the share p is gone.
func (w Weibayes) At(p, scale float64) float64 {
	return scale * math.Pow(-math.Log1p(-p), 1/w.Shape)
}
