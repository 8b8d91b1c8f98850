package layout

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/drawing"
	"kerfside/calc/unit"
)

// TestFramesCloseUp lays the bars of a frame where they belong, as outlines, and asks for
// the area of the ring: no gap, no overlap.
func TestFramesCloseUp(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 1))
	for range 500 {
		in := FrameInput{Bar: []string{"flat", "square", "rect"}[r.IntN(3)], Wide: unit.Length(0.3 + 2*r.Float64()), High: unit.Length(0.3 + 2*r.Float64()), Face: unit.Length(0.01 + 0.1*r.Float64()),
			Depth: 0.03, Wall: 0.003, Butt: r.IntN(2) == 0, HighRuns: r.IntN(2) == 0, Frames: 1 + r.IntN(4), Kerf: 0.0015}
		res, err := ComputeFrame(in)
		if err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
		var area, lengths float64
		count := 0
		for _, p := range res.Pieces {
			area += float64(p.Count) * float64(p.Long+p.Short) / 2 * float64(in.Face)
			lengths += float64(p.Count) * float64(p.Long)
			count += p.Count
		}
		want := float64(in.Frames) * (float64(in.Wide)*float64(in.High) - float64(in.Wide-2*in.Face)*float64(in.High-2*in.Face))
		if math.Abs(area-want) > 1e-9 {
			t.Fatalf("%+v: the bars cover %v m², the frame is %v m²", in, area, want)
		}
		if count != 4*in.Frames || res.Ends != 2*count {
			t.Fatalf("%+v: %d bars with %d ends", in, count, res.Ends)
		}
		if float64(res.Bar) <= lengths || float64(res.Bar) > lengths+2*math.Sqrt2*float64(in.Kerf)*float64(count)+1e-9 {
			t.Fatalf("%+v: %v of bar for pieces of %v", in, res.Bar, lengths)
		}
	}
}

// TestGussetTurns: a gusset is the same from its other leg, has its area by another way,
// and its noses stand square on its legs.
func TestGussetTurns(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 2))
	area := func(points []drawing.Point) (sum float64) {
		for i, p := range points {
			q := points[(i+1)%len(points)]
			sum += (p.X*q.Y - q.X*p.Y) / 2
		}
		return sum
	}
	for range 500 {
		in := GussetInput{Leg: unit.Length(0.1 + 0.15*r.Float64()), Other: unit.Length(0.1 + 0.15*r.Float64()), Corner: unit.Angle(80+40*r.Float64()) * unit.Degree, Snip: unit.Length(0.03 * r.Float64()), Nose: unit.Length(0.01 * r.Float64())}
		res, err := ComputeGusset(in)
		if err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
		other := in
		other.Leg, other.Other = in.Other, in.Leg
		turned, err := ComputeGusset(other)
		if err != nil || math.Abs(float64(turned.Edge-res.Edge)) > 1e-12 || math.Abs(float64(turned.Cut-res.Cut)) > 1e-12 || math.Abs(area(turned.Points)-area(res.Points)) > 1e-6 {
			t.Fatalf("%+v: from the other leg it is another, %v", in, err)
		}
		// The triangle, less the snip, and two slivers under the line between the noses.
		a, b, n, sin := inMM(in.Leg), inMM(in.Other), inMM(in.Nose), math.Sin(float64(in.Corner))
		tip := drawing.Point{X: b * math.Cos(float64(in.Corner)), Y: b * sin}
		nose := drawing.Point{X: tip.X + n*sin, Y: tip.Y - n*math.Cos(float64(in.Corner))}
		want := area([]drawing.Point{{}, {X: a}, {X: a, Y: n}, nose, tip}) - inMM(in.Snip)*inMM(in.Snip)*sin/2
		if got := area(res.Points); math.Abs(got-want) > 1e-6 {
			t.Fatalf("%+v: %v mm², want %v", in, got, want)
		}
		if dot := (nose.X-tip.X)*tip.X + (nose.Y-tip.Y)*tip.Y; math.Abs(dot) > 1e-6 {
			t.Fatalf("%+v: the nose is not square to its leg", in)
		}
		plain := in
		plain.Snip, plain.Nose = 0, 0
		triangle, err := ComputeGusset(plain)
		if err != nil || len(triangle.Points) != 3 {
			t.Fatalf("%+v: without snip and nose it is no triangle: %+v, %v", in, triangle, err)
		}
	}
}
