package layout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kerfside/calc/unit"
)

// TestDivideLaws: parts are alike, fill the length with what lies between, and are no wider
// than allowed; one fewer would be.
func TestDivideLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := DivideInput{
			Length: unit.Length(rapid.Float64Range(0.5, 12).Draw(t, "length")), Into: rapid.SampledFrom([]string{"pieces", "marks", "bars"}).Draw(t, "into"),
			Widest: unit.Length(rapid.Float64Range(0.1, 2).Draw(t, "widest")), Bar: unit.Length(rapid.IntRange(5, 60).Draw(t, "bar")) * unit.Millimetre,
			Start: unit.Length(rapid.IntRange(0, 100).Draw(t, "start")) * unit.Millimetre, End: unit.Length(rapid.IntRange(0, 100).Draw(t, "end")) * unit.Millimetre, Kerf: 2 * unit.Millimetre,
		}
		res, err := ComputeDivide(in)
		if err != nil {
			t.Skip("bars that leave no gap")
		}
		if res.Each > in.Widest+1e-6 {
			t.Errorf("each is %v, want %v or less", res.Each, in.Widest)
		}
		// Walk from the left end: what lies between two parts is kerf, step or gap.
		at := in.Start
		for i, p := range res.At {
			switch in.Into {
			case "bars":
				at += res.Each
			case "marks":
				if i > 0 {
					at += res.Each
				}
			}
			if math.Abs(float64(p.From-at)) > 1e-9 {
				t.Fatalf("part %d begins at %v, want %v", i+1, p.From, at)
			}
			at = p.To
			if in.Into == "pieces" && i+1 < len(res.At) {
				at += in.Kerf
			}
		}
		if in.Into == "bars" {
			at += res.Each
		}
		if math.Abs(float64(at-(in.Length-in.End))) > 1e-9 {
			t.Errorf("the last part ends at %v, want %v", at, in.Length-in.End)
		}
		fewer := in
		fewer.Count = res.Count - 1
		least := map[string]int{"pieces": 1, "marks": 2, "bars": 0}[in.Into]
		if fewer.Count > least {
			if one, err := ComputeDivide(fewer); err == nil && one.Each <= in.Widest-1e-6 {
				t.Errorf("%d would do, with %v each", fewer.Count, one.Each)
			}
		}
	})
}
