package air

import (
	"math"

	"kerfside/calc/unit"
)

// criticalRatio is p2/p1 at and below which air leaves a hole at the speed of
// sound: (2/(k+1))^(k/(k−1)) = 0.52828.
var criticalRatio = math.Pow(2/(isentropic+1), isentropic/(isentropic-1))

// OrificeFlow returns the mass flow of cold air through a round hole.
//
//	p2/p1 ≤ 0.528   ṁ = Cd·A·p1·√(k/(R·T))·(2/(k+1))^((k+1)/(2(k−1))) = 0.6847·Cd·A·p1/√(R·T)
//	above           ṁ = Cd·A·p1·√( 2k/((k−1)·R·T)·(r^(2/k) − r^((k+1)/k)) )     r = p2/p1
//
// p1 and p2 absolute, T before the hole, k = 1.4. Nothing flows when p2 ≥ p1.
// Source: adiabatic flow of an ideal gas; checked against the handbook table
// after Moss.
func OrificeFlow(hole unit.Length, discharge unit.Ratio, inlet, outlet unit.Pressure, t unit.Temperature) unit.MassFlow {
	const k = isentropic
	if outlet >= inlet {
		return 0
	}
	r := max(float64(outlet/inlet), criticalRatio)
	area := math.Pi / 4 * float64(hole) * float64(hole)
	speed := math.Sqrt(2 * k / ((k - 1) * gasConstant * float64(t)) * (math.Pow(r, 2/k) - math.Pow(r, (k+1)/k)))
	return unit.MassFlow(float64(discharge) * area * float64(inlet) * speed)
}
