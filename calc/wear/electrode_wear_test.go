package wear

import (
	"math"
	"math/rand"
	"testing"

	"kerfside/calc/unit"
)

func someReadings(r *rand.Rand, n int, perStart, perMinute, scatter float64) []Reading {
	list := make([]Reading, n)
	for i := range list {
		list[i].Starts, list[i].Minutes = float64(10+r.Intn(300)), float64(5+r.Intn(90))
		list[i].Depth = max(perStart*list[i].Starts+perMinute*list[i].Minutes+scatter*r.NormFloat64(), 0)
	}
	return list
}

// Readings without scatter give their own law back, whatever it is.
func TestLearnsWhatMadeIt(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	for range 200 {
		ks, kt := 1e-5*r.Float64(), 2e-5*r.Float64()
		w := learn(someReadings(r, 4+r.Intn(10), ks, kt, 0))
		if !w.Told || math.Abs(w.PerStart-ks) > 1e-12 || math.Abs(w.PerMinute-kt) > 1e-12 {
			t.Errorf("learnt %v and %v of %v and %v", w.PerStart, w.PerMinute, ks, kt)
		}
	}
}

// No k is ever below nothing, and no other pair of k ≥ 0 fits better.
func TestNeverBelowNothing(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	for range 300 {
		readings := someReadings(r, 3+r.Intn(8), 2e-6*r.NormFloat64(), 8e-6*r.NormFloat64(), 1e-4)
		w := learn(readings)
		sse := func(ks, kt float64) float64 {
			s := 0.0
			for _, x := range readings {
				e := x.Depth - ks*x.Starts - kt*x.Minutes
				s += e * e
			}
			return s
		}
		ks, kt := w.PerStart, w.PerMinute
		if ks < 0 || kt < 0 {
			t.Fatalf("%v: %v a start, %v a minute", readings, ks, kt)
		}
		best := sse(ks, kt)
		for range 50 {
			a, b := math.Abs(ks+1e-6*r.NormFloat64()), math.Abs(kt+1e-6*r.NormFloat64())
			if sse(a, b) < best-1e-12 {
				t.Fatalf("%v: %v, %v fits worse than %v, %v", readings, ks, kt, a, b)
			}
		}
	}
}

// A deeper pit is never forecast longer, the range holds the forecast, and
// more confidence never narrows it.
func TestForecastLaws(t *testing.T) {
	r := rand.New(rand.NewSource(14))
	ranged := 0
	for range 200 {
		in := ElectrodeInput{DepthRead: true, Limit: 0.0015, Confidence: 0.95, Now: Reading{Starts: 5, Minutes: 3},
			Readings: someReadings(r, 12, 5e-6, 1e-5, 5e-5), JobStarts: 20, JobMinutes: 10}
		last := math.Inf(1)
		for depth := 0.0; depth <= 0.0016; depth += 0.0002 {
			in.Depth = unit.Length(depth)
			got, err := ComputeElectrode(in)
			if err != nil || !got.Forecast {
				t.Fatalf("%+v: %+v, %v", in, got, err)
			}
			if got.MinutesLeft > last*1.05 || got.MinutesLeft < 0 {
				t.Errorf("%v m deep: %v min left, %v for less", depth, got.MinutesLeft, last)
			}
			last = got.MinutesLeft
			if !got.Ranged {
				continue
			}
			ranged++
			in.Confidence = 0.8
			narrow, err := ComputeElectrode(in)
			in.Confidence = 0.95
			if err != nil || !(got.MinutesLow <= got.MinutesLeft && got.MinutesLeft <= got.MinutesHigh) || narrow.MinutesLow < got.MinutesLow || narrow.MinutesHigh > got.MinutesHigh {
				t.Errorf("%v m deep: %v in %v to %v, at 80 %% in %v to %v, %v", depth, got.MinutesLeft, got.MinutesLow, got.MinutesHigh, narrow.MinutesLow, narrow.MinutesHigh, err)
			}
		}
	}
	if ranged < 100 {
		t.Errorf("only %d forecasts had a range: the law was hardly tried", ranged)
	}
}

// Of many crews with known wear, the range of one more reading holds that
// reading as often as it claims.
func TestRangeHolds(t *testing.T) {
	r := rand.New(rand.NewSource(31))
	const crews, confidence = 4000, 0.9
	held, tried := 0, 0
	for range crews {
		w := learn(someReadings(r, 8, 5e-6, 1e-5, 5e-5))
		if !w.ranged() {
			continue
		}
		starts, minutes := 120.0, 40.0
		truth := 5e-6*starts + 1e-5*minutes + 5e-5*r.NormFloat64()
		tried++
		if math.Abs(truth-w.depth(starts, minutes)) <= w.half(starts, minutes, confidence) {
			held++
		}
	}
	share := float64(held) / float64(tried)
	if tried < crews*9/10 || math.Abs(share-confidence) > 0.02 {
		t.Errorf("the %v range held %v of %d readings", confidence, share, tried)
	}
}

func FuzzReadings(f *testing.F) {
	f.Add("120:25min:0.4mm, 300:30min:0.8mm")
	f.Add("1:0:2mm; 1:0,5:1/16in")
	f.Fuzz(func(t *testing.T, text string) {
		list, err := parseReadings(text)
		if err != nil {
			return
		}
		for _, x := range list {
			if !(x.Starts >= 0 && x.Minutes >= 0 && x.Depth >= 0 && x.Depth <= 0.01) {
				t.Errorf("parseReadings(%q) = %+v", text, x)
			}
		}
	})
}
