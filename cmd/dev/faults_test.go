package main

import (
	"strings"
	"testing"

	"kerfside/calc/diagnose"
)

// TestFaultsArePrinted: the printed table names every sign, cause and check, with its
// frequencies.
func TestFaultsArePrinted(t *testing.T) {
	var text strings.Builder
	printFaults(&text)
	for _, s := range diagnose.Signs {
		if !strings.Contains(text.String(), "\n"+s.Label+"\n") {
			t.Errorf("the sign %q is not printed", s.Label)
		}
	}
	for _, c := range diagnose.Causes {
		if !strings.Contains(text.String(), "\n"+c.Label+" (") {
			t.Errorf("the cause %q is not printed", c.Label)
		}
	}
	for _, c := range diagnose.Checks {
		if !strings.Contains(text.String(), "\n"+c.Label+"\n") {
			t.Errorf("the check %q is not printed", c.Label)
		}
	}
	for _, line := range []string{"  always     Wet air", "  often      Tip worn or oval", "  dead       torch made dead"} {
		if !strings.Contains(text.String(), line) {
			t.Errorf("the table lacks the line %q", line)
		}
	}
}
