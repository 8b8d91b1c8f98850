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

// TestGuideAgainstShapely lets a geometry library cut along the guides and arms
// that are told for random cuts, and looks where the kept edge comes out. Its
// circles are polygons, whose radius is good to a hundred-thousandth.
func TestGuideAgainstShapely(t *testing.T) {
	random := rand.New(rand.NewPCG(38, 1))
	between := func(low, high float64) float64 { return low + (high-low)*random.Float64() }
	type question struct {
		Cup      float64 `json:"cup"`
		Kerf     float64 `json:"kerf"`
		Hole     bool    `json:"hole"`
		Shape    string  `json:"shape"`
		Template float64 `json:"template"`
		Arm      float64 `json:"arm"`
	}
	var ask []question
	var wants [][]unit.Length
	for i := range 150 {
		in := GuideInput{
			Cup: unit.Length(between(8, 40)) * unit.Millimetre, Kerf: unit.Length(between(0.5, 4)) * unit.Millimetre,
			Hole: random.IntN(2) == 0, Shape: []string{"straight", "outside", "inside"}[i%3],
		}
		if in.Shape != "straight" {
			in.Radius = unit.Length(between(30, 600)) * unit.Millimetre
		}
		res, err := ComputeGuide(in)
		if err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
		mm := func(l unit.Length) float64 { return float64(l / unit.Millimetre) }
		ask = append(ask, question{Cup: mm(in.Cup), Kerf: mm(in.Kerf), Hole: in.Hole, Shape: in.Shape, Template: mm(res.Template), Arm: mm(res.Arm)})
		want := []unit.Length{in.Radius, in.Radius, res.Offset}
		if in.Shape == "straight" {
			want = []unit.Length{res.Offset}
		}
		wants = append(wants, want)
	}
	var theirs [][]float64
	outside.Python(t, outside.Shapely, "guide.py", ask, &theirs)
	if len(theirs) != len(ask) {
		t.Fatalf("%d answers to %d questions", len(theirs), len(ask))
	}
	compared := 0
	for i, edges := range theirs {
		for j, edge := range edges {
			if want := float64(wants[i][j] / unit.Millimetre); math.Abs(edge-want) > 1e-5*max(ask[i].Arm, want) {
				t.Errorf("%+v: Shapely's kept edge lies at %.6f mm, want %.6f", ask[i], edge, want)
			}
			compared++
		}
	}
	t.Logf("tally: %d comparisons with Shapely", compared)
}
