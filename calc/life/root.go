package life

import "math"

// root returns where f, of opposite signs at low and high, is nothing, to the last
// digits.
func root(f func(float64) float64, low, high float64) float64 { return rootWithin(f, low, high, 0) }

// rootWithin is root, ended where both ends lie within that.
func rootWithin(f func(float64) float64, low, high, within float64) float64 {
	return rootBetween(f, low, f(low), high, f(high), within)
}

// rootBetween is rootWithin where what f is at both ends is known. It goes through the
// last three points by inverse quadratic interpolation where that is safe, else halves:
// T. R. Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the zero of
// a nonlinear function without using derivatives", Advances in Engineering Software 28
// (1997), 145–149; from memory.
func rootBetween(f func(float64) float64, low, atLow, high, atHigh, within float64) float64 {
	const digits = 1e-15
	x, y := high, atHigh // the newest
	b, bt := low, atLow  // of the other sign
	c, ct := b, bt       // the one before
	t := 0.5
	if y != bt {
		t = y / (y - bt)
	}
	for range 200 {
		best := x
		if math.Abs(bt) < math.Abs(y) {
			best = b
		}
		if y == 0 || bt == 0 {
			return best
		}
		least := max(within, digits*max(math.Abs(x), math.Abs(b))) / math.Abs(b-x)
		if least >= 1 {
			return best
		}
		t = min(max(t, least/2), 1-least/2)
		next := x + t*(b-x)
		if next == x || next == b {
			return best
		}
		nt := f(next)
		if (nt > 0) == (y > 0) {
			c, ct = x, y
		} else {
			c, ct, b, bt = b, bt, x, y
		}
		x, y = next, nt
		t = 0.5
		xi, phi := (x-b)/(c-b), (y-bt)/(ct-bt)
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			t = y/(bt-y)*ct/(bt-ct) + (c-x)/(b-x)*y/(ct-y)*bt/(ct-bt)
		}
	}
	return x
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
