package layout

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/cutting"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// someBevel draws a bevel with a guide that the laws can be held to.
func someBevel(r *rand.Rand) BevelInput {
	between := func(lo, hi float64) unit.Length { return unit.Length(lo+(hi-lo)*r.Float64()) * unit.Millimetre }
	in := BevelInput{Thickness: between(3, 60), Bevel: unit.Angle(5+55*r.Float64()) * unit.Degree, Kerf: between(0.5, 4), Under: r.IntN(2) == 0,
		Guide: []string{"part", "waste"}[r.IntN(2)], Cup: between(10, 60), Contact: between(0, 25)}
	if !in.Under && in.Guide == "part" && r.IntN(2) == 0 {
		in.Land = in.Thickness * unit.Length(0.05+0.8*r.Float64())
	}
	return in
}

// TestBevelTouches puts cup and guide as the answer says and asks where they touch: by the
// distance of a point from the torch's axis, which the formula knows nothing of.
func TestBevelTouches(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 1))
	seen := map[bool]int{}
	for range 3000 {
		in := someBevel(r)
		res, err := ComputeBevel(in)
		if err != nil {
			if problem.From(err).Field != "contact" {
				t.Fatalf("%+v: %v", in, err)
			}
			continue
		}
		seen[res.Towards]++
		sin, cos := math.Sincos(float64(in.Bevel))
		if in.Under { // the part is at the left: the top leans right, over the waste
			sin = -sin
		}
		line, kerf := 0.0, float64(in.Kerf)/cos // the kept edge on top; the kerf is at its right
		axis := line + kerf/2
		guide := line - float64(res.Offset)
		if in.Guide == "waste" {
			guide = line + float64(res.Offset)
		}
		from := func(x, z float64) float64 { return math.Abs((x-axis)*cos + z*sin) } // the axis runs along (−sin, cos)
		if got := from(guide, float64(in.Contact)); math.Abs(got-float64(in.Cup)/2) > 1e-9 {
			t.Fatalf("%+v: the guide at the touch lies %v from the axis, want the cup's radius %v", in, got, in.Cup/2)
		}
		for _, z := range []float64{0.1, 0.5, 0.9} { // the rest of what the cup could meet
			at := z * float64(in.Contact)
			if !res.Towards {
				at = float64(in.Contact) * (1 + z)
			}
			if got := from(guide, at); got < float64(in.Cup)/2-1e-9 && math.Signbit((guide-axis)*cos+at*sin) == math.Signbit(guide-axis) {
				t.Fatalf("%+v: the guide runs into the cup at height %v", in, at)
			}
		}
	}
	if seen[true] < 500 || seen[false] < 500 {
		t.Errorf("leaning towards and away was looked at %v times", seen)
	}
}

// TestBevelUpright: with no lean it is the upright guide, and nothing shifts.
func TestBevelUpright(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 2))
	for range 500 {
		in := someBevel(r)
		in.Bevel = 0
		res, err := ComputeBevel(in)
		want, wantErr := cutting.ComputeGuide(cutting.GuideInput{Cup: in.Cup, Kerf: in.Kerf, Hole: in.Guide == "waste", Shape: "straight"})
		if err != nil || wantErr != nil {
			t.Fatalf("%+v: %v, %v", in, err, wantErr)
		}
		if math.Abs(float64(res.Offset-want.Offset)) > 1e-15 || res.Shift != 0 || res.Slant != in.Thickness-in.Land || res.KerfTop != in.Kerf {
			t.Errorf("%+v: %+v, want the upright guide %v and no shift", in, res, want.Offset)
		}
	}
}

// TestBevelLaws: slant, depth and shift are a right triangle; all grow with the lean; and
// part and waste lie a kerf apart.
func TestBevelLaws(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 3))
	for range 1000 {
		in := someBevel(r)
		in.Guide, in.Contact = "part", 0
		res, err := ComputeBevel(in)
		if err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
		depth := float64(in.Thickness - in.Land)
		if got := math.Hypot(float64(res.Shift), depth); math.Abs(got-float64(res.Slant)) > 1e-12 {
			t.Fatalf("%+v: %v deep and %v across are %v, not the slant %v", in, depth, res.Shift, got, res.Slant)
		}
		steeper := in
		steeper.Bevel += unit.Degree
		more, err := ComputeBevel(steeper)
		if err != nil || more.Slant <= res.Slant || more.Shift <= res.Shift || more.KerfTop <= res.KerfTop {
			t.Fatalf("%+v: one degree more gives %+v after %+v, %v", in, more, res, err)
		}
		if in.Land > 0 {
			// A line moved back by the wander ends so much higher on the edge.
			moved := (depth*math.Tan(float64(in.Bevel)) - float64(handWander)) / math.Tan(float64(in.Bevel))
			if got := depth - moved; math.Abs(got-float64(res.LandGive)) > 1e-12 {
				t.Fatalf("%+v: a wander changes the land by %v, not by %v", in, got, res.LandGive)
			}
			continue
		}
		other := in
		other.Guide = "waste"
		waste, err := ComputeBevel(other)
		if err != nil || math.Abs(float64(waste.Offset-res.Offset-res.KerfTop)) > 1e-12 {
			t.Fatalf("%+v: on the waste %v, on the part %v, want the kerf %v between, %v", in, waste.Offset, res.Offset, res.KerfTop, err)
		}
	}
}
