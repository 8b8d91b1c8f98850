package wear

import (
	"cmp"
	"math"

	"kerfside/calc/life"
	"kerfside/calc/unit"
)

// ahead asks how one kind of wear goes on: a pit in metres, or what a bore has grown
// by as a share of the new one.
type ahead struct {
	limit, now float64
	read       bool     // now was read; else the law tells it
	own        bool     // that reading is one of those learnt from
	so         life.Use // of this part so far
	job        life.Use // what is asked of it still
	confidence unit.Ratio
	slot       string  // whose lives are taken for granted before there are readings
	usual      float64 // the wear at which those lives end
}

// Outlook is how the wear goes on, at the mix of the job, or else of the part so far.
type Outlook struct {
	Forecast                bool
	Guessed                 bool // by what is taken for granted: no reading tells
	MinutesLeft             float64
	StartsLeft              float64
	Ranged                  bool        // MinutesLow and MinutesHigh hold
	MinutesLow, MinutesHigh float64     // MinutesHigh is +Inf where there is no upper end
	ByReading               bool        // MinutesLow and MinutesHigh are what the reading of now leaves open
	Outside                 bool        // further than any reading: no range is given
	Path                    []WearPoint // from now to the limit, or a little past it
	AtJobEnd                float64
	JobVerdict              string // "lasts", "doubtful" or "does not last"; "" without a job
}

// WearPoint is the wear that a forecast makes of so many arc minutes from now, or of
// so many starts where no arc minutes are counted. Low and High are the range of one
// reading; both are At where no range is given.
type WearPoint struct{ More, At, Low, High float64 }

// The words for a job.
const (
	jobLasts    = "lasts"
	jobDoubtful = "doubtful"
	jobFails    = "does not last"
)

// outlook goes on from now by the law learnt from readings, w, which may be nil. The
// range is that of the difference between now and one later reading, both as uncertain
// as any reading, for the reading of now is one too:
//
//	Δ ± t·s·√(2 + h(Δ) + 2·c)     c = Δ·(XᵀX)⁻¹·now where now is one of the readings, else 0
//
// and where now was not read, that of one reading at its end, ± t·s·√(1 + h(end)).
func (a ahead) outlook(w *WearFit) Outlook {
	var o Outlook
	mix := a.job
	if mix == (life.Use{}) {
		mix = a.so
	}
	if mix == (life.Use{}) {
		return o
	}
	remaining := max(a.limit-a.now, 0)
	var rate float64
	if w != nil && (w.Told || w.sameMix(mix.Starts, mix.Minutes)) {
		rate = w.depth(mix.Starts, mix.Minutes) // for once this many
	}
	if rate <= 0 {
		return a.guess(mix, remaining)
	}
	times := remaining / rate
	o.Forecast = true
	o.MinutesLeft, o.StartsLeft = mix.Minutes*times, mix.Starts*times
	half := func(k float64) float64 { return a.half(w, k*mix.Starts, k*mix.Minutes) }
	if w.ranged() {
		end := w.fit.leverage(w.point(a.so.Starts+mix.Starts*times, a.so.Minutes+mix.Minutes*times))
		o.Outside = end > w.far*(1+1e-9)
		if !o.Outside {
			o.Ranged = true
			o.MinutesLow = mix.Minutes * crossing(func(k float64) float64 { return k*rate + half(k) - remaining }, times)
			high := crossing(func(k float64) float64 { return k*rate - half(k) - remaining }, times)
			if o.MinutesHigh = high * mix.Minutes; math.IsInf(high, 1) {
				o.MinutesHigh = high
			}
		}
	}
	o.Path = a.path(mix, times, func(k float64) (at, low, high float64) {
		if at = a.now + k*rate; !o.Ranged {
			return at, at, at
		}
		return at, max(at-half(k), a.now), at + half(k)
	})
	if a.job != (life.Use{}) {
		o.AtJobEnd = a.now + rate
		switch {
		case rate > remaining:
			o.JobVerdict = jobFails
		case o.Ranged && rate+half(1) > remaining, !o.Ranged && rate > remaining/2:
			o.JobVerdict = jobDoubtful
		default:
			o.JobVerdict = jobLasts
		}
	}
	return o
}

// half is half the width of the range, so many starts and minutes on.
func (a ahead) half(w *WearFit, starts, minutes float64) float64 {
	if !a.read {
		return w.half(a.so.Starts+starts, a.so.Minutes+minutes, a.confidence)
	}
	more, with := w.point(starts, minutes), 0.0
	if a.own {
		with = 2 * w.fit.cross(more, w.point(a.so.Starts, a.so.Minutes))
	}
	return w.spreadOf(2+w.fit.leverage(more)+with, a.confidence)
}

// guess goes on by what is taken for granted of such parts' lives: wear is even over
// a life, and a life ends at the usual limit. The range is that of eight lives in ten:
// what is known so little has no ends worth telling.
func (a ahead) guess(mix life.Use, remaining float64) Outlook {
	const tail = 0.1
	laws := life.Learn(nil, life.PriorOf(a.slot)).Fitted(a.so).Laws()
	lives := [3]float64{laws.Reaches(tail, mix), laws.Reaches(0.5, mix), laws.Reaches(1-tail, mix)} // short, middling, long
	share := remaining / a.usual
	o := Outlook{Forecast: true, Guessed: true, Ranged: true,
		MinutesLow: lives[0] * share * mix.Minutes, MinutesLeft: lives[1] * share * mix.Minutes, MinutesHigh: lives[2] * share * mix.Minutes,
		StartsLeft: lives[1] * share * mix.Starts}
	o.Path = a.path(mix, lives[1]*share, func(k float64) (at, low, high float64) {
		return a.now + k*a.usual/lives[1], a.now + k*a.usual/lives[2], a.now + k*a.usual/lives[0]
	})
	if a.job != (life.Use{}) {
		o.AtJobEnd = a.now + a.usual/lives[1]
		switch {
		case a.usual/lives[2] > remaining:
			o.JobVerdict = jobFails
		case a.usual/lives[0] > remaining:
			o.JobVerdict = jobDoubtful
		default:
			o.JobVerdict = jobLasts
		}
	}
	return o
}

// path follows the wear to a quarter past so many times the mix.
func (a ahead) path(mix life.Use, times float64, at func(k float64) (at, low, high float64)) []WearPoint {
	const steps = 12
	path := make([]WearPoint, steps+1)
	for i := range path {
		k := 1.25 * max(times, 1e-9) * float64(i) / steps
		path[i].More = k * cmp.Or(mix.Minutes, mix.Starts)
		path[i].At, path[i].Low, path[i].High = at(k)
	}
	return path
}

// crossing finds where f, below nothing at 0 or not, first rises through
// nothing: 0 if it starts above, +Inf if it never does within a thousand times
// the guess.
func crossing(f func(float64) float64, guess float64) float64 {
	if f(0) >= 0 {
		return 0
	}
	low, high := 0.0, max(guess, 1e-9)
	for f(high) < 0 {
		low, high = high, 2*high
		if high > 1000*max(guess, 1e-9) {
			return math.Inf(1)
		}
	}
	for range 200 {
		mid := (low + high) / 2
		if mid == low || mid == high {
			break
		}
		if f(mid) < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}
