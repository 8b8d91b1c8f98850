package unit

// Length is a distance in metres.
type Length float64

const (
	Metre      Length = 1
	Millimetre Length = 1e-3
	Micrometre Length = 1e-6
	Inch       Length = 0.0254    // exact
	Foot       Length = 12 * Inch // international foot
)

// Quantity says that a Length is a length.
func (Length) Quantity() *Quantity { return length }

var length = &Quantity{
	Name: "length", SI: "m", Compound: true,
	Units: []Unit{
		{Name: "mm", Size: 1e-3, Also: []string{"millimetre", "millimetres", "millimeter", "millimeters"}, Grains: whole},
		{Name: "in", Size: 0.0254, Also: []string{`"`, "″", "”", "''", "inch", "inches"}},
		{Name: "m", Size: 1, Also: []string{"metre", "metres", "meter", "meters"}, Grains: whole},
		{Name: "ft", Size: 0.3048, Also: []string{"'", "′", "’", "foot", "feet"}, Grains: whole},
		{Name: "cm", Size: 1e-2},
		{Name: "µm", Size: 1e-6, Also: []string{"um", "μm", "micron", "microns"}},
		{Name: "thou", Size: 2.54e-5},
	},
	Metric: []Show{{1e-4, "µm"}, {1, "mm"}, {0, "m"}},
	US:     []Show{{0.6096, "in"}, {0, "ft"}},
}

// Area is a surface in square metres.
type Area float64

const (
	SquareMetre      Area = 1
	SquareMillimetre Area = 1e-6
	SquareInch       Area = 0.0254 * 0.0254
	SquareFoot       Area = 0.3048 * 0.3048
	// CircularMil is the area of a circle one thou across.
	CircularMil Area = 5.067074790974977e-10
)

// Quantity says that an Area is an area.
func (Area) Quantity() *Quantity { return area }

var area = &Quantity{
	Name: "area", SI: "m²",
	Units: []Unit{
		{Name: "mm²", Size: 1e-6, Also: []string{"mm2", "sqmm"}},
		{Name: "cm²", Size: 1e-4, Also: []string{"cm2"}},
		{Name: "m²", Size: 1, Also: []string{"m2", "sqm"}},
		{Name: "in²", Size: float64(SquareInch), Also: []string{"in2", "sqin"}},
		{Name: "ft²", Size: float64(SquareFoot), Also: []string{"ft2", "sqft"}},
		{Name: "cmil", Size: float64(CircularMil), Also: []string{"circularmil"}},
	},
	Metric: []Show{{0.01, "mm²"}, {0, "m²"}},
	US:     []Show{{float64(SquareFoot), "in²"}, {0, "ft²"}},
}

// Volume is a space in cubic metres.
type Volume float64

const (
	CubicMetre Volume = 1
	Litre      Volume = 1e-3
	CubicFoot  Volume = 0.3048 * 0.3048 * 0.3048
	USGallon   Volume = 231 * 0.0254 * 0.0254 * 0.0254
)

// Quantity says that a Volume is a volume.
func (Volume) Quantity() *Quantity { return volume }

var volume = &Quantity{
	Name: "volume", SI: "m³",
	Units: []Unit{
		{Name: "l", Size: 1e-3, Also: []string{"L", "litre", "litres", "liter", "liters"}},
		{Name: "ml", Size: 1e-6, Also: []string{"mL", "cc"}},
		{Name: "cm³", Size: 1e-6, Also: []string{"cm3"}},
		{Name: "m³", Size: 1, Also: []string{"m3"}},
		{Name: "gal", Size: float64(USGallon), Also: []string{"gallon", "gallons"}},
		{Name: "ft³", Size: float64(CubicFoot), Also: []string{"ft3", "cuft"}},
		{Name: "fl oz", Size: float64(USGallon) / 128, Also: []string{"floz"}},
		{Name: "in³", Size: 0.0254 * 0.0254 * 0.0254, Also: []string{"in3"}},
	},
	Metric: []Show{{1e-3, "ml"}, {1, "l"}, {0, "m³"}},
	US:     []Show{{float64(USGallon) / 4, "fl oz"}, {200 * float64(USGallon), "gal"}, {0, "ft³"}},
}
