package unit

import "testing"

// TestSay: the finest figures that people are told, by what is measured.
func TestSay(t *testing.T) {
	mm, in := float64(Millimetre), float64(Inch)
	tests := []struct {
		q    *Quantity
		v    float64
		unit string
		d    Doubt
		want string
	}{
		// Plate and sheet.
		{q: length, v: 12.7 * mm, unit: "mm", d: Doubt{Sort: Plate}, want: "12.7 mm"},
		{q: length, v: 25.4 * mm, unit: "mm", d: Doubt{Sort: Plate}, want: "25 mm"},
		{q: length, v: 9.525 * mm, unit: "mm", d: Doubt{Sort: Plate}, want: "9.5 mm"},
		{q: length, v: 0.753 * mm, unit: "mm", d: Doubt{Sort: Plate}, want: "0.75 mm"},
		{q: length, v: 0.0478 * in, unit: "in", d: Doubt{Sort: Plate}, want: "0.048 in"},
		{q: length, v: 0.125 * in, unit: "in", d: Doubt{Sort: Plate}, want: "1/8 in"},
		{q: length, v: 3 * mm, unit: "in", d: Doubt{Sort: Plate}, want: "0.12 in"},
		{q: length, v: 5 * mm, unit: "in", d: Doubt{Sort: Plate}, want: "3/16 in"},
		{q: length, v: 6 * mm, unit: "in", d: Doubt{Sort: Plate}, want: "1/4 in"},
		{q: length, v: 10 * mm, unit: "in", d: Doubt{Sort: Plate}, want: "3/8 in"},
		{q: length, v: 500 * mm, unit: "in", d: Doubt{Sort: Plate}, want: "19-11/16 in"},
		{q: length, v: 500 * mm, unit: "in", d: Doubt{Sort: Plate, Share: 0.1}, want: "20 in"},
		{q: length, v: 12 * mm, unit: "in", d: InDoubt, want: "1/2 in"},
		{q: length, v: 40 * mm, unit: "in", d: InDoubt, want: "1-5/8 in"},

		// What is marked out.
		{q: length, v: 500 * mm, unit: "in", d: Doubt{Sort: Marking}, want: "19-11/16 in"},
		{q: length, v: 5 * mm, unit: "in", d: Doubt{Sort: Marking}, want: "3/16 in"},
		{q: length, v: 3.3 * mm, unit: "in", d: Doubt{Sort: Marking}, want: "1/8 in"},
		{q: length, v: 7.28 * mm, unit: "mm", d: Doubt{Sort: Marking}, want: "7.5 mm"},
		{q: length, v: 152.4 * mm, unit: "mm", d: Doubt{Sort: Marking}, want: "152 mm"},
		{q: length, v: 1523.7 * mm, unit: "mm", d: Doubt{Sort: Marking}, want: "1524 mm"},

		// Bores, kerfs, pits, and how far off they may be.
		{q: length, v: 0.95 * mm, unit: "mm", d: Doubt{Sort: Bore}, want: "0.95 mm"},
		{q: length, v: 1.0345 * mm, unit: "mm", d: Doubt{Sort: Bore}, want: "1.03 mm"},
		{q: length, v: 0.95 * mm, unit: "in", d: Doubt{Sort: Bore}, want: "0.037 in"},
		{q: length, v: 1.5 * mm, unit: "in", d: Doubt{Sort: Bore}, want: "0.059 in"},
		{q: length, v: 3.17 * mm, unit: "mm", d: Doubt{Sort: Bore}, want: "3.2 mm"},
		{q: length, v: 1.242 * mm, unit: "mm", d: Doubt{Sort: Kerf}, want: "1.2 mm"},
		{q: length, v: 1.242 * mm, unit: "in", d: Doubt{Sort: Kerf}, want: "0.049 in"},
		{q: length, v: 1.5875 * mm, unit: "in", d: Doubt{Sort: Kerf}, want: "0.063 in"},
		{q: length, v: 0.000691 * in, unit: "in", d: Doubt{Sort: Slack}, want: "0.0007 in"},
		{q: length, v: 0.0176 * mm, unit: "mm", d: Doubt{Sort: Slack}, want: "0.018 mm"},
		{q: length, v: 0.0234 * mm, unit: "mm", d: Doubt{Sort: Slack}, want: "0.02 mm"},

		// Speeds.
		{q: speed, v: 1234 * float64(MillimetrePerMinute), unit: "mm/min", d: Doubt{}, want: "1200 mm/min"},
		{q: speed, v: 456 * float64(MillimetrePerMinute), unit: "mm/min", d: Doubt{}, want: "450 mm/min"},
		{q: speed, v: 214 * float64(MillimetrePerMinute), unit: "mm/min", d: Doubt{}, want: "210 mm/min"},
		{q: speed, v: 47.2 * float64(InchPerMinute), unit: "in/min", d: Doubt{}, want: "45 in/min"},
		{q: speed, v: 18.04 * float64(InchPerMinute), unit: "in/min", d: Doubt{}, want: "18 in/min"},
		{q: speed, v: 7.3 * float64(InchPerMinute), unit: "in/min", d: Doubt{}, want: "7.5 in/min"},
		{q: speed, v: 126 * float64(InchPerMinute), unit: "in/min", d: InDoubt, want: "130 in/min"},
		{q: speed, v: 0.4 / 60, unit: "m/min", d: Doubt{}, want: "0.4 m/min"},
		{q: pace, v: 60.4, unit: "s per 100 mm", d: InDoubt, want: "6 s per 100 mm"},
		{q: pace, v: 40 * 1.0, unit: "s per 4 in", d: InDoubt, want: "4.1 s per 4 in"},

		// The rest of the trade.
		{q: pressure, v: 90 * float64(PSI), unit: "bar", d: Doubt{}, want: "6.2 bar"},
		{q: pressure, v: 8e5, unit: "psi", d: Doubt{}, want: "115 psi"},
		{q: pressure, v: 60.4 * float64(PSI), unit: "psi", d: Doubt{}, want: "60 psi"},
		{q: pressure, v: 3456, unit: "Pa", d: Doubt{}, want: "3500 Pa"},
		{q: duration, v: 4.06, unit: "s", d: Doubt{}, want: "4.1 s"},
		{q: duration, v: 9.96, unit: "s", d: Doubt{}, want: "10 s"},
		{q: duration, v: 83.4, unit: "s", d: Doubt{}, want: "83 s"},
		{q: duration, v: 95.3 * 60, unit: "min", d: Doubt{}, want: "95 min"},
		{q: voltage, v: 229.6, unit: "V", d: Doubt{}, want: "230 V"},
		{q: current, v: 125.4, unit: "A", d: Doubt{}, want: "125 A"},
		{q: temperature, v: 293.2, unit: "°C", d: InDoubt, want: "20 °C"},
		{q: flow, v: 0.1734 / 60, unit: "l/min", d: Doubt{}, want: "170 l/min"},
		{q: volume, v: 0.0244, unit: "gal", d: Doubt{}, want: "6.4 gal"},
		{q: mass, v: 123.4, unit: "kg", d: Doubt{}, want: "125 kg"},
		{q: mass, v: 12.34, unit: "kg", d: Doubt{}, want: "12.5 kg"},
		{q: ratio, v: 1.152, unit: "%", d: Doubt{}, want: "115 %"},
		{q: ratio, v: 0.0321, unit: "%", d: Doubt{}, want: "3.2 %"},
		{q: money, v: 347.2, unit: "money", d: Doubt{}, want: "345"},
		{q: money, v: 12.34, unit: "money", d: Doubt{}, want: "12"},
		{q: money, v: 4.2, unit: "money", d: Doubt{}, want: "4.20"},
		{q: money, v: 0.0321, unit: "money", d: Doubt{}, want: "0.032"},
		{q: money, v: 0, unit: "money", d: Doubt{}, want: "0"},

		// What a person typed, and a step of a sum.
		{q: length, v: 0.0591 * in, unit: "in", d: Doubt{Sort: Entered}, want: "0.0591 in"},
		{q: length, v: 0.3745 * in, unit: "in", d: Doubt{Sort: Entered}, want: "0.3745 in"},
		{q: length, v: 3.0 / 64 * in, unit: "in", d: Doubt{Sort: Entered}, want: "3/64 in"},
		{q: length, v: 1234.5 * mm, unit: "mm", d: Doubt{Sort: Entered}, want: "1234.5 mm"},
		{q: speed, v: 1234.5 * float64(MillimetrePerMinute), unit: "mm/min", d: Doubt{Sort: Worked}, want: "1235 mm/min"},
		{q: length, v: 0.0591 * in, unit: "in", d: Doubt{Sort: Worked}, want: "0.0591 in"},
		{q: length, v: 0.46864 * in, unit: "in", d: Doubt{Sort: Worked}, want: "0.469 in"}, // 15/32, which no tape shows
		{q: length, v: 0.4375 * in, unit: "in", d: Doubt{Sort: Worked}, want: "7/16 in"},
	}
	for _, test := range tests {
		if got := test.q.Say(test.v, test.unit, test.d); got != test.want {
			t.Errorf("Say(%v, %q, %v) = %q, want %q", test.v, test.unit, test.d, got, test.want)
		}
	}
	for n, want := range map[float64]string{0.0478: "0.048", 0.0598: "0.060", 0.1046: "0.10", 0.0996: "0.10", 0.1793: "0.18"} {
		if got := TwoFigures(n); got != want {
			t.Errorf("TwoFigures(%v) = %q, want %q", n, got, want)
		}
	}
	if got := flow.Up(0.1712/60, "l/min", InDoubt); got != "180 l/min" {
		t.Errorf("Up says %q", got)
	}
	if got := length.Down(0.0199, "in", InDoubt); got != "3/4 in" {
		t.Errorf("Down says %q", got)
	}
}

// TestSpanning: a range rounded outwards holds both of its ends; worked.
func TestSpanning(t *testing.T) {
	for _, test := range []struct {
		low, high float64
		want      string
	}{{low: 25.2 * 60, high: 51.3 * 60, want: "about 24 to 52 min"}, {low: 26.8 * 60, high: 51.9 * 60, want: "about 26 to 52 min"}, {low: 96 * 60, high: 139 * 60, want: "about 95 to 140 min"}} {
		if got := duration.Spanning(test.low, test.high, "min", Doubt{}); got != test.want {
			t.Errorf("%g to %g s: %q, want %q", test.low, test.high, got, test.want)
		}
	}
}
