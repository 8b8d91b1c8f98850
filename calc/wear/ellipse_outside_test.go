//go:build !js

// Native only: it runs another program, which a phone cannot.

package wear

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/outside"
)

// TestEllipseAgainstScikitImage puts ellipses through random scattered points, as
// marks on a picture are: some thousand pixels from the corner, over most of the
// rim, off by up to 5 % of the radius.
func TestEllipseAgainstScikitImage(t *testing.T) {
	random := rand.New(rand.NewPCG(34, 1))
	pictures := make([][][2]float64, 400)
	for i := range pictures {
		pictures[i] = marks(random)
	}
	var theirs []struct{ Direct, Nearest, Distances []float64 }
	outside.Python(t, outside.ScikitImage, "ellipse.py", pictures, &theirs)
	if len(theirs) != len(pictures) {
		t.Fatalf("%d answers to %d pictures", len(theirs), len(pictures))
	}
	compared := 0
	for i, want := range theirs {
		var points []spot
		for _, p := range pictures[i] {
			points = append(points, spot{p[0], p[1]})
		}
		direct, ok := fitEllipse(points)
		if !ok || want.Direct == nil {
			t.Errorf("picture %d: ours %v, scikit-image %v", i, ok, want.Direct)
			continue
		}
		sameEllipse(t, "fitEllipse", direct, theirEllipse(want.Direct), 1e-7)
		nearest, ok := direct.refined(points)
		if !ok {
			t.Errorf("picture %d: refined found none", i)
			continue
		}
		sameEllipse(t, "refined", nearest, theirEllipse(want.Nearest), 1e-6)
		for j, p := range points {
			_, d := nearest.foot(nearest.own(p))
			if math.Abs(math.Abs(d)-want.Distances[j]) > 1e-6*nearest.a {
				t.Errorf("picture %d: point %d is %g from the ellipse, SciPy %g", i, j, d, want.Distances[j])
			}
			compared++
		}
		compared += 2
	}
	t.Logf("tally: %d comparisons with scikit-image", compared)
}

// marks draws the points of one picture.
func marks(random *rand.Rand) [][2]float64 {
	a := 30 + 400*random.Float64()
	e := newEllipse(500+3000*random.Float64(), 500+2000*random.Float64(), a, a*(0.6+0.38*random.Float64()), math.Pi*random.Float64())
	scatter := 0.05 * a * random.Float64() * random.Float64()
	var points [][2]float64
	for _, p := range on(e, 8+random.IntN(12), 7*random.Float64(), math.Pi*(1.5+0.5*random.Float64())) {
		points = append(points, [2]float64{p.x + scatter*random.NormFloat64(), p.y + scatter*random.NormFloat64()})
	}
	return points
}

func theirEllipse(v []float64) ellipse { return newEllipse(v[0], v[1], v[2], v[3], v[4]) }
