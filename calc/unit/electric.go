package unit

// Current is an electric current in amperes.
type Current float64

// Ampere is the SI unit of current.
const Ampere Current = 1

// Quantity says that a Current is a current.
func (Current) Quantity() *Quantity { return current }

var current = &Quantity{
	Name: "current", SI: "A",
	Units:  []Unit{{Name: "A", Size: 1, Also: []string{"amp", "amps", "ampere", "amperes"}, Grains: whole}, {Name: "mA", Size: 1e-3}},
	Metric: []Show{{0, "A"}},
	US:     []Show{{0, "A"}},
}

// Voltage is an electric potential difference in volts.
type Voltage float64

// Volt is the SI unit of voltage.
const Volt Voltage = 1

// Quantity says that a Voltage is a voltage.
func (Voltage) Quantity() *Quantity { return voltage }

var voltage = &Quantity{
	Name: "voltage", SI: "V",
	Units:  []Unit{{Name: "V", Size: 1, Also: []string{"volt", "volts"}, Grains: whole}, {Name: "mV", Size: 1e-3}, {Name: "kV", Size: 1e3}},
	Metric: []Show{{0, "V"}},
	US:     []Show{{0, "V"}},
}

// Power is real power in watts.
type Power float64

const (
	Watt       Power = 1
	Kilowatt   Power = 1e3
	Horsepower Power = 745.69987158227022 // 550 ft·lbf/s
)

// Quantity says that a Power is a power.
func (Power) Quantity() *Quantity { return power }

var power = &Quantity{
	Name: "power", SI: "W",
	Units: []Unit{
		{Name: "W", Size: 1, Also: []string{"watt", "watts"}},
		{Name: "kW", Size: 1e3},
		{Name: "hp", Size: float64(Horsepower)},
	},
	Metric: []Show{{1000, "W"}, {0, "kW"}},
	US:     []Show{{1000, "W"}, {0, "kW"}},
}

// ApparentPower is volts times amperes as a generator's plate states it.
type ApparentPower float64

// Kilovoltampere is a thousand volt-amperes.
const Kilovoltampere ApparentPower = 1e3

// Quantity says that an ApparentPower is an apparent power.
func (ApparentPower) Quantity() *Quantity { return apparentPower }

var apparentPower = &Quantity{
	Name: "apparent power", SI: "VA",
	Units:  []Unit{{Name: "VA", Size: 1}, {Name: "kVA", Size: 1e3}},
	Metric: []Show{{1000, "VA"}, {0, "kVA"}},
	US:     []Show{{1000, "VA"}, {0, "kVA"}},
}

// Energy is work or heat in joules.
type Energy float64

const (
	Joule        Energy = 1
	KilowattHour Energy = 3.6e6
)

// Quantity says that an Energy is an energy.
func (Energy) Quantity() *Quantity { return energy }

var energy = &Quantity{
	Name: "energy", SI: "J",
	Units: []Unit{
		{Name: "J", Size: 1}, {Name: "kJ", Size: 1e3}, {Name: "MJ", Size: 1e6},
		{Name: "kWh", Size: 3.6e6}, {Name: "ft·lbf", Size: 1.3558179483314004, Also: []string{"ftlbf", "ft-lbf"}},
	},
	Metric: []Show{{1000, "J"}, {1e6, "kJ"}, {0, "kWh"}},
	US:     []Show{{1000, "J"}, {1e6, "kJ"}, {0, "kWh"}},
}

// LineEnergy is heat per length of cut in joules per metre.
type LineEnergy float64

// Quantity says that a LineEnergy is a heat per length.
func (LineEnergy) Quantity() *Quantity { return lineEnergy }

var lineEnergy = &Quantity{
	Name: "heat per length", SI: "J/m",
	Units:  []Unit{{Name: "J/mm", Size: 1e3}, {Name: "kJ/mm", Size: 1e6}, {Name: "J/in", Size: 1 / 0.0254}, {Name: "kJ/in", Size: 1000 / 0.0254}, {Name: "J/m", Size: 1}},
	Metric: []Show{{0, "J/mm"}},
	US:     []Show{{0, "kJ/in"}},
}

// Resistance is an electric resistance in ohms.
type Resistance float64

// Ohm is the SI unit of resistance.
const Ohm Resistance = 1

// Quantity says that a Resistance is a resistance.
func (Resistance) Quantity() *Quantity { return resistance }

var resistance = &Quantity{
	Name: "resistance", SI: "Ω",
	Units:  []Unit{{Name: "Ω", Size: 1, Also: []string{"ohm", "ohms"}}, {Name: "mΩ", Size: 1e-3, Also: []string{"mohm"}}},
	Metric: []Show{{1, "mΩ"}, {0, "Ω"}},
	US:     []Show{{1, "mΩ"}, {0, "Ω"}},
}

// CurrentDensity is current per area of orifice in amperes per square metre.
type CurrentDensity float64

// Quantity says that a CurrentDensity is a current density.
func (CurrentDensity) Quantity() *Quantity { return currentDensity }

var currentDensity = &Quantity{
	Name: "current density", SI: "A/m²",
	Units:  []Unit{{Name: "A/mm²", Size: 1e6, Also: []string{"A/mm2"}}, {Name: "A/in²", Size: 1 / float64(SquareInch), Also: []string{"A/in2"}}, {Name: "A/m²", Size: 1, Also: []string{"A/m2"}}},
	Metric: []Show{{0, "A/mm²"}},
	US:     []Show{{0, "A/in²"}},
}
