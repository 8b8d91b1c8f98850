package registry

import (
	"slices"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/problem"
)

// hazardous are the calculators that ask what can hurt someone. Whatever choice
// they offer is a hazard; so are further fields of theirs that are marked.
var hazardous = []string{"may-i-cut", "fire-watch", "fume", "eye-shade", "noise-dose"}

// looked are the calculators that ask beside their figures what a look at the
// part or the piece has to tell: that alone is a hazard.
var looked = []string{"tip-wear", "electrode-wear", "release-plan"}

// usual are the questions of yes and no whose answer stands beforehand: it is the
// harder case, or what most torches and compressors do, and no look can hurt by it.
var usual = []string{"site-check compressor_first", "job-plan compressor_first", "air-tank running", "work-lead loop", "spares pair"}

// TestHazards walks over every calculator: no hazard has a default or may be
// left out, and one that is not answered is missing by its own name, whatever
// else was said, and never brings a verdict.
func TestHazards(t *testing.T) {
	cases := load(t)
	for _, c := range All() {
		asks := false
		for _, f := range allFields(c) {
			choice := f.Takes.Kind == form.KindChoice || f.Takes.Kind == form.KindYesNo
			if slices.Contains(hazardous, c.Name) && choice && !f.Hazard {
				t.Errorf("%s %s: a choice that is no hazard", c.Name, f.Key)
			}
			if f.Takes.Kind == form.KindYesNo && f.Default != "" && !slices.Contains(usual, c.Name+" "+f.Key) {
				t.Errorf("%s %s: a question that is answered beforehand", c.Name, f.Key)
			}
			if !f.Hazard {
				continue
			}
			asks = true
			if f.Default != "" || f.Optional || f.Basis != "" || f.Fine {
				t.Errorf("%s %s: a hazard that is answered beforehand, or folded away", c.Name, f.Key)
			}
		}
		if asks != (slices.Contains(hazardous, c.Name) || slices.Contains(looked, c.Name)) {
			t.Errorf("%s: hazards %t", c.Name, asks)
		}
		for _, v := range cases[c.Name] {
			if asks && v.Fail == nil {
				leaveOut(t, c, v.Input)
			}
		}
	}
}

// leaveOut takes each hazard in turn out of a good input.
func leaveOut(t *testing.T, c *form.Calculator, input []byte) {
	nothing := func(f *form.Field, given bool) []any {
		if !given || !f.Hazard {
			return nil
		}
		return []any{nil, "", "  "}
	}
	for _, s := range spoilt(t, c, input, nothing) {
		_, err := c.CalculateValues(s.values)
		p := problem.From(err)
		if p == nil || p.Kind != problem.Missing || p.Field != s.field || !strings.Contains(p.Msg, s.of.Label) || p.Hint == "" {
			t.Errorf("%s without %s: %+v, want it missing by name", c.Name, s.field, p)
		}
	}
}
