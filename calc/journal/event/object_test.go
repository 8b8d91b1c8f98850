package event

import (
	"fmt"
	"strings"
	"testing"
)

// TestScanIsLinear: twice as many keys are at most some more than twice the work,
// in an object where each is new and in one where all are the same.
func TestScanIsLinear(t *testing.T) {
	looks := func(text string) int {
		o, err := ReadObject([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		return o.comparisons
	}
	for name, text := range map[string]func(n int) string{
		"new keys": func(n int) string {
			var b strings.Builder
			for i := range n {
				fmt.Fprintf(&b, `,"%x":0`, i)
			}
			return "{" + b.String()[1:] + "}"
		},
		"one key": func(n int) string { return "{" + strings.Repeat(`"a":0,`, n-1) + `"a":0}` },
	} {
		for n := 500; n <= 64_000; n *= 2 {
			once, double := looks(text(n)), looks(text(2*n))
			if once < n/2 || float64(double) > 2.5*float64(once) {
				t.Errorf("%s: %d keys are compared %d times, twice as many %d times", name, n, once, double)
			}
		}
	}
}
