package air

import "kerfside/calc/unit"

// purity is a water class of ISO 8573-1:2010: by the pressure dew point while
// no liquid is there, by the liquid water otherwise.
type purity struct {
	class  string
	dew    unit.Temperature // pressure dew point not above, classes 1 to 6
	liquid unit.Density     // liquid water not above, classes 7 to 9
}

var dewClasses = []purity{
	{class: "1", dew: unit.Celsius(-70)}, {class: "2", dew: unit.Celsius(-40)}, {class: "3", dew: unit.Celsius(-20)},
	{class: "4", dew: unit.Celsius(3)}, {class: "5", dew: unit.Celsius(7)}, {class: "6", dew: unit.Celsius(10)},
}

const gramPerCubicMetre unit.Density = 1e-3

var liquidClasses = []purity{
	{class: "7", liquid: 0.5 * gramPerCubicMetre}, {class: "8", liquid: 5 * gramPerCubicMetre}, {class: "9", liquid: 10 * gramPerCubicMetre},
}

// WaterClass returns the water class of ISO 8573-1:2010 for a pressure dew
// point and the liquid water in a cubic metre of air at 20 °C and 1 bar: "1" to
// "9", or "X" for more water than class 9 allows. Class 0 is a matter of
// agreement. A limit belongs to its class.
// Source: ISO 8573-1:2010, in three agreeing copies.
func WaterClass(dew unit.Temperature, liquid unit.Density) string {
	const rounding = 1e-9
	if liquid <= 0 {
		for _, c := range dewClasses {
			if dew <= c.dew+rounding {
				return c.class
			}
		}
	}
	for _, c := range liquidClasses {
		if liquid <= c.liquid*(1+rounding) {
			return c.class
		}
	}
	return "X"
}
