package cutting

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/unit"
)

// TestPaceLaws: a pass walked at the planned speed is right, the verdict turns where the slack
// ends and nowhere else, longer is faster and slower takes longer, and units of time and length
// cancel out: a pass of twice the length in twice the time is the same.
func TestPaceLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 3))
	for range 2000 {
		in := PaceInput{
			Speed: unit.Speed(0.001 + 0.05*random.Float64()), Marks: unit.Length(0.05 + 0.2*random.Float64()),
			Length: unit.Length(0.02 + 2*random.Float64()), Slack: unit.Ratio(0.01 + 0.4*random.Float64()),
		}
		off := 1.2*random.Float64() - 0.6
		in.Time = unit.Duration(float64(in.Length) / (float64(in.Speed) * (1 + off)))
		got, err := ComputePace(in)
		if err != nil {
			t.Fatal(err)
		}
		want := "right"
		switch slack := float64(in.Slack); {
		case off > slack:
			want = "too fast"
		case off < -slack:
			want = "too slow"
		}
		if got.Verdict != want && math.Abs(math.Abs(off)-float64(in.Slack)) > 1e-9 || math.Abs(float64(got.Off)-off) > 1e-9 {
			t.Fatalf("%+v: %+v, want %s by %g", in, got, want, off)
		}
		if beats := float64(in.Length) / float64(in.Marks) * float64(got.Beat); math.Abs(beats-float64(in.Length)*float64(got.Pace)) > 1e-9 {
			t.Fatalf("%+v: %g s by beats, %g s by pace", in, beats, float64(in.Length)*float64(got.Pace))
		}
		twice := in
		twice.Length, twice.Time = 2*in.Length, 2*in.Time
		if same, _ := ComputePace(twice); math.Abs(float64(same.Passed/got.Passed)-1) > 1e-12 {
			t.Fatalf("%+v: %v twice as long, %v once", in, same.Passed, got.Passed)
		}
		longer := in
		longer.Time *= 1.01
		if slower, _ := ComputePace(longer); slower.Passed >= got.Passed {
			t.Fatalf("%+v: not slower in more time", in)
		}
	}
}

// TestOddPass: three times as fast as planned, or a third, is a slip of the clock rather
// than of the hand.
func TestOddPass(t *testing.T) {
	for off, want := range map[float64]bool{-0.9: true, -0.7: true, -0.6: false, 0: false, 1.9: false, 2.1: true, 23: true} {
		res, err := ComputePace(PaceInput{Speed: 0.02, Marks: 0.1, Length: 0.4, Time: unit.Duration(0.4 / (0.02 * (1 + off))), Slack: 0.1})
		if err != nil || res.odd() != want {
			t.Errorf("%v off: odd %v, %v", off, res.odd(), err)
		}
	}
	if res, _ := ComputePace(PaceInput{Speed: 0.02, Marks: 0.1, Slack: 0.1}); res.odd() {
		t.Error("no pass at all is odd")
	}
}
