package wear

import (
	"encoding/json"
	"math"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/unit"
)

func tip(smallest, largest float64) TipInput {
	return TipInput{New: unit.Millimetre, Smallest: unit.Length(smallest) * unit.Millimetre, Largest: unit.Length(largest) * unit.Millimetre,
		GrowthLimit: 0.15, OvalLimit: 0.10, Current: 40, Metal: material.MildSteel, Thickness: 6 * unit.Millimetre,
		Speed: 0.4 * unit.MetrePerMinute, Minutes: 10 * unit.Minute, Sure: 0.95}
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
	rank := map[string]int{tipGood: 0, tipWatch: 1, tipUnknown: 2, tipChange: 3}
	for _, metal := range []material.Metal{material.MildSteel, material.Stainless, material.Aluminium, material.CastIron} {
		last := TipResult{Density: unit.CurrentDensity(math.Inf(1)), Capacity: 1, SpeedLeft: 1, Outlook: Outlook{MinutesLeft: math.Inf(1)}, Air: -1}
		for d := 1.0; d < 1.6; d += 0.01 {
			in := tip(d, d)
			in.Metal = metal
			got := mustTip(t, in)
			if got.Density > last.Density || got.Capacity > last.Capacity+1e-12 || got.SpeedLeft > last.SpeedLeft+1e-12 || got.Air < last.Air || rank[got.Verdict] < rank[last.Verdict] {
				t.Errorf("%s, %.2f mm: %+v after %+v", metal, d, got, last)
			}
			if told := got.Forecast && !got.Guessed; told && got.MinutesLeft > last.MinutesLeft+1e-9 {
				t.Errorf("%s, %.2f mm: %v left after %v", metal, d, got.MinutesLeft, last.MinutesLeft)
			}
			if !(got.Capacity > 0 && got.Severs <= got.SeversNew) {
				t.Errorf("%s, %.2f mm: severs %v, new %v", metal, d, got.Severs, got.SeversNew)
			}
			last = got
			if !got.Forecast || got.Guessed {
				last.MinutesLeft = math.Inf(1)
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

// A verdict is never finer than the reading: with a doubt told, past a limit is
// only what is past it in all of its doubt and good only what is under; a
// smaller doubt never turns one of the two into the other.
func TestVerdictKeepsToItsDoubt(t *testing.T) {
	const hair = 1e-6
	for grown := 0.0; grown <= 0.3; grown += 0.01 {
		last := ""
		for off := 0.2; off > 0.001; off -= 0.01 {
			in := tip(1+grown, 1+grown)
			in.Error = unit.Length(off) * unit.Millimetre
			got := mustTip(t, in)
			sure := grown-off >= 0.15-hair
			under := grown+off < 0.15-hair && off <= 0.10+hair
			switch {
			case sure && got.Verdict != tipChange, under && got.Verdict != tipGood && got.Verdict != tipWatch, !sure && !under && got.Verdict != tipUnknown:
				t.Errorf("grown by %.2f, give or take %.2f: %s", grown, off, got.Verdict)
			}
			if last != "" && last != tipUnknown && got.Verdict != last {
				t.Errorf("grown by %.2f, give or take %.2f: %s after %s", grown, off, got.Verdict, last)
			}
			last = got.Verdict
			if got.Forecast && !(got.MinutesLow <= got.MinutesLeft && got.MinutesLeft <= got.MinutesHigh) {
				t.Errorf("grown by %.2f, give or take %.2f: %v to %v minutes left, most likely %v", grown, off, got.MinutesLow, got.MinutesHigh, got.MinutesLeft)
			}
			if (got.Forecast && !got.Guessed) != (grown-off > 0) && math.Abs(grown-off) > hair {
				t.Errorf("grown by %.2f, give or take %.2f: a rate is told: %v", grown, off, got.Forecast)
			}
		}
	}
}

// TestLeftTold: what is left is told as a range where there is one, and else no finer
// than to its first digit.
func TestLeftTold(t *testing.T) {
	bore := map[string]any{"new": "1mm", "smallest": "1.05mm", "nick": "no", "minutes": "40min", "starts": "60"}
	for readings, want := range map[string][2]string{
		"": {"about 35 to 80 min", "about 50 to 150"},
		"120:100min:13.5%, 35:22min:3%, 50:30min:4%, 60:40min:5.5%, 100:90min:12%": {"some 70 min", "some 100"},
	} {
		bore["readings"] = readings
		input, _ := json.Marshal(bore)
		a, err := TipWear.Calculator().Calculate(input)
		if err != nil {
			t.Fatal(err)
		}
		minutes, _ := a.Results().Get("minutes_left")
		starts, _ := a.Results().Get("starts_left")
		if got := [2]string{minutes.(form.Value).Text, starts.(form.Value).Text}; got != want {
			t.Errorf("readings %q: %q, want %q", readings, got, want)
		}
	}
}
