//go:build !js

// Native only: it runs another program, which a phone cannot.

package material

import (
	"fmt"
	"testing"

	"kerfside/calc/outside"
	"kerfside/calc/unit"
)

// TestGaugeAgainstUnits compares every number of three gaugings with GNU Units,
// whose file of definitions holds them.
func TestGaugeAgainstUnits(t *testing.T) {
	total := 0
	for _, test := range []struct {
		metal       Metal
		function    string
		first, last int
	}{
		{metal: MildSteel, function: "stdgauge", first: 3, last: 38},
		{metal: Stainless, function: "plategauge", first: -5, last: 38}, // units has no 7/0
		{metal: Aluminium, function: "wiregauge", first: -5, last: 40},
	} {
		g, err := GaugingOf(test.metal)
		if err != nil {
			t.Fatal(err)
		}
		var ask [][2]string
		for n := test.first; n <= test.last; n++ {
			ask = append(ask, [2]string{fmt.Sprintf("%s(%d)", test.function, n), "inch"})
		}
		for i, want := range outside.Units(t, ask) {
			got := float64(g.Thickness(test.first+i) / unit.Inch)
			if !outside.Near(got, want, 1e-10) {
				t.Errorf("%s %s = %.12g in, GNU Units %s = %.12g", test.metal, GaugeName(test.first+i), got, ask[i][0], want)
			}
		}
		total += len(ask)
	}
	t.Logf("tally: %d comparisons with GNU Units", total)
}
