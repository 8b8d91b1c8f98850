package unit

import (
	"strings"
	"testing"
)

// Milli and mega differ by a thousand million, so their capitals count.
func TestFindMindsPrefixes(t *testing.T) {
	tests := []struct {
		quantity   *Quantity
		name, want string // "" if it must not be found
	}{
		{quantity: pressure, name: "MPa", want: "MPa"},
		{quantity: pressure, name: "mPa"},
		{quantity: pressure, name: "mpa", want: "MPa"},
		{quantity: pressure, name: "PSI", want: "psi"},
		{quantity: voltage, name: "MV"},
		{quantity: voltage, name: "mv", want: "mV"},
		{quantity: energy, name: "mJ"},
		{quantity: current, name: "MA"},
		{quantity: length, name: "MM", want: "mm"},
		{quantity: length, name: "Mm", want: "mm"},
		{quantity: duration, name: "Min", want: "min"},
		{quantity: mass, name: "KG", want: "kg"},
	}
	for _, test := range tests {
		got, ok := test.quantity.Find(test.name)
		if ok != (test.want != "") || got.Name != test.want {
			t.Errorf("Find(%q) in %s = %q, %v, want %q", test.name, test.quantity.Name, got.Name, ok, test.want)
		}
	}
}

// A unit as it is written belongs to one quantity: otherwise a value without a
// field around it could not be read.
func TestSpellingsAreUnique(t *testing.T) {
	owners := map[string]*Quantity{}
	for _, q := range All {
		for _, u := range q.Units {
			for _, s := range append([]string{u.Name}, u.Also...) {
				if other, ok := owners[s]; ok {
					t.Errorf("%q is a unit of %s and of %s", s, other.Name, q.Name)
				}
				owners[s] = q
			}
		}
	}
}

func TestArticles(t *testing.T) {
	for _, q := range All {
		vowel := strings.ContainsAny(q.Name[:1], "aeiou")
		if want := map[bool]string{true: "an ", false: "a "}[vowel] + q.Name; q.A() != want {
			t.Errorf("A() = %q, want %q", q.A(), want)
		}
	}
	if _, err := Parse[Length]("5kVA", "mm"); err == nil || !strings.Contains(err.Error(), "an apparent power; a length is wanted") {
		t.Errorf("kVA for a length: %v", err)
	}
}
