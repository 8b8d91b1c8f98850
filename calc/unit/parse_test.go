package unit

import (
	"math"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

// The factors below are NIST SP 811 (2008), Appendix B.8, or follow from the
// exact inch and pound.
func TestParse(t *testing.T) {
	tests := []struct {
		quantity   *Quantity
		text, bare string
		want       float64
	}{
		{quantity: length, text: "6mm", bare: "mm", want: 0.006},
		{quantity: length, text: "6", bare: "mm", want: 0.006},
		{quantity: length, text: "6", bare: "in", want: 0.1524},
		{quantity: length, text: "6,5 mm", bare: "mm", want: 0.0065},
		{quantity: length, text: ".5in", bare: "mm", want: 0.0127},
		{quantity: length, text: "1/4in", bare: "mm", want: 0.00635},
		{quantity: length, text: `1-1/2"`, bare: "mm", want: 0.0381},
		{quantity: length, text: "1 1/2 in", bare: "mm", want: 0.0381},
		{quantity: length, text: "1½in", bare: "mm", want: 0.0381},
		{quantity: length, text: "⅜″", bare: "mm", want: 0.009525},
		{quantity: length, text: `5'6"`, bare: "mm", want: 1.6764},
		{quantity: length, text: "2 ft 3 1/2 in", bare: "mm", want: 0.6985},
		{quantity: length, text: "-5'6\"", bare: "mm", want: -1.6764},
		{quantity: length, text: "25 m", bare: "mm", want: 25},
		{quantity: length, text: "1e-3", bare: "m", want: 0.001},
		{quantity: length, text: "250 µm", bare: "mm", want: 2.5e-4},
		{quantity: current, text: "40A", bare: "A", want: 40},
		{quantity: current, text: "40 amps", bare: "A", want: 40},
		{quantity: pressure, text: "90psi", bare: "bar", want: 620528.15628515},
		{quantity: pressure, text: "6.2bar", bare: "bar", want: 620000},
		{quantity: flow, text: "170l/min", bare: "l/min", want: 0.17 / 60},
		{quantity: flow, text: "6cfm", bare: "l/min", want: 6 * 4.719474432e-4},
		{quantity: temperature, text: "85F", bare: "°C", want: 302.5944444444},
		{quantity: temperature, text: "-40 °F", bare: "°C", want: 233.15},
		{quantity: temperature, text: "20", bare: "°C", want: 293.15},
		{quantity: speed, text: "20 in/min", bare: "mm/min", want: 20 * 4.2333333333333e-4},
		{quantity: speed, text: "508", bare: "mm/min", want: 508e-3 / 60},
		{quantity: duration, text: "1min 30s", bare: "s", want: 90},
		{quantity: mass, text: "10lb", bare: "kg", want: 4.5359237},
		{quantity: density, text: "0.2836 lb/in3", bare: "kg/m³", want: 7850.0210},
		{quantity: areaDensity, text: "10 lb/ft²", bare: "kg/m²", want: 48.82427636},
		{quantity: power, text: "1 hp", bare: "kW", want: 745.699872},
		{quantity: ratio, text: "20%", bare: "×", want: 0.2},
		{quantity: ratio, text: "0.2", bare: "×", want: 0.2},
		{quantity: pace, text: "10 s/100mm", bare: "s/m", want: 100},
		{quantity: moneyRate, text: "65/h", bare: "per h", want: 65.0 / 3600},
		{quantity: moneyRate, text: "32.50 /hr", bare: "per h", want: 32.5 / 3600},
		{quantity: moneyPerLength, text: "3/ft", bare: "per m", want: 3 / 0.3048},
		{quantity: conductance, text: "2 l/(s·bar)", bare: "l/(s·bar)", want: 2e-8},
		{quantity: conductance, text: "120 l/min/bar", bare: "l/(s·bar)", want: 2e-8},
	}
	for _, test := range tests {
		got, err := test.quantity.Parse(test.text, test.bare)
		if err != nil || math.Abs(got-test.want) > 1e-6*math.Abs(test.want) {
			t.Errorf("Parse(%q, %q) = %.12g, %v, want %.12g", test.text, test.bare, got, err, test.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	tests := []struct {
		name, text string
		kind       problem.Kind
		says       string
	}{
		{name: "empty", text: " ", kind: problem.Missing, says: "nothing"},
		{name: "a word", text: "thick", kind: problem.Malformed, says: "thick"},
		{name: "unit of another quantity", text: "40psi", kind: problem.Unit, says: "pressure"},
		{name: "unknown unit", text: "4 furlongs", kind: problem.Unit, says: "furlongs"},
		{name: "two decimal points", text: "1.2.3mm", kind: problem.Malformed, says: "1.2.3"},
		{name: "thousands comma", text: "1,000.5mm", kind: problem.Malformed, says: "1,000.5"},
		{name: "two values", text: "6mm 7mm", kind: problem.Malformed, says: "more than one"},
		{name: "second number without unit", text: "5ft 6", kind: problem.Malformed, says: "no unit"},
		{name: "no denominator", text: "1/in", kind: problem.Malformed, says: "1/in"},
		{name: "nought as denominator", text: "1/0in", kind: problem.Malformed, says: "1/0in"},
		{name: "larger than can be reckoned", text: "1e308ft 1e308in 9e999m", kind: problem.Malformed, says: "9e999"},
		{name: "not a number", text: "NaN", kind: problem.Malformed, says: "NaN"},
		{name: "infinite", text: "Inf mm", kind: problem.Malformed, says: "Inf"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := length.Parse(test.text, "mm")
			p := problem.From(err)
			if p == nil || p.Kind != test.kind || !strings.Contains(p.Msg, test.says) {
				t.Fatalf("Parse(%q) = %v, %v, want kind %s saying %q", test.text, got, err, test.kind, test.says)
			}
			if !strings.Contains(p.Hint, "mm") {
				t.Errorf("hint %q does not say what is allowed", p.Hint)
			}
		})
	}
}

// A fraction without a unit is inches or pounds to whoever writes it, and a number
// of 1 or less in percent may be a share: both are asked back, with the ways to
// write them. What cannot be mistaken is read.
func TestAsksForTheUnit(t *testing.T) {
	tests := []struct {
		quantity         *Quantity
		text, bare, hint string // hint "" where it is read
		want             float64
	}{
		{quantity: length, text: "1/2", bare: "mm", hint: "Write 1/2in, or 12.7mm.", want: 0},
		{quantity: length, text: "3/8", bare: "mm", hint: "Write 3/8in, or 9.525mm.", want: 0},
		{quantity: length, text: " 1-1/2 ", bare: "mm", hint: "Write 1-1/2in, or 38.1mm.", want: 0},
		{quantity: length, text: "1 1/2", bare: "mm", hint: "Write 1 1/2in, or 38.1mm.", want: 0},
		{quantity: length, text: "½", bare: "mm", hint: "Write ½in, or 12.7mm.", want: 0},
		{quantity: length, text: "12-1/2", bare: "m", hint: "Write 12-1/2ft, or 12-1/2m.", want: 0},
		{quantity: mass, text: "1/2", bare: "kg", hint: "Write 1/2lb, or 1/2kg.", want: 0},
		{quantity: pressure, text: "1/2", bare: "bar", hint: "Write 1/2psi, or 1/2bar.", want: 0},
		{quantity: speed, text: "7-1/2", bare: "mm/min", hint: "in/min", want: 0},
		{quantity: temperature, text: "1/2", bare: "°C", hint: "°F", want: 0},
		{quantity: ratio, text: "0.8", bare: "%", hint: "Write 80%, or 0.8%.", want: 0},
		{quantity: ratio, text: "1", bare: "%", hint: "Write 100%, or 1%.", want: 0},
		{quantity: ratio, text: "1/2", bare: "%", hint: "Write 50%, or 0.5%.", want: 0},
		{quantity: ratio, text: "3/2", bare: "%", hint: "Write 150%, or 1.5%.", want: 0},

		{quantity: length, text: "1/2", bare: "in", want: 0.0127},
		{quantity: length, text: "12-1/2", bare: "ft", want: 3.81},
		{quantity: length, text: "1/2mm", bare: "mm", want: 0.5e-3},
		{quantity: length, text: "0.5", bare: "mm", want: 0.5e-3},
		{quantity: current, text: "1/2", bare: "A", want: 0.5}, // amperes everywhere
		{quantity: duration, text: "1/2", bare: "min", want: 30},
		{quantity: pressure, text: "1/2", bare: "psi", want: 3447.3786},
		{quantity: ratio, text: "0.8%", bare: "%", want: 0.008},
		{quantity: ratio, text: "0", bare: "%", want: 0},
		{quantity: ratio, text: "1.5", bare: "%", want: 0.015},
		{quantity: ratio, text: "0.8", bare: "×", want: 0.8},
		{quantity: ratio, text: "1/2", bare: "×", want: 0.5},
		{quantity: moneyRate, text: "65/h", bare: "per h", want: 65.0 / 3600},
	}
	for _, test := range tests {
		got, err := test.quantity.Parse(test.text, test.bare)
		if test.hint == "" {
			if err != nil || math.Abs(got-test.want) > 1e-6*math.Abs(test.want) {
				t.Errorf("Parse(%q, %q) = %v, %v, want %v", test.text, test.bare, got, err, test.want)
			}
			continue
		}
		if p := problem.From(err); p == nil || p.Kind != problem.Unit || !strings.Contains(p.Hint, test.hint) {
			t.Errorf("Parse(%q, %q) = %v, %v, want to be asked with %q", test.text, test.bare, got, err, test.hint)
		}
	}
}

func TestText(t *testing.T) {
	tests := []struct{ got, want string }{
		{Text(6*Millimetre, Metric), "6 mm"},
		{Text(6*Millimetre, US), "1/4 in"},
		{Text(Inch/4, US), "1/4 in"},
		{Text(1.5*Inch, US), "1-1/2 in"},
		{Text(Inch/4, Metric), "6.4 mm"},
		{Text(0.95*Millimetre, US), "0.037 in"},
		{Text(25*Metre, Metric), "25 m"},
		{Text(25*Metre, US), "82 ft"},
		{Text(60*PSI, Metric), "4.1 bar"},
		{Text(60*PSI, US), "60 psi"},
		{Text(40*Ampere, US), "40 A"},
		{Text(1234*MillimetrePerMinute, Metric), "1200 mm/min"},
		{Text(Celsius(20), US), "68 °F"},
		{Text(-3*Millimetre, US), "-0.12 in"},
		{Text(60*Degree, Metric), "60°"},
		{Text(Ratio(0.125), Metric), "13 %"},
		{Text(90*Second, Metric), "90 s"},
		{Text(Money(3), Metric), "3"},
		{In(Pace(100), "s per 100 mm"), "10 s per 100 mm"},
		{Text(Length(0), Metric), "0 mm"},
		{length.Between(8.2e-3, 11.4e-3, "mm", Doubt{Sort: Plate}), "about 8 to 11 mm"},
		{length.Between(9.29e-3, 20.7e-3, "mm", Doubt{Sort: Plate}), "about 9 to 21 mm"},
		{length.Between(0, 11.4e-3, "mm", Doubt{Sort: Plate}), "about 0 to 11 mm"},
		{length.Between(9.29e-3, 20.7e-3, "in", Doubt{Sort: Plate}), "about 3/8 to 13/16 in"},
		{length.Between(1.5e-3, 3e-3, "in", Doubt{Sort: Plate}), "about 1/16 to 1/8 in"},
		{length.Between(40e-3, 130e-3, "in", Doubt{Sort: Plate}), "about 1-1/2 to 5 in"},
		{length.Between(13.2e-3, 15.1e-3, "mm", Doubt{Sort: Plate}), "about 13 to 15 mm"},
		{length.Between(10e-3, 10e-3, "mm", Doubt{Sort: Plate}), "about 10 mm"},
	}
	for _, test := range tests {
		if test.got != test.want {
			t.Errorf("Text = %q, want %q", test.got, test.want)
		}
	}
}

// TestPrintedValuesReadBack: whatever is printed can be typed in again and
// lies within the figures printed.
func TestPrintedValuesReadBack(t *testing.T) {
	for _, q := range All {
		for _, u := range q.Units {
			if u.Name == "money/s" || u.Name == "money/m" {
				continue // internal; never printed
			}
			for _, n := range []float64{0.0123, 0.25, 1, 3.1416, 37.5, 999, 12345.6} {
				v := n*u.Size + u.Zero
				text := q.In(v, u.Name)
				got, err := q.Parse(text, u.Name)
				tolerance := 0.006*n*u.Size + 0.006*u.Size*btof(q == money || q == moneyRate || q == moneyPerLength)
				if err != nil || math.Abs(got-v) > tolerance {
					t.Errorf("%s: Parse(In(%g %s) = %q) = %g, %v, want %g", q.Name, n, u.Name, text, got, err, v)
				}
			}
		}
	}
}

func btof(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func TestUnitsAreUnambiguousWithinAQuantity(t *testing.T) {
	for _, q := range All {
		seen := map[string]string{}
		for _, u := range q.Units {
			for _, n := range append([]string{u.Name}, u.Also...) {
				if before, ok := seen[n]; ok {
					t.Errorf("%s: %q means both %s and %s", q.Name, n, before, u.Name)
				}
				seen[n] = u.Name
			}
		}
		for _, s := range append(q.Metric, q.US...) {
			if _, ok := q.Find(s.Unit); !ok {
				t.Errorf("%s prints in %q, which it cannot read", q.Name, s.Unit)
			}
		}
	}
}

// FuzzParse: what is read is a number, and what is printed of it is read back and
// printed once more within three figures of itself. (Its form may change: 444 mm prints
// as 17.5 in, and that exactly as 17-1/2 in.)
func FuzzParse(f *testing.F) {
	for _, s := range []string{"6mm", "1-1/2\"", "5'6\"", "85F", "-1/3", "½", "1e9", ",", "1,5", "9 s per 100 mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, q := range All {
			v, err := q.Parse(text, q.Units[0].Name)
			if err != nil {
				if problem.KindOf(err) == problem.Internal {
					t.Fatalf("%s: Parse(%q) gave an unplanned error %v", q.Name, text, err)
				}
				continue
			}
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s: Parse(%q) = %v", q.Name, text, v)
			}
			for _, system := range []System{Metric, US} {
				name := q.UnitFor(v, system)
				printed := q.In(v, name)
				back, err := q.Parse(printed, name)
				again, err2 := q.Parse(q.In(back, name), name)
				if err != nil || err2 != nil || math.Abs(again-back) > 0.005*math.Abs(back) {
					t.Fatalf("%s: Parse(%q) prints as %q, which is read as %v (%v)", q.Name, text, printed, back, err)
				}
			}
		}
	})
}
