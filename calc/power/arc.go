package power

import (
	"math"

	"kerfside/calc/unit"
)

// LoadVolts returns the arc voltage at which a hand plasma cutter is rated.
//
//	U2 = 80 + 0.4·I2
//
// Source: IEC 60974-1, conventional load voltage, from memory. A real arc lies
// within some 30 % of it, higher when it is stretched.
func LoadVolts(i unit.Current) unit.Voltage { return loadBase + loadRise*unit.Voltage(i) }

const (
	loadBase  = 80 * unit.Volt
	gougeBase = 100 * unit.Volt
	loadRise  = 0.4 // V/A
)

// GougeVolts is LoadVolts for gouging, U2 = 100 + 0.4·I2: the arc is longer. From the
// same standard, from memory, and no surer.
func GougeVolts(i unit.Current) unit.Voltage { return gougeBase + loadRise*unit.Voltage(i) }

// LoadLine says LoadVolts in a few signs, for what a field left empty stands for.
func LoadLine() string { return unit.In(loadBase, "V") + " + " + unit.Figures(loadRise, 2) + " V/A" }

// GougeLine is LoadLine for GougeVolts.
func GougeLine() string { return unit.In(gougeBase, "V") + " + " + unit.Figures(loadRise, 2) + " V/A" }

// Machine is a plasma source seen from the socket.
type Machine struct {
	Efficiency  unit.Ratio // η at rated output, from the plate
	PowerFactor unit.Ratio // λ at rated output, from the plate
}

// Draw returns the real and the apparent power that it takes from the supply
// to give a current at a voltage.
//
//	P1 = U2·I2/η     S1 = P1/λ
func (m Machine) Draw(volts unit.Voltage, i unit.Current) (unit.Power, unit.ApparentPower) {
	p := float64(volts) * float64(i) / float64(m.Efficiency)
	return unit.Power(p), unit.ApparentPower(p / float64(m.PowerFactor))
}

// Gives returns the cutting current that an apparent power from the supply
// makes: Draw turned round. volts is the arc's, or 0 for LoadVolts.
func (m Machine) Gives(s unit.ApparentPower, volts unit.Voltage) unit.Current {
	return arcCurrent(unit.Power(float64(s)*float64(m.PowerFactor)*float64(m.Efficiency)), volts)
}

// arcCurrent returns the current of an arc of that power.
//
//	I2 = P/U2, on the load line 0.4·I2² + 80·I2 = P
func arcCurrent(p unit.Power, volts unit.Voltage) unit.Current {
	switch {
	case p <= 0:
		return 0
	case volts > 0:
		return unit.Current(float64(p) / float64(volts))
	}
	return unit.Current((-80 + math.Sqrt(80*80+4*0.4*float64(p))) / (2 * 0.4))
}

// Power returns the apparent power of a supply current, Current turned round.
func Power(i unit.Current, volts unit.Voltage, phases int) unit.ApparentPower {
	return unit.ApparentPower(float64(i) / float64(Current(1, volts, phases)))
}

// Current returns the supply current of an apparent power.
//
//	I1 = S1/U1, with three phases S1/(√3·U1)
func Current(s unit.ApparentPower, volts unit.Voltage, phases int) unit.Current {
	if phases == 3 {
		return unit.Current(float64(s) / (math.Sqrt(3) * float64(volts)))
	}
	return unit.Current(float64(s) / float64(volts))
}

// Effective returns the steady current that heats the supply as much as the
// machine's on and off does.
//
//	I1eff = √( I1²·X + I0²·(1 − X) )     X duty cycle, I0 idling
//
// Source: IEC 60974-1 and the note of NEC 630.11.
func Effective(rated, idle unit.Current, duty unit.Ratio) unit.Current {
	x := float64(duty)
	return unit.Current(math.Sqrt(float64(rated*rated)*x + float64(idle*idle)*(1-x)))
}

// RatedFor is Effective turned round: the supply current that heats as much as
// the steady current held does, and 0 if idling alone heats more.
func RatedFor(held, idle unit.Current, duty unit.Ratio) unit.Current {
	x := float64(duty)
	return unit.Current(math.Sqrt(max(float64(held*held)-float64(idle*idle)*(1-x), 0) / x))
}
