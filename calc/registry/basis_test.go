package registry

import (
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/source"
)

// TestDefaultsHaveABasis: a number that stands in a field before anybody has
// entered one tells where it comes from.
func TestDefaultsHaveABasis(t *testing.T) {
	numbers := 0
	for _, c := range All() {
		for _, f := range allFields(c) {
			if f.Default == "" || !isNumber(f.Takes.Kind) {
				continue
			}
			numbers++
			if _, listed := source.Get(f.Basis); !listed {
				t.Errorf("%s: %s is %s by default and rests on %q, which package source does not list", c.Name, f.Key, f.Default, f.Basis)
			}
		}
	}
	if numbers < 100 {
		t.Errorf("only %d numbers stand in fields by default: this test looks in the wrong place", numbers)
	}
}

// isNumber reports whether fields of that kind hold numbers.
func isNumber(k form.Kind) bool {
	return k == form.KindNumber || k == form.KindCount || k == form.KindFactor || k == form.KindPairs
}
