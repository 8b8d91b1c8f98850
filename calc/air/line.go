package air

import (
	"math"

	"kerfside/calc/unit"
)

// Line is a hose or pipe from the compressor to the machine, with what sits in
// it. Half of the couplers (the odd one too) are reckoned at its inlet, the
// others at its outlet, as they sit on a hose.
//
// Pressures here are absolute. The bore follows the isothermal equation, see
// behind. Darcy's f (see friction) is the same all along, since the viscosity
// depends on the temperature only.
type Line struct {
	Bore        unit.Length // inside diameter
	Length      unit.Length // with the equivalent length of fittings
	Roughness   unit.Length // of the wall
	Loss        float64     // ΣK of bends, tees and valves
	Couplers    int
	Coupler     Coupler // read only if there are any
	Temperature unit.Temperature
}

func (l Line) area() float64 { return math.Pi / 4 * float64(l.Bore) * float64(l.Bore) }

// reynolds is the Reynolds number of a mass flow.
func (l Line) reynolds(m float64) float64 {
	return 4 * m / (math.Pi * float64(l.Bore) * viscosity(l.Temperature))
}

// factor is the friction factor of a mass flow.
func (l Line) factor(m float64) float64 {
	return friction(l.reynolds(m), float64(l.Roughness/l.Bore))
}

// resistance is f·L/D + ΣK.
func (l Line) resistance(m float64) float64 {
	return l.factor(m)*float64(l.Length/l.Bore) + l.Loss
}

// root is G·√(R·T): the pressure at which the mass flow m would move at the
// isothermal speed of sound.
func (l Line) root(m float64) float64 {
	return m / l.area() * math.Sqrt(gasConstant*float64(l.Temperature))
}

// Outlet returns the absolute pressure behind the line while the mass flow m
// runs through it, and false when the line is choked before that.
func (l Line) Outlet(inlet unit.Pressure, m unit.MassFlow) (unit.Pressure, bool) {
	if m <= 0 {
		return inlet, true
	}
	p, ok := l.coupled(inlet, m, (l.Couplers+1)/2)
	if !ok {
		return 0, false
	}
	after, ok := behind(float64(p), l.root(float64(m)), l.resistance(float64(m)))
	if !ok {
		return 0, false
	}
	return l.coupled(unit.Pressure(after), m, l.Couplers/2)
}

// Inlet returns the absolute pressure before the line that leaves the absolute
// pressure outlet behind it while the mass flow m runs through, or the least at
// which the line passes m at all if that is more.
func (l Line) Inlet(outlet unit.Pressure, m unit.MassFlow) unit.Pressure {
	if m <= 0 {
		return outlet
	}
	p := l.uncoupled(outlet, m, l.Couplers/2)
	p1, _ := before(float64(p), l.root(float64(m)), l.resistance(float64(m)))
	return l.uncoupled(unit.Pressure(p1), m, (l.Couplers+1)/2)
}

// uncoupled is the pressure before n couplers.
func (l Line) uncoupled(p unit.Pressure, m unit.MassFlow, n int) unit.Pressure {
	for range n {
		p = l.Coupler.inlet(p, float64(m), l.Temperature)
	}
	return p
}

// coupled is the pressure behind n couplers.
func (l Line) coupled(p unit.Pressure, m unit.MassFlow, n int) (unit.Pressure, bool) {
	for range n {
		var ok bool
		if p, ok = l.Coupler.outlet(p, float64(m), l.Temperature); !ok {
			return 0, false
		}
	}
	return p, true
}

// Largest returns the largest mass flow that leaves at least the absolute
// pressure outlet behind the line. It is 0 if outlet is not below inlet.
func (l Line) Largest(inlet, outlet unit.Pressure) unit.MassFlow {
	if outlet >= inlet {
		return 0
	}
	high := l.area() * float64(inlet) / math.Sqrt(gasConstant*float64(l.Temperature)) // sonic at the inlet
	return unit.MassFlow(bisect(0, high, func(m float64) bool { return l.serves(inlet, outlet, unit.MassFlow(m)) }))
}

// serves reports whether Outlet is at least outlet, without solving for it: the
// equation of the bore already tells from its sign.
func (l Line) serves(inlet, outlet unit.Pressure, m unit.MassFlow) bool {
	if m <= 0 {
		return outlet <= inlet
	}
	p, ok := l.coupled(inlet, m, (l.Couplers+1)/2)
	g := l.root(float64(m))
	p1, p2 := float64(p), max(float64(l.uncoupled(outlet, m, l.Couplers/2)), g)
	return ok && p2 <= p1 && isothermal(p1, p2, g, l.resistance(float64(m))) >= 0
}

// Choke returns the mass flow at which the line chokes.
func (l Line) Choke(inlet unit.Pressure) unit.MassFlow { return l.Largest(inlet, 0) }

// SmallestBore returns the bore that leaves the absolute pressure outlet
// behind the line at the mass flow m, the rest being as it is, and false if
// not even the widest bore reckoned with would do, since couplers or the
// compressor's pressure are the limit.
func (l Line) SmallestBore(inlet, outlet unit.Pressure, m unit.MassFlow) (unit.Length, bool) {
	fails := func(d float64) bool {
		l := l
		l.Bore = unit.Length(d)
		return !l.serves(inlet, outlet, m)
	}
	if fails(float64(widestBore)) {
		return 0, false
	}
	return unit.Length(bisectUp(float64(narrowestBore), float64(widestBore), fails)), true
}
