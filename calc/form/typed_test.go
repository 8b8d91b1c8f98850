package form

import (
	"testing"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// TestTypedStaysAsTyped: a person's own figure comes back as he wrote it, in the
// other system to two figures; what was only reckoned is told by its doubt.
func TestTypedStaysAsTyped(t *testing.T) {
	c := &Calculator{Name: "bore", Fields: []Field{{Key: "bore", Label: "Bore", Takes: Number[unit.Length]("mm", "in").As(unit.Bore)}},
		Results: []Result{{Key: "same", Label: "Same", Gives: Number[unit.Length]("mm", "in").As(unit.Bore)}, {Key: "more", Label: "More", Gives: Number[unit.Length]("mm", "in").As(unit.Bore)}},
		Run: func(r *Reader, a *Answer) error {
			bore := Get[unit.Length](r, "bore")
			Put(a, "same", bore)
			Put(a, "more", 1.01*bore)
			a.Caution("%s", Say(a, bore))
			return r.Err()
		}}
	for _, test := range []struct{ typed, units, same, also, more, caution string }{
		{typed: "0.0591in", units: "us", same: "0.0591 in", also: "1.5 mm", more: "0.06 in", caution: "0.0591 in"},
		{typed: "0.0591in", units: "metric", same: "1.5 mm", also: "0.0591 in", more: "1.52 mm", caution: "1.5 mm"},
		{typed: "1.234mm", units: "metric", same: "1.234 mm", also: "0.049 in", more: "1.25 mm", caution: "1.234 mm"},
		{typed: "0.1234cm", units: "us", same: "0.049 in", also: "1.234 mm", more: "0.049 in", caution: "0.049 in"},
		{typed: "3/64in", units: "us", same: "3/64 in", also: "1.19 mm", more: "0.047 in", caution: "3/64 in"},
	} {
		a, err := c.CalculateValues(map[string]any{"bore": test.typed, "units": test.units})
		if err != nil {
			t.Fatal(err)
		}
		same, _ := a.Results().Get("same")
		more, _ := a.Results().Get("more")
		if s, m := same.(Value), more.(Value); s.Text != test.same || s.Also != test.also || m.Text != test.more || a.Cautions()[0] != test.caution {
			t.Errorf("%s on a %s phone: %q, also %q, more %q, caution %q; want %q, %q, %q, %q", test.typed, test.units, s.Text, s.Also, m.Text, a.Cautions()[0], test.same, test.also, test.more, test.caution)
		}
		read, err := c.ReadValue("bore", ValueInput{Text: test.typed, Units: test.units})
		if err != nil || read.Text != test.same || read.Also != test.also {
			t.Errorf("ReadValue of %s on a %s phone = %+v, %v", test.typed, test.units, read, err)
		}
	}
}

// Sheet is told by its gauge in US units: 18 and 12 mean 0.0478 and 0.1046 in of
// steel (the law of 1893, by 41.82 lb/ft² per inch). A plate of 1/8 in is no gauge,
// and what was typed as a thickness stays one.
func TestSheetsAreToldByGauge(t *testing.T) {
	steel := map[string]unit.Length{"18": 0.0478 * unit.Inch, "12": 0.1046 * unit.Inch, "11": 0.1196 * unit.Inch}
	c := &Calculator{Name: "sheet", Fields: []Field{{Key: "sheet", Label: "Sheet", Gauge: true, Takes: Number[unit.Length]("mm", "in").As(unit.Plate)}},
		Results: []Result{{Key: "sheet", Label: "Sheet", Gives: Number[unit.Length]("mm", "in").As(unit.Plate)}},
		Run: func(r *Reader, a *Answer) error {
			Put(a, "sheet", GetSheet(r, "sheet", func(number string) (unit.Length, error) {
				thick, ok := steel[number]
				if !ok {
					return 0, problem.New(problem.Unknown, "", "no gauge", "Another.")
				}
				return thick, nil
			}))
			return r.Err()
		}}
	for typed, want := range map[string]string{"18ga": "18 ga, 0.048 in", "12ga": "12 ga, 0.10 in", "1.214mm": "18 ga, 0.048 in", "1/8in": "1/8 in", "0.0478in": "0.0478 in", "1.5mm": "0.059 in"} {
		a, err := c.CalculateValues(map[string]any{"sheet": typed, "units": "us"})
		if err != nil {
			t.Fatal(err)
		}
		if v, _ := a.Results().Get("sheet"); v.(Value).Text != want {
			t.Errorf("%s is told as %q, want %q", typed, v.(Value).Text, want)
		}
	}
}
