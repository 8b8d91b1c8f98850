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

// TestSquareDoubt: a tape that is off by what it may be moves what is told by no more than
// the doubt, which is told to first order.
func TestSquareDoubt(t *testing.T) {
	in := SquareInput{A: 3 * unit.Metre, B: 4 * unit.Metre, D1: 5.01 * unit.Metre, Tape: unit.Millimetre}
	told, err := ComputeSquare(in)
	if err != nil {
		t.Fatal(err)
	}
	off := in
	off.D1 += in.Tape
	moved, err := ComputeSquare(off)
	if err != nil {
		t.Fatal(err)
	}
	if got := moved.Out - told.Out; math.Abs(float64(got/told.Doubt)-1) > 0.01 {
		t.Errorf("a millimetre on the diagonal moves the end by %v, told %v", got, told.Doubt)
	}
}

func TestSquareVerdicts(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{`"side": "3000mm", "other_side": "4000mm", "diagonal": "5010mm"`, "The corner is too open. Move the end of the second leg in by 17 mm."},
		{`"side": "2400mm", "other_side": "1800mm", "diagonal": "2990mm"`, "The corner is too closed. Move the end of the second leg out by 12 mm."},
		{`"side": "3m", "other_side": "4m", "diagonal": "5m"`, "Square as far as the tape tells: within 1.7 mm."},
		{`"of": "frame", "side": "2m", "other_side": "1m", "diagonal": "2240mm", "other_diagonal": "2232mm"`, "Push the ends of the first diagonal together: it is the longer one. Shift one length along the other by 4.5 mm."},
		{`"of": "frame", "side": "2m", "other_side": "1m", "diagonal": "2232mm", "other_diagonal": "2240mm"`, "Push the ends of the other diagonal together"},
		{`"of": "frame", "side": "2m", "other_side": "1m", "diagonal": "2260mm", "other_diagonal": "2255mm"`, "A side is wrong, or it does not lie flat. The diagonals are 21 mm longer than these sides allow."},
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
