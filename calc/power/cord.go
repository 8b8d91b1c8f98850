package power

import (
	"math"

	"kerfside/calc/unit"
)

// Cord is the run of cable between the socket or generator and the machine.
type Cord struct {
	Conductor Conductor
	Length    unit.Length      // one way
	At        unit.Temperature // of the copper
	Phases    int              // 1 or 3
}

// Loop returns what a current is multiplied by to give the volts lost.
//
//	one phase or direct current 2·R     three phases √3·R
func (c Cord) Loop() unit.Resistance {
	return unit.Resistance(legs(c.Phases)) * c.Conductor.Resistance(c.Length, c.At)
}

// legs is 2 for the way out and back, √3 between the lines of three phases.
func legs(phases int) float64 {
	if phases == 3 {
		return math.Sqrt(3)
	}
	return 2
}

// Drop returns the volts lost at a current.
func (c Cord) Drop(i unit.Current) unit.Voltage { return unit.Voltage(float64(i) * float64(c.Loop())) }

// LargestCurrent returns the current that loses that many volts.
func (c Cord) LargestCurrent(drop unit.Voltage) unit.Current {
	return unit.Current(float64(drop) / float64(c.Loop()))
}

// Under returns the volts at the far end and the current while a machine draws
// a constant apparent power, as machines with a regulated arc do: the lower
// the volts, the more amperes. It is false when the cord cannot carry that much
// power at any current.
//
//	U² − U0·U + Z·S/m = 0 with Z the Loop, m = 1 or √3     Volts taken in phase
func (c Cord) Under(source unit.Voltage, s unit.ApparentPower) (unit.Voltage, unit.Current, bool) {
	m := legs(c.Phases)
	if c.Phases != 3 {
		m = 1
	}
	inside := float64(source)*float64(source)/4 - float64(c.Loop())*float64(s)/m
	if inside < 0 {
		return 0, 0, false
	}
	u := float64(source)/2 + math.Sqrt(inside)
	return unit.Voltage(u), unit.Current(float64(s) / (m * u)), true
}

// Thinnest returns the thinnest conductor of the same series and make that
// loses at most that many volts at that current, and false if none does.
func (c Cord) Thinnest(strand Strand, i unit.Current, drop unit.Voltage) (Conductor, bool) {
	for _, size := range Series(c.Conductor.AWG, strand) {
		thinner := c
		thinner.Conductor = size
		if thinner.Drop(i) <= drop*(1+1e-12) {
			return size, true
		}
	}
	return Conductor{}, false
}
