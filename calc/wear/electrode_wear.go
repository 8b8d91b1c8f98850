package wear

import (
	"cmp"
	"math"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// ElectrodeInput is an electrode in the torch, the crew's readings and the job
// ahead.
type ElectrodeInput struct {
	Depth     unit.Length // of the pit now
	DepthRead bool        // Depth was read; else it is reckoned, where it can be
	Limit     unit.Length // change at this depth
	Insert    unit.Length // depth of the insert; 0 if not known
	OffCentre bool
	Now       Reading   // starts and minutes of this electrode; 0 if not counted
	Readings  []Reading // of this rig's electrodes, this one aside

	JobStarts, JobMinutes float64 // what is asked of it still; 0 if not known
	Confidence            unit.Ratio
}

// ElectrodeResult is the verdict on the pit and how long it lasts.
type ElectrodeResult struct {
	Verdict string // "change", "look often" or "good"
	Why     string
	Limit   unit.Length // the nearer of limit and insert
	Used    unit.Ratio  // depth / Limit

	Wear *WearFit // nil without readings

	// Forecast at the mix of the job, or else of this electrode so far.
	Forecast                bool
	MinutesLeft             float64
	StartsLeft              float64
	Ranged                  bool       // MinutesLow and MinutesHigh hold
	MinutesLow, MinutesHigh float64    // MinutesHigh is +Inf where there is no upper end
	Outside                 bool       // further than any reading: no range is given
	Path                    []PitPoint // from now to the limit, or a little past the job
	JobEnd                  unit.Length
	JobVerdict              string // "lasts", "doubtful" or "does not last"; "" without a job
}

// PitPoint is the pit that a forecast makes of so many arc minutes from now, or
// of so many starts where no arc minutes are counted. Low and High are the
// range of one reading; both are Depth where no range is given.
type PitPoint struct {
	More             float64
	Depth, Low, High unit.Length
}

// ComputeElectrode judges the pit and forecasts it. Wear has two parts, starts
// and steady arc, added (Q. J. Japan Weld. Soc. 28(3), 311–318, 2010;
// Nemchinsky, IEEE Trans. Plasma Sci. 42(1), 199–215, 2014):
//
//	depth = k_start·starts + k_time·minutes        both k ≥ 0
//
// fitted by non-negative least squares to the crew's readings. The range of the
// forecast is that of one new reading,
//
//	Δdepth ± t·s·√(1 + h)     t of the free readings, h leverage of the point
//
// and is given only where no k is held at nothing, a reading is to spare and
// the point lies no further out than the readings do. Without a range a job
// that would use more than half of what is left is called doubtful. With one
// reading, or starts and minutes that always went together, only the wear at
// that mix is known, and only that mix (within a tenth) is forecast.
func ComputeElectrode(in ElectrodeInput) (ElectrodeResult, error) {
	res := ElectrodeResult{Limit: in.Limit}
	if in.Insert > 0 && in.Insert < in.Limit {
		res.Limit = in.Insert
	}
	readings := in.Readings
	counted := in.Now.Starts > 0 || in.Now.Minutes > 0
	if counted && in.DepthRead {
		readings = append(readings[:len(readings):len(readings)], Reading{Starts: in.Now.Starts, Minutes: in.Now.Minutes, Depth: float64(in.Depth)})
	}
	if !in.DepthRead && !in.OffCentre && (len(readings) == 0 || !counted) {
		return ElectrodeResult{}, problem.New(problem.Missing, "depth", "there is nothing to judge yet", "Read the pit with a depth gauge. Or enter this electrode's starts and minutes, and readings of others.")
	}
	for i, r := range readings {
		if r.Starts <= 0 && r.Minutes <= 0 {
			return ElectrodeResult{}, problem.Newf(problem.Malformed, "readings", "reading %d has neither starts nor minutes", i+1).WithHint("Write starts:minutes:depth, such as 120:25min:0.4mm.")
		}
	}
	if len(readings) > 0 {
		res.Wear = learn(readings)
	}
	depth := float64(in.Depth)
	if !in.DepthRead && counted && res.Wear != nil {
		depth = res.Wear.depth(in.Now.Starts, in.Now.Minutes)
	}
	res.Used = unit.Ratio(depth / float64(res.Limit))
	res.Verdict, res.Why = in.verdict(res)
	if res.Wear != nil {
		in.forecast(&res, depth)
	}
	return res, nil
}

func (in ElectrodeInput) verdict(res ElectrodeResult) (verdict, why string) {
	switch {
	case in.OffCentre:
		return "change", "the pit is off centre"
	case in.Insert > 0 && in.Depth >= in.Insert:
		return "change", "the insert is gone"
	case res.Used >= 1-1e-12:
		return "change", "the pit is at its limit"
	case res.Used >= 0.5:
		return "look often", "the pit is past half its limit"
	}
	return "good", "the pit is under half its limit"
}

// forecast fills in what is left at the mix of the job, or else of this
// electrode, or else of the readings.
func (in ElectrodeInput) forecast(res *ElectrodeResult, depth float64) {
	w := res.Wear
	starts, minutes := in.JobStarts, in.JobMinutes
	if starts == 0 && minutes == 0 {
		starts, minutes = in.Now.Starts, in.Now.Minutes
	}
	if starts == 0 && minutes == 0 {
		return
	}
	if !w.Told && !w.sameMix(starts, minutes) {
		return
	}
	rate := w.depth(starts, minutes) // for once this many
	if rate <= 0 {
		return
	}
	remaining := max(float64(res.Limit)-depth, 0)
	times := remaining / rate
	res.Forecast = true
	res.MinutesLeft, res.StartsLeft = minutes*times, starts*times
	half := func(k float64) float64 { return w.half(k*starts, k*minutes, in.Confidence) }
	if w.ranged() {
		end := w.fit.leverage(w.point(in.Now.Starts+starts*times, in.Now.Minutes+minutes*times))
		res.Outside = end > w.far*(1+1e-9)
		if !res.Outside {
			res.Ranged = true
			low := crossing(func(k float64) float64 { return k*rate + half(k) - remaining }, times)
			high := crossing(func(k float64) float64 { return k*rate - half(k) - remaining }, times)
			res.MinutesLow, res.MinutesHigh = low*minutes, high*minutes
			if math.IsInf(high, 1) {
				res.MinutesHigh = high
			}
		}
	}
	res.Path = pitPath(depth, rate, cmp.Or(minutes, starts), 1.25*max(times, 1e-9), res.Ranged, half)
	if in.JobStarts > 0 || in.JobMinutes > 0 {
		res.JobEnd = unit.Length(depth + rate)
		res.JobVerdict = "lasts"
		switch {
		case rate > remaining:
			res.JobVerdict = "does not last"
		case res.Ranged && rate+half(1) > remaining, !res.Ranged && rate > remaining/2:
			res.JobVerdict = "doubtful"
		}
	}
}

// pitPath follows the pit to so many times the mix.
func pitPath(depth, rate, mix, times float64, ranged bool, half func(float64) float64) []PitPoint {
	const steps = 12
	path := make([]PitPoint, steps+1)
	for i := range path {
		k := times * float64(i) / steps
		at := depth + k*rate
		path[i] = PitPoint{More: k * mix, Depth: unit.Length(at), Low: unit.Length(at), High: unit.Length(at)}
		if ranged {
			path[i].Low, path[i].High = unit.Length(max(at-half(k), depth)), unit.Length(at+half(k))
		}
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
