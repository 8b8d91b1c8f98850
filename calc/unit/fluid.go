package unit

// Pressure is a pressure in pascals. Whether it is a gauge or an absolute
// one, the name of the field or variable says; gauge is the trade's habit.
type Pressure float64

const (
	Pascal     Pressure = 1
	Bar        Pressure = 1e5
	PSI        Pressure = 6894.757293168361 // lbf/in²
	Atmosphere Pressure = 101325
)

// Quantity says that a Pressure is a pressure.
func (Pressure) Quantity() *Quantity { return pressure }

var pressure = &Quantity{
	Name: "pressure", SI: "Pa",
	Units: []Unit{
		{Name: "bar", Size: 1e5, Grains: []Grain{{1, 0.1}}},
		{Name: "psi", Size: float64(PSI), Also: []string{"psig", "lbf/in²", "lbf/in2"}, Grains: []Grain{{10, 1}, {100, 5}}},
		{Name: "kPa", Size: 1e3},
		{Name: "MPa", Size: 1e6},
		{Name: "Pa", Size: 1},
		{Name: "mbar", Size: 100},
		{Name: "hPa", Size: 100},
		{Name: "atm", Size: 101325},
		// The conventional inches of mercury and of water: NIST SP 811, appendix
		// B.8, has others beside them, such as 3386.38 Pa for mercury at 0 °C.
		{Name: "inHg", Size: 3386.389, Also: []string{"in Hg"}},
		{Name: "inH2O", Size: 249.08891, Also: []string{"inH₂O"}},
	},
	Metric: []Show{{5000, "Pa"}, {0, "bar"}},
	US:     []Show{{0, "psi"}},
}

// Flow is a volume per time in cubic metres per second. A flow of air is in
// free air unless its field says otherwise.
type Flow float64

const (
	CubicMetrePerSecond Flow = 1
	LitrePerMinute      Flow = 1e-3 / 60
	CubicFootPerMinute  Flow = Flow(CubicFoot) / 60
)

// Quantity says that a Flow is a flow.
func (Flow) Quantity() *Quantity { return flow }

var flow = &Quantity{
	Name: "flow", SI: "m³/s",
	Units: []Unit{
		{Name: "l/min", Size: float64(LitrePerMinute), Also: []string{"L/min", "lpm"}},
		{Name: "cfm", Size: float64(CubicFootPerMinute), Also: []string{"scfm", "ft³/min", "ft3/min"}},
		{Name: "l/s", Size: 1e-3, Also: []string{"L/s"}},
		{Name: "m³/min", Size: 1.0 / 60, Also: []string{"m3/min"}},
		{Name: "m³/h", Size: 1.0 / 3600, Also: []string{"m3/h"}},
		{Name: "m³/s", Size: 1, Also: []string{"m3/s"}},
	},
	Metric: []Show{{10.0 / 60, "l/min"}, {0, "m³/min"}},
	US:     []Show{{0, "cfm"}},
}

// MassFlow is a mass per time in kilograms per second.
type MassFlow float64

// Quantity says that a MassFlow is a mass flow.
func (MassFlow) Quantity() *Quantity { return massFlow }

var massFlow = &Quantity{
	Name: "mass flow", SI: "kg/s",
	Units: []Unit{
		{Name: "g/min", Size: 1e-3 / 60}, {Name: "g/h", Size: 1e-3 / 3600}, {Name: "g/s", Size: 1e-3},
		{Name: "kg/s", Size: 1}, {Name: "kg/h", Size: 1.0 / 3600},
		{Name: "lb/h", Size: 0.45359237 / 3600}, {Name: "oz/h", Size: 0.45359237 / 16 / 3600},
	},
	Metric: []Show{{0, "g/min"}},
	US:     []Show{{0, "oz/h"}},
}

// Conductance is a sonic conductance in cubic metres per second and pascal, as
// ISO 6358 rates couplers and valves: free air passed at choked flow for each
// unit of absolute pressure before them.
type Conductance float64

// LitrePerSecondBar is the unit that data sheets use.
const LitrePerSecondBar Conductance = 1e-8

// Quantity says that a Conductance is a sonic conductance.
func (Conductance) Quantity() *Quantity { return conductance }

var conductance = &Quantity{
	Name: "sonic conductance", SI: "m³/(s·Pa)",
	Units: []Unit{
		{Name: "l/(s·bar)", Size: 1e-8, Also: []string{"l/(s*bar)", "l/(s bar)", "dm³/(s·bar)", "l/s/bar"}},
		{Name: "l/(min·bar)", Size: 1e-8 / 60, Also: []string{"l/(min*bar)", "l/(min bar)", "l/min/bar"}},
		{Name: "m³/(s·Pa)", Size: 1, Also: []string{"m3/(s*Pa)"}},
	},
	Metric: []Show{{0, "l/(s·bar)"}},
	US:     []Show{{0, "l/(s·bar)"}},
}

// Temperature is a thermodynamic temperature in kelvins.
type Temperature float64

// Kelvin is the SI unit of temperature.
const Kelvin Temperature = 1

// Celsius returns the temperature of t degrees Celsius.
func Celsius(t float64) Temperature { return Temperature(t + 273.15) }

// Celsius returns t in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) - 273.15 }

// Quantity says that a Temperature is a temperature.
func (Temperature) Quantity() *Quantity { return temperature }

var temperature = &Quantity{
	Name: "temperature", SI: "K",
	Units: []Unit{
		{Name: "°C", Size: 1, Zero: 273.15, Also: []string{"C", "degC", "℃"}, Grains: []Grain{{0, 1}}},
		{Name: "°F", Size: 5.0 / 9, Zero: 273.15 - 32*5.0/9, Also: []string{"F", "degF", "℉"}, Grains: []Grain{{0, 1}}},
		{Name: "K", Size: 1, Grains: whole},
	},
	Metric: []Show{{0, "°C"}},
	US:     []Show{{0, "°F"}},
}
