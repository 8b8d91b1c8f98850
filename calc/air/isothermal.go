package air

import "math"

// The isothermal flow of a gas through a bore:
//
//	p1² − p2² = g²·[ k + 2·ln(p1/p2) ]     g = (ṁ/A)·√(R·T)     k = f·L/D + ΣK
//
// p1 and p2 absolute, g a pressure, k > 0. A g for which no p2 solves it cannot
// be pushed through: the bore is choked. The limit lies where p2 = g, that is
// where the gas leaves at the isothermal speed of sound.
// Source: Crane TP-410 eq. 1-6; checked against the fluids library.

// isothermal is the left side less the right one; it falls as p2 rises from g
// to p1, and rises with p1.
func isothermal(p1, p2, g, k float64) float64 {
	return (p1-p2)*(p1+p2) - g*g*(k+2*math.Log(p1/p2))
}

// behind returns p2, and false when the bore is choked.
func behind(p1, g, k float64) (float64, bool) {
	if g >= p1 || isothermal(p1, g, g, k) < 0 {
		return 0, false
	}
	return bisect(g, p1, func(p2 float64) bool { return isothermal(p1, p2, g, k) >= 0 }), true
}

// before returns the p1 that leaves p2, or that makes the bore just choke if
// that is more, and whether it is choked then.
func before(p2, g, k float64) (p1 float64, choked bool) {
	choked = p2 < g
	p2 = max(p2, g)
	high := 2 * p2
	for isothermal(high, p2, g, k) < 0 {
		high *= 2
	}
	return bisectUp(p2, high, func(p1 float64) bool { return isothermal(p1, p2, g, k) < 0 }), choked
}
