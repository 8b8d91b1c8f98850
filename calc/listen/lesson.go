package listen

import (
	"cmp"
	"math"
	"slices"

	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// lesson is a calibration cut as it is heard.
type lesson struct{ frames []Frame }

// The cut that teaches, in frames of 21 ms and dB.
const (
	longestLesson = 180 * 47 // three minutes
	shortestCut   = 5 * 47
	loudestPart   = 3 * 47 // taken for the arc at first
	sameSound     = 4.0    // that near to it is the same sound
	standsOut     = 10.0
	unsteady      = 5.0 // between the quartiles
	arcTilt       = -6.0
	arcFlat       = -8.0
	lostFrames    = 8 // as long may a buffer be lost
	leastDrop     = 3.0
)

func (l *lesson) take(f Frame) {
	if len(l.frames) < longestLesson && finite(f.High, f.Low, f.Flat, f.Near, f.NearFlat) && f.High >= silence {
		l.frames = append(l.frames, f)
	}
}

// teach finds the cut: the longest stretch about as loud as the loudest three seconds. What stood
// around it is the floor of the place, and what came right after it the air that blew on.
func (l *lesson) teach() (Taught, error) {
	levels := make([]float64, len(l.frames))
	for i, f := range l.frames {
		levels[i], _ = f.upper()
	}
	if len(levels) < shortestCut {
		return Taught{}, refuse("the cut was too short to learn from", "Cut for ten seconds, then tap once more.")
	}
	sorted := order.Sorted(levels, cmp.Compare)
	from, to := longestAbove(levels, sorted[max(0, len(sorted)-loudestPart)]-sameSound)
	rest := slices.Concat(levels[:from], levels[to:])
	level, floor := quantile(levels[from:to], 0.5), math.Inf(1)
	if len(rest) > 0 {
		floor = quantile(rest, 0.1)
	}
	var tilts, flats []float64
	for _, f := range l.frames[from:to] {
		high, flat := f.upper()
		tilts, flats = append(tilts, high-f.Low), append(flats, flat)
	}
	t := Taught{Level: tenth(level), Tilt: tenth(quantile(tilts, 0.5)), Flat: tenth(quantile(flats, 0.5)), Floor: tenth(floor)}
	switch {
	case level-floor < standsOut:
		return Taught{}, refuse("no arc stood out from what else is loud here", "Stop what is loud, lay the phone nearer, and cut once more.")
	case t.Tilt < arcTilt || t.Flat < arcFlat:
		return Taught{}, refuse("what was loudest sounds like a grinder or a hammer, not like an arc", "Stop all else, and cut for ten seconds once more.")
	case to-from < shortestCut:
		return Taught{}, refuse("no arc of five seconds was heard", "Cut for ten seconds without a break, once more.")
	case quantile(levels[from:to], 0.75)-quantile(levels[from:to], 0.25) > unsteady:
		return Taught{}, refuse("the sound of the cut came and went", "Lay the phone where nothing stands before it, and cut once more.")
	}
	if after := levels[min(len(levels), to+4):min(len(levels), to+28)]; len(after) > 0 {
		if air := quantile(after, 0.5); air > floor+offAbove && level-air > leastDrop {
			t.Drop = tenth(level - air)
		}
	}
	return t, nil
}

// upper is the band that a frame has.
func (f Frame) upper() (level, flat float64) {
	if f.isNarrow() {
		return f.Near, f.NearFlat
	}
	return f.High, f.Flat
}

func refuse(msg, hint string) error { return problem.New(problem.Refused, "teach", msg, hint) }

// longestAbove returns the longest stretch above a level, over gaps of lost buffers.
func longestAbove(levels []float64, least float64) (from, to int) {
	start, last := -1, -1
	for i, level := range levels {
		if level < least {
			continue
		}
		if start < 0 || i-last > lostFrames {
			start = i
		}
		last = i
		if last+1-start > to-from {
			from, to = start, last+1
		}
	}
	return from, to
}

// quantile is the value below which that share of the values lies.
func quantile(values []float64, share float64) float64 {
	sorted := order.Sorted(values, cmp.Compare)
	return sorted[min(len(sorted)-1, int(share*float64(len(sorted))))]
}

func tenth(v float64) float64 { return math.Round(v*10) / 10 }
