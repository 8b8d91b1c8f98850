package layout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kerfside/calc/unit"
)

// drawMitre draws a bend that can be.
func drawMitre(t *rapid.T) MitreInput {
	od := unit.Length(rapid.IntRange(20, 600).Draw(t, "od")) * unit.Millimetre
	return MitreInput{
		Pipe: Pipe{OD: od, Wall: od / 20}, Turn: unit.Angle(rapid.Float64Range(5, 109).Draw(t, "turn")) * unit.Degree, Pieces: rapid.IntRange(2, 7).Draw(t, "pieces"),
		Radius: od * unit.Length(rapid.Float64Range(0.6, 8).Draw(t, "radius")), Lines: rapid.SampledFrom([]int{8, 12, 16, 24, 32}).Draw(t, "lines"), Kerf: 2 * unit.Millimetre,
	}
}

// TestMitreClosesInSpace: the cut of one piece and that of the next, each wrapped back
// round its own pipe, are the same points of space, in one plane. Nothing of ComputeMitre
// is used for where the pipes lie: the second pipe is the first mirrored in the plane
// through the joint that halves the turn.
func TestMitreClosesInSpace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawMitre(t)
		res, err := ComputeMitre(in)
		if err != nil {
			t.Fatal(err)
		}
		turn := float64(in.Turn) / float64(in.Pieces-1)
		sin, cos := math.Sincos(turn / 2)
		normal := [3]float64{cos, sin, 0} // of the plane; the first pipe lies along x
		r, end := float64(in.Pipe.OD)/2, float64(res.End.Centre)
		for i, l := range res.Lines {
			p := 2 * math.Pi * float64(i) / float64(in.Lines)
			// On the first pipe, from its square end at x = 0; its throat is at +y.
			x, y, z := float64(l.End), r*math.Cos(p), r*math.Sin(p)
			off := (x-end)*normal[0] + y*normal[1]
			if math.Abs(off) > 1e-9 {
				t.Fatalf("line %d is %v off the plane of the joint", i, off)
			}
			// Mirrored in the plane it is the next piece's, as far from that pipe's axis.
			axis := [3]float64{math.Cos(turn), math.Sin(turn), 0}
			along := (x-end)*axis[0] + y*axis[1]
			away := math.Sqrt((x-end)*(x-end) + y*y + z*z - along*along)
			if math.Abs(away-r) > 1e-9 {
				t.Errorf("line %d lies %v from the next pipe's axis, want %v", i, away, r)
			}
			// The next piece's line, turned half over, begins there.
			if i2 := (i + in.Lines/2) % in.Lines; in.Pieces > 2 && math.Abs(float64(res.Lines[i2].Back)-(float64(res.Deepest)-float64(l.Back))) > 1e-9 {
				t.Errorf("line %d turned half over is cut back %v, want %v", i, res.Lines[i2].Back, res.Deepest-l.Back)
			}
		}
	})
}

// TestMitreLaws: pieces add up to the stock, back and throat are as far from the centre,
// and the cut is as long as the ellipse that a saw would make, by S. Ramanujan's second
// formula of 1914, from memory.
func TestMitreLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawMitre(t)
		res, err := ComputeMitre(in)
		if err != nil {
			t.Fatal(err)
		}
		if d := res.End.Back + res.End.Throat - 2*res.End.Centre; math.Abs(float64(d)) > 1e-12 {
			t.Errorf("back and throat of an end piece are not alike off its centre: %v", d)
		}
		a := float64(res.Lean)
		sum := 2*res.End.Centre + unit.Length(in.Pieces-2)*res.Middle.Centre + unit.Length(in.Pieces-1)*in.Kerf/unit.Length(math.Cos(a))
		if math.Abs(float64(sum-res.Stock)) > 1e-12 {
			t.Errorf("the pieces take %v, told %v", sum, res.Stock)
		}
		r := float64(in.Pipe.OD) / 2
		h := math.Pow((r/math.Cos(a)-r)/(r/math.Cos(a)+r), 2)
		round := math.Pi * (r + r/math.Cos(a)) * (1 + 3*h/(10+math.Sqrt(4-3*h)))
		if math.Abs(float64(res.Cut)/round-1) > 1e-5 {
			t.Errorf("the cut is %v long, the ellipse %v", res.Cut, round)
		}
		wider := in
		wider.Turn *= 1.1
		if more, err := ComputeMitre(wider); err != nil || more.Deepest <= res.Deepest {
			t.Errorf("a wider turn cuts back %v, the narrower %v (%v)", more.Deepest, res.Deepest, err)
		}
	})
}

// TestMitreOutOfOnePipe: read off the list of cuts, each piece has its long and its short
// side, on line 0 and on the line opposite in turn, with a kerf between it and the next.
func TestMitreOutOfOnePipe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawMitre(t)
		if in.Frame = rapid.Bool().Draw(t, "frame"); in.Frame {
			in.Wide, in.High = 2*in.Pipe.OD+unit.Length(rapid.Float64Range(0.01, 3).Draw(t, "wide")), 2*in.Pipe.OD+unit.Length(rapid.Float64Range(0.01, 3).Draw(t, "high"))
		}
		res, err := ComputeMitre(in)
		if err != nil {
			t.Fatal(err)
		}
		want := []Lengths{res.Across, res.Upright, res.Across, res.Upright}
		edges := res.Cuts
		if !in.Frame {
			want = []Lengths{res.End}
			for range in.Pieces - 2 {
				want = append(want, res.Middle)
			}
			want = append(want, res.End)
			// The square ends of the pipe are no cuts.
			edges = append(append([]MitreCut{{}}, res.Cuts...), MitreCut{Zero: res.Stock, Opposite: res.Stock})
		}
		if len(edges) != len(want)+1 {
			t.Fatalf("%d pieces between %d edges", len(want), len(edges))
		}
		for i, piece := range want {
			from := edges[i]
			if i > 0 { // behind a kerf, which is that thick square to the cut
				along := float64(in.Kerf) * math.Sqrt(1+math.Pow(math.Tan(float64(res.Lean)), 2))
				from.Zero += unit.Length(along)
				from.Opposite += unit.Length(along)
			}
			back, throat := edges[i+1].Opposite-from.Opposite, edges[i+1].Zero-from.Zero
			if i%2 == 1 {
				back, throat = throat, back
			}
			if math.Abs(float64(back-piece.Back)) > 1e-9 || math.Abs(float64(throat-piece.Throat)) > 1e-9 {
				t.Errorf("piece %d: %v and %v by the cuts, want %v and %v", i+1, back, throat, piece.Back, piece.Throat)
			}
		}
	})
}
