package air

import (
	"math"

	"kerfside/calc/unit"
)

// Altitudes between which the standard atmosphere is used here: the lowest and
// the highest place where anybody repairs gates.
const (
	LowestPlace  = -500 * unit.Metre
	HighestPlace = 5000 * unit.Metre
)

// AirPressure returns the pressure of the standard atmosphere at a geometric
// altitude.
//
//	p = 101325·(1 − 0.0065·H/288.15)^5.25588 Pa     H = 6356766·h/(6356766 + h) m
//
// Source: ISO 2533. Weather moves the true pressure by some 3 % about it.
func AirPressure(altitude unit.Length) unit.Pressure {
	return unit.Atmosphere * unit.Pressure(math.Pow(1-0.0065*geopotential(altitude)/288.15, 5.25588))
}

// standardTemperature is that of the standard atmosphere.
func standardTemperature(altitude unit.Length) unit.Temperature {
	return unit.Temperature(288.15 - 0.0065*geopotential(altitude))
}

func geopotential(altitude unit.Length) float64 {
	const earth = 6356766 // m, the nominal radius of ISO 2533
	return earth * float64(altitude) / (earth + float64(altitude))
}
