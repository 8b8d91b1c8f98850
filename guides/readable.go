package guides

import "kerfside/calc/unit"

// readable lists what a step can ask for: by quantity and unit, the journal's
// whole numbers per unit. Sizes come from package unit.
var readable = map[string]map[string]float64{
	"length":   perUnit(unit.Length(0), 1e6, "mm", "in"),
	"pressure": perUnit(unit.Pressure(0), 1, "bar", "psi", "kPa"),
	"current":  perUnit(unit.Current(0), 1e3, "A"),
	"voltage":  perUnit(unit.Voltage(0), 1e3, "V"),
	"time":     perUnit(unit.Duration(0), 1e3, "s", "min"),
	"count":    {"pcs": 1},
}

// perUnit returns, for each named unit of m's quantity, how many of the
// journal's steps it holds, of which the SI unit holds perSI.
func perUnit(m interface{ Quantity() *unit.Quantity }, perSI float64, names ...string) map[string]float64 {
	scales := map[string]float64{}
	for _, u := range m.Quantity().Units {
		for _, name := range names {
			if u.Name == name {
				scales[name] = u.Size * perSI
			}
		}
	}
	return scales
}
