package layout

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kerfside/calc/unit"
)

// TestSquareFromCorners: corners are set down as points that lean by a known angle; what is
// told from their distances is that angle, and the way to move.
func TestSquareFromCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(0.2, 10).Draw(t, "a"), rapid.Float64Range(0.2, 10).Draw(t, "b")
		angle := rapid.Float64Range(60, 120).Draw(t, "angle") * math.Pi / 180
		x, y := b*math.Cos(angle), b*math.Sin(angle)
		corner, err := ComputeSquare(SquareInput{A: unit.Length(a), B: unit.Length(b), D1: unit.Length(math.Hypot(a-x, y))})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(corner.Angle)-angle) > 1e-9 || math.Abs(float64(corner.Out)+x) > 1e-9 {
			t.Errorf("a corner of %v leaning %v: told %v and %v", angle, -x, corner.Angle, corner.Out)
		}
		frame, err := ComputeSquare(SquareInput{Frame: true, A: unit.Length(a), B: unit.Length(b), D1: unit.Length(math.Hypot(a+x, y)), D2: unit.Length(math.Hypot(a-x, y))})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(frame.Angle)-angle) > 1e-6 || math.Abs(float64(frame.Out)-x) > 1e-9 || math.Abs(float64(frame.Sides)) > 1e-9 {
			t.Errorf("a frame of %v leaning %v: told %v and %v, its sides wrong by %v", angle, x, frame.Angle, frame.Out, frame.Sides)
		}
	})
}

// TestSquareDoubt: each measure is moved alone by what the tape may be off; how far that
// moves what is told, squared and added, is the doubt squared.
func TestSquareDoubt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string) unit.Length {
			return unit.Length(rapid.Float64Range(0.3, 10).Draw(t, name))
		}
		in := SquareInput{Frame: rapid.Bool().Draw(t, "frame"), A: length("a"), B: length("b"), Tape: 0.01 * unit.Millimetre}
		square := unit.Length(math.Hypot(float64(in.A), float64(in.B)))
		lean := min(in.A, in.B) * unit.Length(rapid.Float64Range(-0.2, 0.2).Draw(t, "lean"))
		in.D1, in.D2 = square+lean, square-lean
		told, err := ComputeSquare(in)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, measure := range []func(*SquareInput) *unit.Length{
			func(in *SquareInput) *unit.Length { return &in.A }, func(in *SquareInput) *unit.Length { return &in.B },
			func(in *SquareInput) *unit.Length { return &in.D1 }, func(in *SquareInput) *unit.Length { return &in.D2 },
		} {
			off := in
			*measure(&off) += in.Tape
			moved, err := ComputeSquare(off)
			if err != nil {
				t.Fatal(err)
			}
			sum += math.Pow(float64(moved.Out-told.Out), 2)
		}
		if got := math.Sqrt(sum); math.Abs(got/float64(told.Doubt)-1) > 0.002 {
			t.Errorf("%+v: the tape moves what is told by %v, and that is told as %v", in, got, told.Doubt)
		}
	})
}

// TestSquareSides: four corners are set down in space, twisted or not. Where the first two
// sides are no shorter than those across from them, the diagonals are not longer than they
// allow; in a plane parallelogram the tape alone, off any way, blames no side; a side told
// far too short is blamed.
func TestSquareSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, from, to float64) float64 { return rapid.Float64Range(from, to).Draw(t, name) }
		a, b, lean := draw("a", 0.3, 8), draw("b", 0.3, 8), draw("lean", -0.1, 0.1)
		x, y := b*math.Sin(lean), b*math.Cos(lean)
		corners := [4][3]float64{{}, {a}, {a + x, y}, {x, y}}
		length := func(i, j int) unit.Length {
			p, q := corners[i], corners[j]
			return unit.Length(math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2]))
		}
		square := func(in SquareInput) SquareResult {
			res, err := ComputeSquare(in)
			if err != nil {
				t.Fatal(err)
			}
			return res
		}
		tape := unit.Millimetre
		off := func(name string) unit.Length { return tape * unit.Length(draw(name, -1, 1)) }
		in := SquareInput{Frame: true, A: length(0, 1) + off("off a"), B: length(1, 2) + off("off b"), D1: length(0, 2) + off("off d1"), D2: length(1, 3) + off("off d2"), Tape: tape}
		if res := square(in); max(res.Sides, -res.Sides) > res.SideSure*1.02 {
			t.Errorf("%+v: a side is blamed for the tape: %v, sure to %v", in, res.Sides, res.SideSure)
		}
		short := in
		short.A *= 0.8
		short.B *= 0.8
		if res := square(short); res.Sides <= res.SideSure {
			t.Errorf("%+v: sides told a fifth too short are not blamed: %v, sure to %v", short, res.Sides, res.SideSure)
		}
		for i := range 3 { // any corner goes where it likes
			corners[3][i] += draw("moved", -0.2, 0.2)
		}
		in = SquareInput{Frame: true, A: max(length(0, 1), length(2, 3)), B: max(length(1, 2), length(3, 0)), D1: length(0, 2), D2: length(1, 3)}
		if res, err := ComputeSquare(in); err == nil && res.Sides > 1e-9 {
			t.Errorf("%v: diagonals longer by %v than sides allow that are no longer than told", corners, res.Sides)
		}
	})
}

func TestSquareVerdicts(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{`"side": "3000mm", "other_side": "4000mm", "diagonal": "5010mm"`, "The corner is too open. Move the end of the second leg in by about 17 mm, until the diagonal reads 5000 mm."},
		{`"side": "2400mm", "other_side": "1800mm", "diagonal": "2990mm"`, "The corner is too closed. Move the end of the second leg out by about 12 mm, until the diagonal reads 3000 mm."},
		{`"side": "3m", "other_side": "4m", "diagonal": "5m"`, "Square as far as the tape tells: within 2 mm."},
		{`"of": "frame", "side": "2m", "other_side": "1m", "diagonal": "2240mm", "other_diagonal": "2232mm"`, "Push the ends of the first diagonal together: it is the longer one. Shift one length along the other by about 4.5 mm, until both diagonals are alike."},
		{`"of": "frame", "side": "2m", "other_side": "1m", "diagonal": "2232mm", "other_diagonal": "2240mm"`, "Push the ends of the other diagonal together"},
		{`"of": "frame", "side": "2m", "other_side": "1m", "diagonal": "2260mm", "other_diagonal": "2255mm"`, "A side is longer than you said. The diagonals are 21 mm longer than such sides allow, flat or twisted."},
		{`"of": "frame", "side": "2m", "other_side": "1m", "diagonal": "2210mm", "other_diagonal": "2215mm"`, "or it does not lie flat. The diagonals are 24 mm shorter"},
	} {
		a, err := SquareUp.Calculator().Calculate([]byte("{" + c.in + "}"))
		if err != nil {
			t.Fatal(err)
		}
		if _, got, _ := a.Told("verdict"); !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q", c.in, got, c.want)
		}
	}
}
