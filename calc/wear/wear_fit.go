package wear

import (
	"math"

	"kerfside/calc/chance"

	"kerfside/calc/unit"
)

// Reading is the wear of one part after so many starts and arc minutes: the pit of an
// electrode in metres, or what a tip's bore has grown by, as a share of the new one.
type Reading struct {
	Starts  float64
	Minutes float64
	Depth   float64
}

// WearFit is the law learnt from readings: depth = PerStart·starts +
// PerMinute·minutes, in their unit.
type WearFit struct {
	PerStart, PerMinute float64
	Told                bool // the two could be told apart
	Count, Free         int
	Deviation           float64 // of one reading; 0 with none to spare
	Together            float64 // cosine of starts and minutes over the readings
	fit                 squares
	kept                []int
	far                 float64 // largest leverage of a reading
	mix                 float64 // starts a minute, where they could not be told apart
}

// learn fits the two-part law.
func learn(readings []Reading) *WearFit {
	var starts, minutes, y []float64
	for _, r := range readings {
		starts, minutes, y = append(starts, r.Starts), append(minutes, r.Minutes), append(y, r.Depth)
	}
	w := &WearFit{Count: len(y), Together: cosine(starts, minutes)}
	if s, ok := fit([][]float64{starts, minutes}, y); !ok || s.free < 0 || w.Together > 0.9999 {
		return w.alone(starts, minutes, y)
	}
	w.Told = true
	w.fit, w.kept = nonNegative([][]float64{starts, minutes}, y)
	for i, j := range w.kept {
		if j == 0 {
			w.PerStart = w.fit.coef[i]
		} else {
			w.PerMinute = w.fit.coef[i]
		}
	}
	w.spread(starts, minutes)
	return w
}

// alone fits one rate along the mix that all readings share.
func (w *WearFit) alone(starts, minutes, y []float64) *WearFit {
	along := minutes
	sum := func(x []float64) float64 {
		s := 0.0
		for _, v := range x {
			s += v
		}
		return s
	}
	if sum(minutes) == 0 {
		along = starts
		w.mix = math.Inf(1)
	} else {
		w.mix = sum(starts) / sum(minutes)
	}
	w.fit, w.kept = nonNegative([][]float64{along}, y)
	if len(w.kept) > 0 && !math.IsInf(w.mix, 1) {
		w.PerMinute = w.fit.coef[0]
	} else if len(w.kept) > 0 {
		w.PerStart = w.fit.coef[0]
	}
	w.spread(starts, minutes)
	return w
}

func (w *WearFit) spread(starts, minutes []float64) {
	w.Free = w.fit.free
	w.Deviation = w.fit.deviation()
	for i := range starts {
		w.far = max(w.far, w.fit.leverage(w.point(starts[i], minutes[i])))
	}
}

// point picks the columns that the fit kept.
func (w *WearFit) point(starts, minutes float64) []float64 {
	if !w.Told {
		if len(w.kept) == 0 {
			return nil
		}
		if math.IsInf(w.mix, 1) {
			return []float64{starts}
		}
		return []float64{minutes}
	}
	x := make([]float64, len(w.kept))
	for i, j := range w.kept {
		x[i] = []float64{starts, minutes}[j]
	}
	return x
}

// depth is what the law makes of so many starts and minutes.
func (w *WearFit) depth(starts, minutes float64) float64 { return w.fit.at(w.point(starts, minutes)) }

// sameMix reports whether starts and minutes stand as they did in readings
// that never told them apart, within a tenth.
func (w *WearFit) sameMix(starts, minutes float64) bool {
	if math.IsInf(w.mix, 1) {
		return minutes == 0
	}
	return math.Abs(starts-w.mix*minutes) <= 0.1*max(starts, w.mix*minutes)
}

// half is half the width of the range of one new reading.
func (w *WearFit) half(starts, minutes float64, confidence unit.Ratio) float64 {
	return w.spreadOf(1+w.fit.leverage(w.point(starts, minutes)), confidence)
}

// spreadOf is half the width of the range of what has so many times the variance of a
// reading.
func (w *WearFit) spreadOf(times float64, confidence unit.Ratio) float64 {
	t := chance.StudentQuantile(0.5+float64(confidence)/2, float64(w.Free))
	return t * w.Deviation * math.Sqrt(times)
}

// ranged reports whether an interval of ordinary least squares holds.
func (w *WearFit) ranged() bool {
	return w.Free >= 1 && (!w.Told && len(w.kept) == 1 || w.Told && len(w.kept) == 2)
}

// cosine says how nearly two columns run together: 1 if one is a multiple of
// the other.
func cosine(a, b []float64) float64 {
	na, nb := norm(a), norm(b)
	if na == 0 || nb == 0 {
		return 1
	}
	dot := 0.0
	for i := range a {
		dot += a[i] / na * (b[i] / nb)
	}
	return dot
}
