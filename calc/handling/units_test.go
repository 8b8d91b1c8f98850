//go:build !js

// Native only: it runs another program, which a phone cannot.

package handling

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"kerfside/calc/outside"
	"kerfside/calc/unit"
)

// unitsNames are the units of ours that GNU Units knows by another name than a
// plain change of signs leads to; "" where it has none that means the same.
var unitsNames = map[string]string{
	"l": "liter", "ml": "milliliter", "gal": "gallon", "fl oz": "floz", "thou": "mil", "cmil": "circularmil",
	"cfm": "ft^3/min", "h": "hour", "d": "day", "t": "tonne", "oz": "ounce", "lb": "pound", "in": "inch", "°": "degree", "rad": "radian",
	"%": "percent", "×": "1", "kVA": "kV A", "VA": "V A",
	"g/h": "g/hour", "kg/h": "kg/hour", "lb/h": "pound/hour", "oz/h": "ounce/hour", "m³/h": "m^3/hour", "kWh": "kW hour",
	"l/min": "liter/min", "l/s": "liter/s", "l/(s·bar)": "liter/(s bar)", "l/(min·bar)": "liter/(min bar)",
	"lb/in³": "pound/inch^3", "lb/ft³": "pound/ft^3", "lb/ft²": "pound/ft^2", "oz/ft²": "ounce/ft^2", "lb/ft": "pound/ft",
	"s per 100 mm": "s/(100 mm)", "s per 4 in": "s/(4 inch)", "s/in": "s/inch", "in²": "inch^2", "in³": "inch^3",
	"in/min": "inch/min", "in/s": "inch/s", "J/in": "J/inch", "kJ/in": "kJ/inch", "A/in²": "A/inch^2",
	"Ω": "ohm", "mΩ": "milliohm", "µm": "micrometer", "ft·lbf": "ft lbf",
	"dB": "", "money": "", "per h": "", "money/s": "", "per m": "", "per ft": "",
}

var unitsSigns = strings.NewReplacer("²", "^2", "³", "^3", "·", " ")

// inUnits says a number of one of our units as GNU Units reads it.
func inUnits(number float64, name string) string {
	switch name {
	case "°C":
		return fmt.Sprintf("tempC(%.12g)", number)
	case "°F":
		return fmt.Sprintf("tempF(%.12g)", number)
	}
	other, ok := unitsNames[name]
	if !ok {
		other = unitsSigns.Replace(name)
	}
	return fmt.Sprintf("(%.12g) %s", number, other)
}

// exactUnits is what a unit may differ by: the last digits of a sum. Inches of
// mercury and of water, rounded to seven and eight figures in NIST SP 811, may
// differ by half of the last of them.
func exactUnits(names ...string) float64 {
	share := 1e-12
	for _, name := range names {
		switch name {
		case "inHg":
			share += 2e-7
		case "inH2O":
			share += 2e-8
		}
	}
	return share
}

// TestConvertAgainstUnits turns random numbers of every unit into every other
// unit of its quantity, and so does GNU Units.
func TestConvertAgainstUnits(t *testing.T) {
	type conversion struct {
		value, to string
		got, may  float64
	}
	random := rand.New(rand.NewPCG(31, 1))
	var ours []conversion
	var theirs [][2]string
	for _, q := range unit.All {
		for _, from := range q.Units {
			for i := range 3 * len(q.Units) {
				to := q.Units[i/3]
				a, known := unitsNames[from.Name]
				if b, both := unitsNames[to.Name]; known && a == "" || both && b == "" {
					continue
				}
				number := math.Round(1e6*math.Pow(10, 4*random.Float64()-1)) / 1e6
				value := fmt.Sprintf("%.12g %s", number, from.Name)
				res, err := ComputeConvert(ConvertInput{Value: value, To: to.Name})
				if err != nil {
					t.Fatalf("%s to %s: %v", value, to.Name, err)
				}
				want := inUnits(1, to.Name)
				if to.Zero != 0 {
					want = map[string]string{"°C": "tempC", "°F": "tempF"}[to.Name]
				}
				ours = append(ours, conversion{value: value, to: to.Name, got: res.Number, may: exactUnits(from.Name, to.Name)})
				theirs = append(theirs, [2]string{inUnits(number, from.Name), want})
			}
		}
	}
	for i, want := range outside.Units(t, theirs) {
		near := outside.Near(ours[i].got, want, ours[i].may)
		if strings.HasPrefix(ours[i].to, "°") && len(ours[i].to) > 2 { // 0 °C is no small temperature
			near = math.Abs(ours[i].got-want) < 1e-9
		}
		if o := ours[i]; !near {
			t.Errorf("%s = %.15g %s, GNU Units %.15g", o.value, o.got, o.to, want)
		}
	}
	t.Logf("tally: %d comparisons with GNU Units", len(ours))
}

// TestLengthsAgainstUnits reads lengths as they are written on a drawing, feet
// and inches with fractions, beside GNU Units.
func TestLengthsAgainstUnits(t *testing.T) {
	random := rand.New(rand.NewPCG(31, 2))
	var values []string
	var theirs [][2]string
	for range 300 {
		feet, inches, den := random.IntN(40), random.IntN(12), 2<<random.IntN(6)
		num := 1 + random.IntN(den-1)
		values = append(values, fmt.Sprintf(`%d'%d-%d/%d"`, feet, inches, num, den), fmt.Sprintf("%d %d/%d in", inches, num, den))
		theirs = append(theirs,
			[2]string{fmt.Sprintf("%d ft + (%d + %d|%d) inch", feet, inches, num, den), "mm"},
			[2]string{fmt.Sprintf("(%d + %d|%d) inch", inches, num, den), "mm"})
	}
	for i, want := range outside.Units(t, theirs) {
		res, err := ComputeConvert(ConvertInput{Value: values[i], To: "mm"})
		if err != nil || !outside.Near(res.Number, want, 1e-12) {
			t.Errorf("%s = %.15g mm, %v, GNU Units %.15g", values[i], res.Number, err, want)
		}
	}
	t.Logf("tally: %d comparisons with GNU Units", len(values))
}
