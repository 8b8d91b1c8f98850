package air

import (
	"math"

	"kerfside/calc/unit"
)

// gasConstant is that of dry air in J/(kg·K), ISO 2533.
const gasConstant = 287.05287

// isentropic is the ratio of the specific heats of dry air.
const isentropic = 1.4

// Density returns the density of dry air at an absolute pressure and a
// temperature.
//
//	ρ = p / (R·T)     R = 287.05287 J/(kg·K), ISO 2533
//
// Ideal gas: within 1 % up to 40 bar at the temperatures of a work site.
func Density(p unit.Pressure, t unit.Temperature) unit.Density {
	return unit.Density(float64(p) / (gasConstant * float64(t)))
}

// viscosity returns the dynamic viscosity of air in Pa·s.
//
//	μ = 1.458e-6·T^1.5 / (T + 110.4)     Sutherland's law with the constants of ISO 2533
//
// It does not depend on pressure at the pressures of a compressor.
func viscosity(t unit.Temperature) float64 {
	return 1.458e-6 * math.Pow(float64(t), 1.5) / (float64(t) + 110.4)
}
