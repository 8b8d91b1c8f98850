package air

import (
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Reference is the state in which a volume of "free air" is counted. Plates
// and standards do not agree on it: between the densest and the thinnest there
// are 9 %.
type Reference struct {
	Word     string
	Label    string
	Pressure unit.Pressure // absolute
	At       unit.Temperature
	Source   source.ID
}

// references that plates and tables use. Dry air.
var references = []Reference{
	{Word: "anr", Label: "1 bar, 20 °C (ISO, compressor plates)", Pressure: unit.Bar, At: unit.Celsius(20), Source: "iso-8787"},
	{Word: "scf-60f", Label: "14.696 psi, 60 °F (scfm of gas tables)", Pressure: unit.Atmosphere, At: fahrenheit(60), Source: "tp410-b15"},
	{Word: "scf-68f", Label: "14.696 psi, 68 °F (scfm of air tools)", Pressure: unit.Atmosphere, At: fahrenheit(68), Source: "asme-air"},
	{Word: "normal", Label: "1.013 bar, 0 °C (Nl, Nm³)", Pressure: unit.Atmosphere, At: unit.Celsius(0), Source: "din-1343"},
	{Word: "iso-2533", Label: "1.013 bar, 15 °C (standard atmosphere)", Pressure: unit.Atmosphere, At: unit.Celsius(15), Source: "iso-2533"},
}

func fahrenheit(f float64) unit.Temperature { return unit.Celsius((f - 32) / 1.8) }

// FindReference returns the reference of that word.
func FindReference(word string) (Reference, bool) {
	for _, r := range references {
		if r.Word == word {
			return r, true
		}
	}
	return Reference{}, false
}

// Density is that of dry air in the reference state.
func (r Reference) Density() unit.Density { return Density(r.Pressure, r.At) }

// Mass returns the mass flow of a flow of free air.
func (r Reference) Mass(q unit.Flow) unit.MassFlow {
	return unit.MassFlow(float64(q) * float64(r.Density()))
}

// Volume returns the flow of free air of a mass flow.
func (r Reference) Volume(m unit.MassFlow) unit.Flow {
	return unit.Flow(float64(m) / float64(r.Density()))
}
