package power

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/unit"
)

// TestLeadLaws: volts and heat add up, a lead as long as Reach is just within
// the limit, a measured drop means the same as its resistance, and more
// current, length or contact resistance never loses less.
func TestLeadLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 16))
	for n := range 300 {
		t.Run(fmt.Sprintf("seed 15,16 lead %d", n), func(t *testing.T) {
			cord := randomCord(random)
			in := LeadInput{Current: unit.Current(5 + 200*random.Float64()), Lead: cord.Conductor, Length: cord.Length, At: cord.At,
				Loop: random.IntN(2) == 0, Clamp: unit.Resistance(0.02 * random.Float64())}
			res := ComputeLead(in)
			if got := float64(res.LeadHeat + res.ClampHeat); math.Abs(got-float64(in.Current)*float64(res.Drop)) > 1e-9*got {
				t.Errorf("heat %g W is not I·ΔU of %v", got, res.Drop)
			}
			if res.Reach > 0 {
				just := in
				just.Length = res.Reach
				if got := ComputeLead(just).Drop; math.Abs(float64(got-adviceLead)) > 1e-9 {
					t.Errorf("a lead of the reach loses %v V, want 4", got)
				}
			} else if res.ClampDrop < adviceLead {
				t.Errorf("no reach, yet the clamp takes only %v V", res.ClampDrop)
			}
			measured := in
			measured.Clamp, measured.Dropped = 0, res.ClampDrop
			if got := ComputeLead(measured); res.ClampDrop > 0 && math.Abs(float64(got.Clamp/res.Clamp)-1) > 1e-12 {
				t.Errorf("measured across the clamp: %v, want %v", got.Clamp, res.Clamp)
			}
			for what, change := range map[string]func(*LeadInput){
				"more current": func(in *LeadInput) { in.Current *= 1.1 },
				"more length":  func(in *LeadInput) { in.Length *= 1.1 },
				"a worse clamp": func(in *LeadInput) {
					in.Clamp += 0.001
				},
			} {
				worse := in
				change(&worse)
				if got := ComputeLead(worse); got.Drop <= res.Drop {
					t.Errorf("%s loses %v, not more than %v", what, got.Drop, res.Drop)
				}
			}
		})
	}
}
