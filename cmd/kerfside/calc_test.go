package main

import (
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// TestListIsExplained: the help of a calculator says how a list is written, and below it
// what each of its rows takes.
func TestListIsExplained(t *testing.T) {
	c := form.Calculator{Name: "cuts", Title: "Cuts", About: "Count cuts.", Fields: []form.Field{{Key: "cuts", Label: "Cuts", Default: "2m count=3",
		Takes: form.List(form.EachRow{Name: "Cut", Bare: []string{"length"}},
			form.Field{Key: "length", Label: "Length", Takes: form.Number[unit.Length]("mm", "in"), Limits: form.Within(unit.Millimetre, unit.Metre)},
			form.Field{Key: "count", Label: "How many", Takes: form.Count(), Default: "1"})}}}
	var help strings.Builder
	if err := describe(&help, c.Describe()); err != nil {
		t.Fatal(err)
	}
	const want = `
  cuts
      Cuts.
      Rows parted by semicolons; in each length, then all else as key=value. Or a JSON list of objects.
      Default [{"length":"2m","count":"3"}].
      At most 200 rows, each with:
        length (needed)
            Length.
            A length such as 5mm or 5in; a bare number is in mm, from 1 mm to 1000 mm.
        count
            How many.
            A whole number.
            Default 1.
  units
`
	if !strings.Contains(help.String(), want) {
		t.Errorf("the help is\n%s\nwant in it\n%s", help.String(), want)
	}
}
