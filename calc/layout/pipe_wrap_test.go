package layout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// TestWrapMeets: a printed strip, bent about the middle of its paper, has its lines at equal
// angles and meets itself after one turn; a thicker one is longer by π times what it is
// thicker.
func TestWrapMeets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := WrapInput{
			Pipe:  Pipe{Name: "pipe as measured", OD: unit.Length(rapid.Float64Range(15, 1500).Draw(t, "od")) * unit.Millimetre, Wall: unit.Millimetre},
			Paper: unit.Length(rapid.Float64Range(0, 3).Draw(t, "paper")) * unit.Millimetre, Marks: rapid.SampledFrom([]int{4, 6, 8, 12, 16}).Draw(t, "marks"),
		}
		res := ComputeWrap(in)
		strip := wrapTemplate(form.NewAnswer(form.NewReader(PipeWrap.Calculator(), nil)), in, res)
		bent := inMM(in.Pipe.OD+in.Paper) / 2
		seen := 0
		for _, l := range strip.Lines {
			if l.Use != drawing.Station {
				continue
			}
			if angle, want := l.Points[0].X/bent, 2*math.Pi*float64(seen)/float64(in.Marks); math.Abs(angle-want) > 1e-9 {
				t.Errorf("line %d lies at %v rad round the pipe, want %v", seen, angle, want)
			}
			seen++
		}
		if seen != in.Marks+1 {
			t.Errorf("%d lines are printed, want %d and the first again", seen, in.Marks)
		}
		thick := in
		thick.Paper += unit.Millimetre
		if more := ComputeWrap(thick).Printed - res.Printed; math.Abs(float64(more)-math.Pi*1e-3) > 1e-12 {
			t.Errorf("a millimetre more of paper is %v more to print, want π mm", more)
		}
	})
}

// TestWrapStrips: so many strips laid one on the next by a tab go once round and lie on
// themselves by a tab; one fewer does not.
func TestWrapStrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := WrapInput{
			Pipe: Pipe{OD: unit.Length(rapid.Float64Range(15, 1500).Draw(t, "od")) * unit.Millimetre}, Marks: 4,
			Paper: 0.1 * unit.Millimetre, StripLong: unit.Length(rapid.Float64Range(30, 2000).Draw(t, "long")) * unit.Millimetre,
		}
		res := ComputeWrap(in)
		// reach lays n strips down and says how far they come.
		reach := func(n int) unit.Length {
			end := unit.Length(0)
			for i := range n {
				if i > 0 {
					end -= wrapTab
				}
				end += in.StripLong
			}
			return end
		}
		need := res.Printed + wrapTab
		if got := reach(res.Strips); got < need-1e-9 {
			t.Errorf("%d strips reach %v, want %v", res.Strips, got, need)
		}
		if got := reach(res.Strips - 1); got >= need {
			t.Errorf("%d would do: they reach %v of %v", res.Strips-1, got, need)
		}
	})
}
