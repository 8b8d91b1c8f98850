//go:build !js

// Native only: it runs another program, which a phone cannot.

package material

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"kerfside/calc/unit"
)

// TestGaugeAgainstUnits compares every number of three gaugings with GNU Units,
// whose file of definitions holds them. Where the program is not installed the
// test says so; in a full check (CI=true or KERFSIDE_COMPARE=1) that is a
// failure.
func TestGaugeAgainstUnits(t *testing.T) {
	program, err := exec.LookPath("units")
	if err != nil {
		if os.Getenv("CI") == "true" || os.Getenv("KERFSIDE_COMPARE") == "1" {
			t.Fatal("GNU Units is not installed, so the gauges were not compared (on Debian: apt-get install units)")
		}
		t.Log("GNU Units is not installed: the gauges were not compared with it (on Debian: apt-get install units)")
		return
	}
	tests := []struct {
		metal       Metal
		function    string
		first, last int
	}{
		{MildSteel, "stdgauge", 3, 38},
		{Stainless, "plategauge", -5, 38}, // units has no 7/0
		{Aluminium, "wiregauge", -5, 40},
	}
	for _, test := range tests {
		g, err := GaugingOf(test.metal)
		if err != nil {
			t.Fatal(err)
		}
		var ask strings.Builder
		for n := test.first; n <= test.last; n++ {
			fmt.Fprintf(&ask, "%s(%d)\ninch\n", test.function, n)
		}
		cmd := exec.Command(program, "-q", "-t", "-o", "%.12g")
		cmd.Stdin = strings.NewReader(ask.String())
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("units: %v", err)
		}
		lines := strings.Fields(string(out))
		if len(lines) != test.last-test.first+1 {
			t.Fatalf("units answered %d of %d %ss: %q", len(lines), test.last-test.first+1, test.function, out)
		}
		for i, line := range lines {
			want, err := strconv.ParseFloat(line, 64)
			if err != nil {
				t.Fatal(err)
			}
			got := float64(g.Thickness(test.first+i) / unit.Inch)
			if math.Abs(got-want) > 1e-10*want {
				t.Errorf("%s %s = %.12g in, units %s(%d) = %.12g", test.metal, GaugeName(test.first+i), got, test.function, test.first+i, want)
			}
		}
	}
}
