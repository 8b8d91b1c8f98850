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
		{length, "6mm", "mm", 0.006},
		{length, "6", "mm", 0.006},
		{length, "6", "in", 0.1524},
		{length, "6,5 mm", "mm", 0.0065},
		{length, ".5in", "mm", 0.0127},
		{length, "1/4in", "mm", 0.00635},
		{length, `1-1/2"`, "mm", 0.0381},
		{length, "1 1/2 in", "mm", 0.0381},
		{length, "1½in", "mm", 0.0381},
		{length, "⅜″", "mm", 0.009525},
		{length, `5'6"`, "mm", 1.6764},
		{length, "2 ft 3 1/2 in", "mm", 0.6985},
		{length, "-5'6\"", "mm", -1.6764},
		{length, "25 m", "mm", 25},
		{length, "1e-3", "m", 0.001},
		{length, "250 µm", "mm", 2.5e-4},
		{current, "40A", "A", 40},
		{current, "40 amps", "A", 40},
		{pressure, "90psi", "bar", 620528.15628515},
		{pressure, "6.2bar", "bar", 620000},
		{flow, "170l/min", "l/min", 0.17 / 60},
		{flow, "6cfm", "l/min", 6 * 4.719474432e-4},
		{temperature, "85F", "°C", 302.5944444444},
		{temperature, "-40 °F", "°C", 233.15},
		{temperature, "20", "°C", 293.15},
		{speed, "20 in/min", "mm/min", 20 * 4.2333333333333e-4},
		{speed, "508", "mm/min", 508e-3 / 60},
		{duration, "1min 30s", "s", 90},
		{mass, "10lb", "kg", 4.5359237},
		{density, "0.2836 lb/in3", "kg/m³", 7850.0210},
		{areaDensity, "10 lb/ft²", "kg/m²", 48.82427636},
		{power, "1 hp", "kW", 745.699872},
		{ratio, "20%", "×", 0.2},
		{ratio, "0.2", "×", 0.2},
		{pace, "10 s/100mm", "s/m", 100},
		{moneyRate, "65/h", "per h", 65.0 / 3600},
		{moneyRate, "32.50 /hr", "per h", 32.5 / 3600},
		{moneyPerLength, "3/ft", "per m", 3 / 0.3048},
		{conductance, "2 l/(s·bar)", "l/(s·bar)", 2e-8},
		{conductance, "120 l/min/bar", "l/(s·bar)", 2e-8},
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
		{"empty", " ", problem.Missing, "nothing"},
		{"a word", "thick", problem.Malformed, "thick"},
		{"unit of another quantity", "40psi", problem.Unit, "pressure"},
		{"unknown unit", "4 furlongs", problem.Unit, "furlongs"},
		{"two decimal points", "1.2.3mm", problem.Malformed, "1.2.3"},
		{"thousands comma", "1,000.5mm", problem.Malformed, "1,000.5"},
		{"two values", "6mm 7mm", problem.Malformed, "more than one"},
		{"second number without unit", "5ft 6", problem.Malformed, "no unit"},
		{"no denominator", "1/in", problem.Malformed, "1/in"},
		{"nought as denominator", "1/0in", problem.Malformed, "1/0in"},
		{"larger than can be reckoned", "1e308ft 1e308in 9e999m", problem.Malformed, "9e999"},
		{"not a number", "NaN", problem.Malformed, "NaN"},
		{"infinite", "Inf mm", problem.Malformed, "Inf"},
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
		{length, "1/2", "mm", "Write 1/2in, or 12.7mm.", 0},
		{length, "3/8", "mm", "Write 3/8in, or 9.525mm.", 0},
		{length, " 1-1/2 ", "mm", "Write 1-1/2in, or 38.1mm.", 0},
		{length, "1 1/2", "mm", "Write 1 1/2in, or 38.1mm.", 0},
		{length, "½", "mm", "Write ½in, or 12.7mm.", 0},
		{length, "12-1/2", "m", "Write 12-1/2ft, or 12-1/2m.", 0},
		{mass, "1/2", "kg", "Write 1/2lb, or 1/2kg.", 0},
		{pressure, "1/2", "bar", "Write 1/2psi, or 1/2bar.", 0},
		{speed, "7-1/2", "mm/min", "in/min", 0},
		{temperature, "1/2", "°C", "°F", 0},
		{ratio, "0.8", "%", "Write 80%, or 0.8%.", 0},
		{ratio, "1", "%", "Write 100%, or 1%.", 0},
		{ratio, "1/2", "%", "Write 50%, or 0.5%.", 0},
		{ratio, "3/2", "%", "Write 150%, or 1.5%.", 0},

		{length, "1/2", "in", "", 0.0127},
		{length, "12-1/2", "ft", "", 3.81},
		{length, "1/2mm", "mm", "", 0.5e-3},
		{length, "0.5", "mm", "", 0.5e-3},
		{current, "1/2", "A", "", 0.5}, // amperes everywhere
		{duration, "1/2", "min", "", 30},
		{pressure, "1/2", "psi", "", 3447.3786},
		{ratio, "0.8%", "%", "", 0.008},
		{ratio, "0", "%", "", 0},
		{ratio, "1.5", "%", "", 0.015},
		{ratio, "0.8", "×", "", 0.8},
		{ratio, "1/2", "×", "", 0.5},
		{moneyRate, "65/h", "per h", "", 65.0 / 3600},
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
		{Text(6*Millimetre, US), "0.236 in"},
		{Text(Inch/4, US), "1/4 in"},
		{Text(1.5*Inch, US), "1-1/2 in"},
		{Text(Inch/4, Metric), "6.35 mm"},
		{Text(0.95*Millimetre, US), "0.0374 in"},
		{Text(25*Metre, Metric), "25 m"},
		{Text(25*Metre, US), "82 ft"},
		{Text(60*PSI, Metric), "4.14 bar"},
		{Text(60*PSI, US), "60 psi"},
		{Text(40*Ampere, US), "40 A"},
		{Text(1234*MillimetrePerMinute, Metric), "1234 mm/min"},
		{Text(Celsius(20), US), "68 °F"},
		{Text(-3*Millimetre, US), "-0.118 in"},
		{Text(60*Degree, Metric), "60°"},
		{Text(Ratio(0.125), Metric), "12.5 %"},
		{Text(90*Second, Metric), "90 s"},
		{Text(Money(3), Metric), "3.00"},
		{In(Pace(100), "s per 100 mm"), "10 s per 100 mm"},
		{Text(Length(0), Metric), "0 mm"},
		{speed.About(456*float64(MillimetrePerMinute), "mm/min", 2), "460 mm/min"},
		{speed.About(1234*float64(MillimetrePerMinute), "mm/min", 2), "1200 mm/min"},
		{speed.About(18.04*float64(InchPerMinute), "in/min", 2), "18 in/min"},
		{length.About(1.235e-3, "in", 2), "0.049 in"},
		{length.About(0.0127, "in", 2), "1/2 in"},
		{pace.About(60.4, "s per 100 mm", 2), "6 s per 100 mm"},
		{temperature.About(293.15, "°C", 2), "20 °C"},
		{length.Between(8.2e-3, 11.4e-3, "mm"), "about 8 to 11 mm"},
		{length.Between(9.29e-3, 20.7e-3, "mm"), "about 9 to 21 mm"},
		{length.Between(0, 11.4e-3, "mm"), "about 0 to 11 mm"},
		{length.Between(9.29e-3, 20.7e-3, "in"), "about 3/8 to 13/16 in"},
		{length.Between(1.5e-3, 3e-3, "in"), "about 1/16 to 1/8 in"},
		{length.Between(40e-3, 130e-3, "in"), "about 1-1/2 to 5 in"},
		{length.Between(13.2e-3, 15.1e-3, "mm"), "about 13 to 15 mm"},
		{length.Between(10e-3, 10e-3, "mm"), "about 10 mm"},
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
