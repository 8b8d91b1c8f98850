package power

import (
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Chips of conductor sizes that sites have.
var (
	sizeChips   = []string{"2.5mm²", "4mm²", "6mm²", "10mm²"}
	sizeChipsUS = []string{"12AWG", "10AWG", "8AWG", "6AWG"}
)

func sizeField(label, help string) form.Field {
	return form.Field{Key: "size", Label: label, Help: help, Takes: form.Text(), Chips: sizeChips, ChipsUS: sizeChipsUS}
}

func strandField() form.Field {
	return form.Field{Key: "strand", Label: "Conductor", Takes: form.OneOf("flexible", "flexible cord or lead", "solid", "fixed wiring", "tinned", "tinned flexible"), Default: "flexible", Fine: true}
}

func copperField() form.Field {
	return form.Field{Key: "conductor_temperature", Label: "Temperature of the copper", Help: "Left empty: 75 °C for AWG, 70 °C for mm², a cord that works hard.",
		Takes: form.Number[unit.Temperature]("°C", "°F"), Optional: true, Fine: true, Limits: form.Within(unit.Celsius(-40), unit.Celsius(120))}
}

func phasesField() form.Field {
	return form.Field{Key: "phases", Label: "Phases", Takes: form.OneOf("1", "one", "3", "three"), Default: "1"}
}

func getPhases(r *form.Reader) int {
	if form.GetWord(r, "phases") == "3" {
		return 3
	}
	return 1
}

// getConductor reads size and strand, and the temperature of the copper.
func getConductor(r *form.Reader) (Conductor, Strand, unit.Temperature) {
	strand := Strand(form.GetWord(r, "strand"))
	at := form.Get[unit.Temperature](r, "conductor_temperature")
	text := form.GetText(r, "size")
	if text == "" || strand == "" {
		return Conductor{}, strand, at
	}
	c, err := ParseConductor(text, strand)
	if err != nil {
		r.Fail("size", err)
		return Conductor{}, strand, at
	}
	if !r.Has("conductor_temperature") {
		at = c.Warm()
	}
	return c, strand, at
}

// machineFields ask for a machine seen from the socket; when names the field
// that makes them necessary.
func machineFields() []form.Field {
	return []form.Field{
		{Key: "output_current", Label: "Cutting current", Takes: form.Number[unit.Current]("A", "A"), Optional: true, Chips: []string{"20A", "30A", "40A", "60A"},
			Limits: form.Within(5*unit.Ampere, 400*unit.Ampere)},
		{Key: "output_volts", Label: "Arc volts", Help: "Plate: U2 at that current. Left empty: " + LoadLine() + ".", Takes: form.Number[unit.Voltage]("V", "V"), Optional: true, Fine: true,
			Limits: form.Within(40*unit.Volt, 300*unit.Volt)},
		{Key: "efficiency", Label: "Efficiency η", Help: "Rating plate or manual.", Takes: form.Number[unit.Ratio]("%", "%"), Default: "85%", Basis: "from-memory", Fine: true,
			Limits: form.Within(30*unit.Percent, 100*unit.Percent)},
		{Key: "power_factor", Label: "Power factor λ", Help: "Rating plate or manual; with correction 0.95 or more.", Takes: form.Factor(), Default: "0.7", Basis: "from-memory", Owner: form.OfPlate, Fine: true,
			Limits: form.Limits{Min: 0.3, Max: 1, Set: true}},
	}
}

// getMachine reads the machine's side.
func getMachine(r *form.Reader) (m Machine, volts unit.Voltage, i unit.Current) {
	m = Machine{Efficiency: form.Get[unit.Ratio](r, "efficiency"), PowerFactor: unit.Ratio(form.GetFactor(r, "power_factor"))}
	volts, i = form.Get[unit.Voltage](r, "output_volts"), form.Get[unit.Current](r, "output_current")
	if volts == 0 {
		volts = LoadVolts(i)
	}
	return m, volts, i
}

// onlyOne refuses two ways of saying the same thing.
func onlyOne(r *form.Reader, a, b, what string) {
	if r.Given(a) && r.Given(b) {
		r.Fail(b, problem.New(problem.Conflict, b, what+" is given twice", "Enter "+a+" or "+b+", not both."))
	}
}
