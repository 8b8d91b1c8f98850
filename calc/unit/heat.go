package unit

// Conductivity is a thermal conductivity in watts per metre and kelvin.
type Conductivity float64

// WattPerMetreKelvin is the SI unit of thermal conductivity.
const WattPerMetreKelvin Conductivity = 1

// Quantity says that a Conductivity is a thermal conductivity.
func (Conductivity) Quantity() *Quantity { return conductivity }

var conductivity = &Quantity{
	Name: "thermal conductivity", SI: "W/(m·K)",
	Units:  []Unit{{Name: "W/(m·K)", Size: 1, Also: []string{"W/mK", "W/m·K"}}},
	Metric: []Show{{0, "W/(m·K)"}},
	US:     []Show{{0, "W/(m·K)"}},
}

// SpecificEnergy is heat per mass in joules per kilogram.
type SpecificEnergy float64

const (
	JoulePerKilogram SpecificEnergy = 1
)

// Quantity says that a SpecificEnergy is a heat per mass.
func (SpecificEnergy) Quantity() *Quantity { return specificEnergy }

var specificEnergy = &Quantity{
	Name: "heat per mass", SI: "J/kg",
	Units:  []Unit{{Name: "kJ/kg", Size: 1e3}, {Name: "J/kg", Size: 1}, {Name: "MJ/kg", Size: 1e6}},
	Metric: []Show{{0, "kJ/kg"}},
	US:     []Show{{0, "kJ/kg"}},
}
