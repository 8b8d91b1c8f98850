package unit

// Mass is a mass in kilograms.
type Mass float64

const (
	Kilogram Mass = 1
	Pound    Mass = 0.45359237 // exact
)

// Quantity says that a Mass is a mass.
func (Mass) Quantity() *Quantity { return mass }

// weights are the steps of a weight. A mill's plate is a twentieth off as it comes.
var weights = []Grain{{10, 0.5}, {20, 1}, {100, 5}, {1000, 50}, {10000, 500}}

var mass = &Quantity{
	Name: "weight", SI: "kg",
	Units: []Unit{
		{Name: "kg", Size: 1, Grains: weights}, {Name: "g", Size: 1e-3}, {Name: "mg", Size: 1e-6}, {Name: "t", Size: 1000, Also: []string{"tonne", "tonnes"}},
		{Name: "lb", Size: 0.45359237, Also: []string{"lbs", "pound", "pounds"}, Grains: weights},
		{Name: "oz", Size: 0.45359237 / 16},
	},
	Metric: []Show{{1e-3, "mg"}, {1, "g"}, {0, "kg"}},
	US:     []Show{{0.45359237, "oz"}, {0, "lb"}},
}

// Density is a mass per volume in kilograms per cubic metre.
type Density float64

// Quantity says that a Density is a density.
func (Density) Quantity() *Quantity { return density }

var density = &Quantity{
	Name: "density", SI: "kg/m³",
	Units: []Unit{
		{Name: "kg/m³", Size: 1, Also: []string{"kg/m3"}},
		{Name: "g/m³", Size: 1e-3, Also: []string{"g/m3"}},
		{Name: "g/cm³", Size: 1e3, Also: []string{"g/cm3"}},
		{Name: "lb/in³", Size: 0.45359237 / (0.0254 * 0.0254 * 0.0254), Also: []string{"lb/in3"}},
		{Name: "lb/ft³", Size: 0.45359237 / float64(CubicFoot), Also: []string{"lb/ft3"}},
	},
	Metric: []Show{{1, "g/m³"}, {0, "kg/m³"}},
	US:     []Show{{0, "lb/ft³"}},
}

// AreaDensity is a mass per area in kilograms per square metre.
type AreaDensity float64

// Quantity says that an AreaDensity is a weight per area.
func (AreaDensity) Quantity() *Quantity { return areaDensity }

var areaDensity = &Quantity{
	Name: "weight per area", SI: "kg/m²",
	Units: []Unit{
		{Name: "kg/m²", Size: 1, Also: []string{"kg/m2"}},
		{Name: "lb/ft²", Size: 0.45359237 / float64(SquareFoot), Also: []string{"lb/ft2"}},
		{Name: "oz/ft²", Size: 0.45359237 / 16 / float64(SquareFoot), Also: []string{"oz/ft2"}},
	},
	Metric: []Show{{0, "kg/m²"}},
	US:     []Show{{0, "lb/ft²"}},
}

// LineDensity is a mass per length in kilograms per metre.
type LineDensity float64

// Quantity says that a LineDensity is a weight per length.
func (LineDensity) Quantity() *Quantity { return lineDensity }

var lineDensity = &Quantity{
	Name: "weight per length", SI: "kg/m",
	Units:  []Unit{{Name: "kg/m", Size: 1}, {Name: "lb/ft", Size: 0.45359237 / 0.3048}},
	Metric: []Show{{0, "kg/m"}},
	US:     []Show{{0, "lb/ft"}},
}
