package cutting

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// entry invents something to write into a field: one of its own words, chips or
// limits, a number between them, or what a thumb may do wrong.
func entry(rnd *rand.Rand, f *form.Field) string {
	if rnd.IntN(12) == 0 {
		return []string{"", "-1", "0", "1e300", "abc", "5kg", "NaN", "1/0in", ":", ",,", ";", "∞", "16ga", "0.3mm"}[rnd.IntN(14)]
	}
	if chips := slices.Concat(f.Chips, f.ChipsUS); len(chips) > 0 && rnd.IntN(2) == 0 {
		return chips[rnd.IntN(len(chips))]
	}
	switch f.Takes.Kind {
	case form.KindChoice:
		return f.Takes.Choices[rnd.IntN(len(f.Takes.Choices))].Word
	case form.KindYesNo:
		return []string{"yes", "no"}[rnd.IntN(2)]
	case form.KindNumber:
		v := f.Limits.Min + (f.Limits.Max-f.Limits.Min)*math.Pow(rnd.Float64(), 4)
		switch rnd.IntN(8) {
		case 0:
			v = f.Limits.Min
		case 1:
			v = f.Limits.Max
		}
		return f.Takes.Quantity.In(v, f.Takes.Bare)
	case form.KindFactor, form.KindCount:
		return unit.Figures(math.Round(f.Limits.Min+(f.Limits.Max-f.Limits.Min)*rnd.Float64()), 3)
	}
	return []string{"15A:1.6bar,45A:4.6bar", "5bar", "20:0.7mm,40:0.95mm", "300:3.2mm", "mild-steel 6mm 40A 800mm/min good", "1mm,3/8in,16ga"}[rnd.IntN(6)]
}

// TestSweep writes seeded entries, sensible and not, into every form of the
// package: each gets an answer without a number that is none, or a problem that
// a person can mend.
func TestSweep(t *testing.T) {
	for _, d := range Calculators {
		c := d.Calculator()
		t.Run(c.Name, func(t *testing.T) {
			rnd := rand.New(rand.NewPCG(1, 1))
			answers := 0
			for range 1000 {
				values := map[string]any{}
				for i := range c.Fields {
					if f := &c.Fields[i]; f.Default == "" && !f.Optional || rnd.IntN(4) == 0 {
						values[f.Key] = entry(rnd, f)
					}
				}
				a, err := c.CalculateValues(values)
				if p := problem.From(err); p != nil {
					if p.Kind == problem.Internal || p.Msg == "" || p.Field == "" {
						t.Fatalf("%v: %v (%v)", values, p, p.Unwrap())
					}
					continue
				}
				answers++
				text, err := json.Marshal(a)
				if err != nil { // NaN and infinities cannot be written
					t.Fatalf("%v: %v", values, err)
				}
				if strings.Contains(string(text), "NaN") || strings.Contains(string(text), "Inf") {
					t.Fatalf("%v: %s", values, text)
				}
			}
			if answers == 0 {
				t.Error("no entry got an answer; the sweep says nothing")
			}
			t.Logf("%d answers", answers)
		})
	}
}
