package life

import "math"

// root returns where f, of opposite signs at low and high, is nothing, to the last
// digits.
func root(f func(float64) float64, low, high float64) float64 { return rootWithin(f, low, high, 0) }

// rootWithin is root, ended where both ends lie within that: false position with the
// Illinois step, and halving where that is slow.
func rootWithin(f func(float64) float64, low, high, within float64) float64 {
	return rootBetween(f, low, f(low), high, f(high), within)
}

// rootBetween is rootWithin where what f is at both ends is known.
func rootBetween(f func(float64) float64, low, at, high, bt, within float64) float64 {
	for i := range 200 {
		if at == 0 {
			return low
		}
		x := (low + high) / 2
		if i%3 != 2 && bt != at {
			x = high - bt*(high-low)/(bt-at)
		}
		if x == low || x == high || math.Abs(high-low) <= max(within, 1e-15*max(math.Abs(low), math.Abs(high))) {
			return x
		}
		xt := f(x)
		switch {
		case xt == 0:
			return x
		case (xt > 0) != (bt > 0):
			low, at = high, bt
		default:
			at /= 2
		}
		high, bt = x, xt
	}
	return high
}

// leave returns where f, above nothing at from, has come down to it, going out from
// there in steps that double; false when it has not within far.
func leave(f func(float64) float64, from, step, far float64) (float64, bool) {
	near := from
	for math.Abs(step) <= far {
		if end := from + step; f(end) <= 0 {
			return rootWithin(f, near, end, 1e-10), true
		}
		near, step = from+step, 2*step
	}
	return 0, false
}
