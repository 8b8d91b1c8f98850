package air

import "math"

// Reynolds numbers between which the flow is neither surely laminar nor surely
// turbulent (common figures of fluid mechanics).
const (
	laminarBelow   = 2300
	turbulentAbove = 4000
)

// friction returns Darcy's friction factor at a Reynolds number re and a
// relative roughness ε/D.
//
//	laminar      f = 64/Re
//	turbulent    1/√f = −2·log10( (ε/D)/3.7 + 2.51/(Re·√f) )     Colebrook
//
// Between Re 2300 and 4000 nobody can say; the two ends are joined by a
// straight line, so that more flow always costs more pressure. re > 0.
func friction(re, roughness float64) float64 {
	switch {
	case re <= laminarBelow:
		return 64 / re
	case re < turbulentAbove:
		low, high := 64.0/laminarBelow, colebrook(turbulentAbove, roughness)
		return low + (high-low)*(re-laminarBelow)/(turbulentAbove-laminarBelow)
	}
	return colebrook(re, roughness)
}

// colebrook solves Colebrook's equation for x = 1/√f by Newton's method. The
// left side falls and is convex in x, so the steps cannot run away; ten make
// the last figure stand for any re ≥ 1000 and roughness ≤ 0.1.
func colebrook(re, roughness float64) float64 {
	a, b := roughness/3.7, 2.51/re
	x := 7.0 // f = 0.02
	for range 10 {
		y := a + b*x
		x -= (x + 2*math.Log10(y)) / (1 + 2*b/(y*math.Ln10))
	}
	return 1 / (x * x)
}
