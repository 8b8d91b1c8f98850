package air

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/unit"
)

func randomTank(r *rand.Rand) TankInput {
	log := func(low, high float64) float64 { return low * math.Pow(high/low, r.Float64()) }
	out := log(1, 40)
	in := TankInput{
		Free: unit.Flow(log(5, 20000)) * unit.LitrePerMinute, Reference: references[r.IntN(len(references))], Duty: unit.Ratio(0.05 + 0.95*r.Float64()),
		Volume: unit.Volume(log(0.001, 20)), CutOut: unit.Pressure(out) * unit.Bar, CutIn: unit.Pressure(out*0.99*r.Float64()) * unit.Bar,
		Demand: unit.Flow(log(5, 20000)) * unit.LitrePerMinute, Share: unit.Ratio(0.01 + 0.99*r.Float64()), Needed: unit.Pressure(out*0.99*r.Float64()) * unit.Bar,
		Running: r.IntN(2) == 0, Spell: unit.Duration(log(1, 28800)), Altitude: unit.Length(-500 + 5500*r.Float64()), Temperature: unit.Celsius(-40 + 100*r.Float64()),
	}
	if r.IntN(10) == 0 {
		in.Free = 0
	}
	return in
}

// TestTankLaws: whatever goes in, times are finite and not negative, a larger
// tank lasts longer by as much, the rhythm balances, and what free_air_needed
// says just keeps up.
func TestTankLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	for i := range 500 {
		t.Run(fmt.Sprintf("seed 7,8 tank %d", i), func(t *testing.T) {
			in := randomTank(random)
			res, err := ComputeTank(in)
			if err != nil {
				t.Fatal(err)
			}
			for what, d := range map[string]unit.Duration{"run": res.RunTime, "fill": res.Fill, "pump": res.PumpUp, "open": res.Rhythm.Open, "wait": res.Rhythm.Wait} {
				if !(d >= 0) || math.IsInf(float64(d), 0) {
					t.Errorf("%s time = %v", what, d)
				}
			}
			bigger := in
			bigger.Volume *= 2
			if twice, _ := ComputeTank(bigger); math.Abs(float64(twice.RunTime-2*res.RunTime)) > 1e-9*float64(res.RunTime) {
				t.Errorf("twice the tank lasts %v, want twice %v", twice.RunTime, res.RunTime)
			}
			if res.TankNeeded > 0 {
				right := in
				right.Volume = res.TankNeeded
				if got, _ := ComputeTank(right); math.Abs(float64(got.RunTime/in.Spell)-1) > 1e-9 {
					t.Errorf("the tank needed lasts %v, want %v", got.RunTime, in.Spell)
				}
			}
			enough := in
			enough.Free = res.FreeNeeded
			if got, _ := ComputeTank(enough); math.Abs(float64(got.Margin)) > 1e-9 {
				t.Errorf("with the free air needed the margin is %v, want 0", got.Margin)
			}
			if r := res.Rhythm; r.Open > 0 {
				used := float64(in.Demand) * float64(r.Open)
				if given := float64(res.Sustained) * float64(r.Open+r.Wait); given < used*(1-1e-9) {
					t.Errorf("the rhythm takes %g m³ and gives %g", used, given)
				}
			}
		})
	}
}
