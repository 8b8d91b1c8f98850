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
		{length, 12.7 * mm, "mm", Doubt{Sort: Plate}, "12.7 mm"},
		{length, 25.4 * mm, "mm", Doubt{Sort: Plate}, "25 mm"},
		{length, 9.525 * mm, "mm", Doubt{Sort: Plate}, "9.5 mm"},
		{length, 0.753 * mm, "mm", Doubt{Sort: Plate}, "0.75 mm"},
		{length, 0.0478 * in, "in", Doubt{Sort: Plate}, "0.048 in"},
		{length, 0.125 * in, "in", Doubt{Sort: Plate}, "1/8 in"},
		{length, 3 * mm, "in", Doubt{Sort: Plate}, "0.12 in"},
		{length, 5 * mm, "in", Doubt{Sort: Plate}, "3/16 in"},
		{length, 6 * mm, "in", Doubt{Sort: Plate}, "1/4 in"},
		{length, 10 * mm, "in", Doubt{Sort: Plate}, "3/8 in"},
		{length, 500 * mm, "in", Doubt{Sort: Plate}, "19-11/16 in"},
		{length, 500 * mm, "in", Doubt{Sort: Plate, Share: 0.1}, "20 in"},
		{length, 12 * mm, "in", InDoubt, "1/2 in"},
		{length, 40 * mm, "in", InDoubt, "1-5/8 in"},

		// What is marked out.
		{length, 500 * mm, "in", Doubt{Sort: Marking}, "19-11/16 in"},
		{length, 5 * mm, "in", Doubt{Sort: Marking}, "3/16 in"},
		{length, 3.3 * mm, "in", Doubt{Sort: Marking}, "1/8 in"},
		{length, 7.28 * mm, "mm", Doubt{Sort: Marking}, "7.5 mm"},
		{length, 152.4 * mm, "mm", Doubt{Sort: Marking}, "152 mm"},
		{length, 1523.7 * mm, "mm", Doubt{Sort: Marking}, "1524 mm"},

		// Bores, kerfs, pits, and how far off they may be.
		{length, 0.95 * mm, "mm", Doubt{Sort: Bore}, "0.95 mm"},
		{length, 1.0345 * mm, "mm", Doubt{Sort: Bore}, "1.03 mm"},
		{length, 0.95 * mm, "in", Doubt{Sort: Bore}, "0.037 in"},
		{length, 1.5 * mm, "in", Doubt{Sort: Bore}, "0.059 in"},
		{length, 3.17 * mm, "mm", Doubt{Sort: Bore}, "3.2 mm"},
		{length, 1.242 * mm, "mm", Doubt{Sort: Kerf}, "1.2 mm"},
		{length, 1.242 * mm, "in", Doubt{Sort: Kerf}, "0.049 in"},
		{length, 1.5875 * mm, "in", Doubt{Sort: Kerf}, "0.063 in"},
		{length, 0.000691 * in, "in", Doubt{Sort: Slack}, "0.0007 in"},
		{length, 0.0176 * mm, "mm", Doubt{Sort: Slack}, "0.018 mm"},
		{length, 0.0234 * mm, "mm", Doubt{Sort: Slack}, "0.02 mm"},

		// Speeds.
		{speed, 1234 * float64(MillimetrePerMinute), "mm/min", Doubt{}, "1200 mm/min"},
		{speed, 456 * float64(MillimetrePerMinute), "mm/min", Doubt{}, "450 mm/min"},
		{speed, 214 * float64(MillimetrePerMinute), "mm/min", Doubt{}, "210 mm/min"},
		{speed, 47.2 * float64(InchPerMinute), "in/min", Doubt{}, "45 in/min"},
		{speed, 18.04 * float64(InchPerMinute), "in/min", Doubt{}, "18 in/min"},
		{speed, 7.3 * float64(InchPerMinute), "in/min", Doubt{}, "7.5 in/min"},
		{speed, 126 * float64(InchPerMinute), "in/min", InDoubt, "130 in/min"},
		{speed, 0.4 / 60, "m/min", Doubt{}, "0.4 m/min"},
		{pace, 60.4, "s per 100 mm", InDoubt, "6 s per 100 mm"},
		{pace, 40 * 1.0, "s per 4 in", InDoubt, "4.1 s per 4 in"},

		// The rest of the trade.
		{pressure, 90 * float64(PSI), "bar", Doubt{}, "6.2 bar"},
		{pressure, 8e5, "psi", Doubt{}, "115 psi"},
		{pressure, 60.4 * float64(PSI), "psi", Doubt{}, "60 psi"},
		{pressure, 3456, "Pa", Doubt{}, "3500 Pa"},
		{duration, 4.06, "s", Doubt{}, "4.1 s"},
		{duration, 9.96, "s", Doubt{}, "10 s"},
		{duration, 83.4, "s", Doubt{}, "83 s"},
		{duration, 95.3 * 60, "min", Doubt{}, "95 min"},
		{voltage, 229.6, "V", Doubt{}, "230 V"},
		{current, 125.4, "A", Doubt{}, "125 A"},
		{temperature, 293.2, "°C", InDoubt, "20 °C"},
		{flow, 0.1734 / 60, "l/min", Doubt{}, "170 l/min"},
		{volume, 0.0244, "gal", Doubt{}, "6.4 gal"},
		{mass, 123.4, "kg", Doubt{}, "125 kg"},
		{mass, 12.34, "kg", Doubt{}, "12.5 kg"},
		{ratio, 1.152, "%", Doubt{}, "115 %"},
		{ratio, 0.0321, "%", Doubt{}, "3.2 %"},
		{money, 347.2, "money", Doubt{}, "345"},
		{money, 12.34, "money", Doubt{}, "12"},
		{money, 4.2, "money", Doubt{}, "4.20"},
		{money, 0.0321, "money", Doubt{}, "0.032"},
		{money, 0, "money", Doubt{}, "0"},

		// What a person typed, and a step of a sum.
		{length, 0.0591 * in, "in", Doubt{Sort: Entered}, "0.0591 in"},
		{length, 0.3745 * in, "in", Doubt{Sort: Entered}, "0.3745 in"},
		{length, 3.0 / 64 * in, "in", Doubt{Sort: Entered}, "3/64 in"},
		{length, 1234.5 * mm, "mm", Doubt{Sort: Entered}, "1234.5 mm"},
		{speed, 1234.5 * float64(MillimetrePerMinute), "mm/min", Doubt{Sort: Worked}, "1235 mm/min"},
		{length, 0.0591 * in, "in", Doubt{Sort: Worked}, "0.0591 in"},
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
