package wear

import (
	"math"
	"math/rand"
	"testing"

	"kerfside/calc/life"
)

// covered is how often the range of an outlook holds what is read at the end of the
// job, of so many crews whose parts wear by a known law with known scatter. They have
// read n parts, and, where own, this one; runs without a range are left out. With
// apart each part wears by a rate of its own instead, a fifth to either side, and is
// read exactly: the range does not know of that.
func covered(n int, own, apart bool) (share float64, ranged int) {
	r := rand.New(rand.NewSource(int64(100*n + 7)))
	const crews, perStart, perMinute, scatter = 2000, 4e-6, 1.2e-5, 6e-5
	held := 0
	for range crews {
		noise, rate := scatter, func() float64 { return 1 }
		if apart {
			noise, rate = 0, func() float64 { return 1 + 0.2*r.NormFloat64() }
		}
		// Not cut off at nothing: a range of least squares is for readings that may err to either side.
		read := func(starts, minutes, rate float64) Reading {
			return Reading{Starts: starts, Minutes: minutes, Depth: rate*(perStart*starts+perMinute*minutes) + noise*r.NormFloat64()}
		}
		var readings []Reading
		for range n {
			readings = append(readings, read(float64(20+r.Intn(200)), float64(10+r.Intn(70)), rate()))
		}
		a := ahead{limit: 1, so: life.Use{Minutes: float64(5 + r.Intn(20)), Starts: float64(10 + r.Intn(60))}, job: life.Use{Minutes: float64(5 + r.Intn(20)), Starts: float64(10 + r.Intn(60))}}
		mine := rate()
		now, end := read(a.so.Starts, a.so.Minutes, mine), read(a.so.Starts+a.job.Starts, a.so.Minutes+a.job.Minutes, mine)
		if own {
			readings = append(readings, now)
			a.now, a.read, a.own = now.Depth, true, true
		}
		w := learn(readings)
		if !w.ranged() {
			continue
		}
		if !own {
			a.now = w.depth(a.so.Starts, a.so.Minutes)
		}
		a.confidence = 0.95
		ranged++
		if math.Abs(end.Depth-a.now-w.depth(a.job.Starts, a.job.Minutes)) <= a.half(w, a.job.Starts, a.job.Minutes) {
			held++
		}
	}
	return float64(held) / float64(ranged), ranged
}

// TestForecastRangeHolds: the 95 % range of a forecast holds 93 to 97 of 100 later
// readings from ten readings on. With fewer the share is printed: it may only be
// larger than said, or the caution about few readings would have to be stronger.
func TestForecastRangeHolds(t *testing.T) {
	for _, n := range []int{3, 4, 5, 7, 10, 20, 40} {
		for _, own := range []bool{true, false} {
			share, ranged := covered(n, own, false)
			t.Logf("%2d readings, this part read %-5v: %.1f %% in the range, of %d crews", n, own, 100*share, ranged)
			if n >= 10 && (share < 0.93 || share > 0.97 || ranged < 1900) {
				t.Errorf("%d readings, this part read %v: the 95 %% range held %.1f %% of %d", n, own, 100*share, ranged)
			}
			if share < 0.93 {
				t.Errorf("%d readings, this part read %v: the 95 %% range held only %.1f %%", n, own, 100*share)
			}
		}
		apart, ranged := covered(n, true, true)
		t.Logf("%2d readings, each part at a rate of its own: %.1f %%, of %d crews", n, 100*apart, ranged)
	}
}
