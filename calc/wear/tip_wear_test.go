package wear

import (
	"math"
	"testing"

	"kerfside/calc/material"
	"kerfside/calc/unit"
)

func tip(smallest, largest float64) TipInput {
	return TipInput{New: unit.Millimetre, Smallest: unit.Length(smallest) * unit.Millimetre, Largest: unit.Length(largest) * unit.Millimetre,
		GrowthLimit: 0.15, OvalLimit: 0.10, Current: 40, Metal: material.MildSteel, Thickness: 6 * unit.Millimetre,
		Speed: 0.4 * unit.MetrePerMinute, Minutes: 10 * unit.Minute}
}

func mustTip(t *testing.T, in TipInput) TipResult {
	t.Helper()
	res, err := ComputeTip(in)
	if err != nil {
		t.Fatalf("%+v: %v", in, err)
	}
	return res
}

// A wider bore never carries more current on its area, never severs more,
// never runs faster, never takes less air and never has longer to go.
func TestWiderIsWorse(t *testing.T) {
	rank := map[string]int{"good": 0, "look often": 1, "change": 2}
	for _, metal := range []material.Metal{material.MildSteel, material.Stainless, material.Aluminium, material.CastIron} {
		last := TipResult{Density: unit.CurrentDensity(math.Inf(1)), Capacity: 1, SpeedLeft: 1, MinutesLeft: unit.Duration(math.Inf(1)), Air: -1}
		for d := 1.0; d < 1.6; d += 0.01 {
			in := tip(d, d)
			in.Metal = metal
			got := mustTip(t, in)
			if got.Density > last.Density || got.Capacity > last.Capacity+1e-12 || got.SpeedLeft > last.SpeedLeft+1e-12 || got.Air < last.Air || rank[got.Verdict] < rank[last.Verdict] {
				t.Errorf("%s, %.2f mm: %+v after %+v", metal, d, got, last)
			}
			if got.Forecast && got.MinutesLeft > last.MinutesLeft {
				t.Errorf("%s, %.2f mm: %v left after %v", metal, d, got.MinutesLeft, last.MinutesLeft)
			}
			if !(got.Capacity > 0 && got.Severs <= got.SeversNew) {
				t.Errorf("%s, %.2f mm: severs %v, new %v", metal, d, got.Severs, got.SeversNew)
			}
			last = got
			if !got.Forecast {
				last.MinutesLeft = unit.Duration(math.Inf(1))
			}
		}
	}
}

// A pin alone, and a pin with the same largest reading, judge alike; reading
// the largest as well can only make it worse.
func TestPinIsTheLeast(t *testing.T) {
	for d := 1.0; d < 1.3; d += 0.01 {
		pin, round := mustTip(t, tip(d, 0)), mustTip(t, tip(d, d))
		if pin.Verdict != round.Verdict || pin.Growth != round.Growth || pin.Density != round.Density {
			t.Errorf("%.2f mm: pin %+v, round %+v", d, pin, round)
		}
		for oval := 0.0; oval < 0.3; oval += 0.02 {
			if got := mustTip(t, tip(d, d+oval)); got.Used < pin.Used-1e-12 || got.Growth < pin.Growth-1e-12 {
				t.Errorf("%.2f mm, oval to %.2f: %+v is better than the pin's %+v", d, d+oval, got, pin)
			}
		}
	}
}

// The pair rule for every combination: both are changed where one is past its
// limit and the other past half, and only there.
func TestPairRule(t *testing.T) {
	for grown := 0.0; grown <= 0.2; grown += 0.005 {
		for electrode := 0.0; electrode <= 1.5; electrode += 0.05 {
			in := tip(1+grown, 0)
			in.Electrode = unit.Ratio(electrode)
			got := mustTip(t, in)
			tipUsed := float64(got.Used)
			want := tipUsed >= 1-1e-6 && electrode > 0.5 || electrode >= 1 && tipUsed > 0.5
			if got.ChangeBoth != want {
				t.Errorf("tip %.3f of its limit, electrode %.2f: both %v, want %v", tipUsed, electrode, got.ChangeBoth, want)
			}
		}
	}
}
