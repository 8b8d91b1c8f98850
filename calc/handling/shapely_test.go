//go:build !js

// Native only: it runs another program, which a phone cannot.

package handling

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/outside"
	"kerfside/calc/unit"
)

// TestOutlineAgainstShapely weighs random outlines, in metres from a far corner of
// the yard: half go round a middle, the others jump about, so that many of them
// cross themselves. Both sum the same figures, in another order.
func TestOutlineAgainstShapely(t *testing.T) {
	random := rand.New(rand.NewPCG(39, 1))
	outlines := make([][][2]float64, 1000)
	for i := range outlines {
		x, y, corners := 100*random.Float64(), 100*random.Float64(), 3+random.IntN(7)
		for k := range corners {
			turn, reach := 2*math.Pi*(float64(k)+0.8*random.Float64())/float64(corners), 0.05+random.Float64()
			if i%2 == 1 {
				turn = 7 * random.Float64()
			}
			sin, cos := math.Sincos(turn)
			outlines[i] = append(outlines[i], [2]float64{x + reach*cos, y + reach*sin})
		}
	}
	var theirs [][]float64
	outside.Python(t, outside.Shapely, "outline.py", outlines, &theirs)
	if len(theirs) != len(outlines) {
		t.Fatalf("%d answers to %d outlines", len(theirs), len(outlines))
	}
	crossed := 0
	for i, want := range theirs {
		var corners []Point
		for _, c := range outlines[i] {
			corners = append(corners, Point{unit.Length(c[0]), unit.Length(c[1])})
		}
		area, at, err := polygon(corners)
		if (err == nil) != (want != nil) {
			t.Errorf("%v: %v, Shapely %v", outlines[i], err, want)
		}
		if want == nil {
			crossed++
			continue
		}
		off := math.Hypot(float64(at.X)-want[1], float64(at.Y)-want[2])
		if !outside.Near(float64(area), want[0], 1e-9) || off > 1e-7 {
			t.Errorf("%v: %.12g m² at %v, Shapely %v", outlines[i], area, at, want)
		}
	}
	if crossed < 200 || crossed > 500 {
		t.Errorf("%d of %d outlines cross themselves: too few or too many to compare", crossed, len(outlines))
	}
	t.Logf("tally: %d comparisons with Shapely", len(outlines))
}
