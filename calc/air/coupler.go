package air

import (
	"math"

	"kerfside/calc/unit"
)

// Coupler is a coupler, valve or filter as ISO 6358 rates it.
//
//	p2/p1 ≤ b   ṁ = p1·C·ρ0·√(T0/T1)
//	p2/p1 > b   ṁ = p1·C·ρ0·√(T0/T1)·√( 1 − ((p2/p1 − b)/(1 − b))² )
//
// with ρ0, T0 of dry air at 1 bar, 20 °C. Source: ISO 6358-1, in two copies.
type Coupler struct {
	C unit.Conductance // sonic conductance, > 0
	B unit.Ratio       // critical pressure ratio, from 0 to below 1
}

// choked is the mass flow that passes at most for the inlet pressure.
func (c Coupler) choked(inlet unit.Pressure, t unit.Temperature) float64 {
	anr := references[0]
	return float64(inlet) * float64(c.C) * float64(anr.Density()) * math.Sqrt(float64(anr.At)/float64(t))
}

// flow is the mass flow between two absolute pressures.
func (c Coupler) flow(inlet, outlet unit.Pressure, t unit.Temperature) float64 {
	m, b, r := c.choked(inlet, t), float64(c.B), float64(outlet/inlet)
	if r <= b {
		return m
	}
	x := (r - b) / (1 - b)
	return m * math.Sqrt(max(1-x*x, 0))
}

// outlet is the absolute pressure behind the coupler at the mass flow m, and
// false when it cannot pass m at all.
func (c Coupler) outlet(inlet unit.Pressure, m float64, t unit.Temperature) (unit.Pressure, bool) {
	w := m / c.choked(inlet, t)
	if w >= 1 {
		return 0, false
	}
	b := float64(c.B)
	return unit.Pressure(float64(inlet) * (b + (1-b)*math.Sqrt(1-w*w))), true
}

// inlet is the absolute pressure before the coupler that leaves outlet behind
// it at the mass flow m. With q the pressure at which m would just be sonic, so
// that ω = q/p1, the second formula is a square equation in p1:
//
//	(p2 − b·p1)² = (1 − b)²·(p1² − q²)
func (c Coupler) inlet(outlet unit.Pressure, m float64, t unit.Temperature) unit.Pressure {
	q := m / c.choked(1, t)
	b, p2 := float64(c.B), float64(outlet)
	if p2 <= b*q { // sonic: what lies behind does not matter
		return unit.Pressure(q)
	}
	// (1 − 2b)·p1² + 2·b·p2·p1 − (p2² + (1 − b)²·q²) = 0, taken in the form
	// that does not fail at b = 1/2.
	c0 := p2*p2 + (1-b)*(1-b)*q*q
	root := math.Sqrt(b*b*p2*p2 + (1-2*b)*c0)
	return unit.Pressure(c0 / (b*p2 + root))
}

// CouplerFromFlow returns the coupler that passes the flow q of free air (1
// bar, 20 °C) from 6 bar gauge with half a bar lost, which is how data sheets
// rate quick couplers, for a critical ratio b.
func CouplerFromFlow(q unit.Flow, b unit.Ratio) Coupler {
	anr := references[0]
	one := Coupler{C: unit.LitrePerSecondBar, B: b}
	per := one.flow(7*unit.Bar, 6.5*unit.Bar, anr.At)
	return Coupler{C: unit.LitrePerSecondBar * unit.Conductance(float64(anr.Mass(q))/per), B: b}
}
