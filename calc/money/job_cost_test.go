package money

import (
	"math"
	"math/rand"
	"testing"

	"kerfside/calc/unit"
)

func someJob(r *rand.Rand) JobInput {
	f := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	return JobInput{
		Length: unit.Length(f(0.1, 100)), Speed: unit.Speed(f(0.001, 0.1)), Labour: unit.MoneyRate(f(0, 0.05)), Overhead: unit.MoneyRate(f(0, 0.02)),
		Factor: unit.Ratio(f(0.02, 1)), Other: unit.Duration(f(0, 9000)), Watch: unit.Duration(f(0, 7200)), WatchRate: unit.MoneyRate(f(0, 0.05)),
		SetPrice: unit.Money(f(0, 50)), SetLife: unit.Duration(f(60, 9000)), Material: unit.Money(f(0, 500)), Current: unit.Current(f(10, 200)),
		Efficiency: unit.Ratio(f(0.5, 1)), Compressor: unit.Power(f(0, 5000)), AirShare: unit.Ratio(f(0, 4)), Energy: unit.Money(f(0, 2)), Margin: unit.Ratio(f(0, 1)),
	}
}

// The parts add up to the total; twice the cut at the same rates costs twice
// its cutting, and a better operating factor never costs more.
func TestJobLaws(t *testing.T) {
	r := rand.New(rand.NewSource(21))
	for range 500 {
		in := someJob(r)
		one := mustJob(t, in)
		sum := one.Labour + one.Overhead + one.Watch + one.Parts + one.Power + one.Air + one.Bought
		if math.Abs(float64(sum-one.Total)) > 1e-9*float64(one.Total) || one.Price < one.Total {
			t.Fatalf("%+v: parts %v, total %v, price %v", in, sum, one.Total, one.Price)
		}
		twice := in
		twice.Length *= 2
		two := mustJob(t, twice)
		if math.Abs(float64(two.CutPerLength/one.CutPerLength)-1) > 1e-9 || math.Abs(float64(two.Arc/one.Arc)-2) > 1e-12 {
			t.Fatalf("%+v: %v a metre, twice as long %v", in, one.CutPerLength, two.CutPerLength)
		}
		better := in
		better.Factor = min(1, in.Factor*1.5)
		if got := mustJob(t, better); got.Total > one.Total*(1+1e-12) {
			t.Fatalf("%+v: at factor %v it costs %v, at %v %v", in, in.Factor, one.Total, better.Factor, got.Total)
		}
		timed := in
		timed.Speed, timed.ArcTime = 0, one.Arc
		if got := mustJob(t, timed); math.Abs(float64(got.Total/one.Total)-1) > 1e-12 {
			t.Fatalf("%+v: by arc time %v, by speed %v", in, got.Total, one.Total)
		}
	}
}

func mustJob(t *testing.T, in JobInput) JobResult {
	t.Helper()
	res, err := ComputeJob(in)
	if err != nil {
		t.Fatalf("%+v: %v", in, err)
	}
	return res
}
