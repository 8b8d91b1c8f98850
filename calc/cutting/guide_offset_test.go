package cutting

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/unit"
)

// TestGuideOnTheLine puts the torch where the guide says and looks where the
// kept edge comes out: on the marked radius, whatever the guide.
func TestGuideOnTheLine(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 5))
	for range 1000 {
		in := GuideInput{
			Cup: unit.Length(5e-3 + 40e-3*rnd.Float64()), Kerf: unit.Length(0.3e-3 + 4e-3*rnd.Float64()),
			Radius: unit.Length(0.05 + rnd.Float64()), Hole: rnd.IntN(2) == 0, Shape: []string{"outside", "inside"}[rnd.IntN(2)],
		}
		res, err := ComputeGuide(in)
		if err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
		middle := res.Template + in.Cup/2 // the cup touches the template
		if in.Shape == "inside" {
			middle = res.Template - in.Cup/2
		}
		edge := middle - in.Kerf/2 // the disc's edge
		if in.Hole {
			edge = middle + in.Kerf/2
		}
		if math.Abs(float64(edge-in.Radius)) > 1e-12 {
			t.Errorf("%+v: the kept edge comes out at %v", in, edge)
		}
		if math.Abs(float64(middle-res.Arm)) > 1e-12 {
			t.Errorf("%+v: arm %v and template put the torch at different radii, %v", in, res.Arm, middle)
		}
		if math.Abs(math.Abs(float64(res.Template-in.Radius))-float64(res.Offset)) > 1e-12 {
			t.Errorf("%+v: offset %v is not the distance from template to line", in, res.Offset)
		}
	}
}
