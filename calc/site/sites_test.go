package site

import (
	"encoding/json"
	"os"
	"runtime"
	"testing"

	"kerfside/calc/vector"
)

// TestSites compares thirty sites that were worked by hand with what is said of
// them: verdict, what gives out, the first remedy and the sentence. It prints
// them as a table.
func TestSites(t *testing.T) {
	text, err := os.ReadFile("../../testdata/site/sites.txt")
	if err != nil {
		t.Fatal(err)
	}
	cases, err := vector.Parse(string(text))
	if err != nil {
		t.Fatal(err)
	}
	if len(cases) < 30 {
		t.Errorf("%d sites, want 30 at least", len(cases))
	}
	for _, c := range cases {
		a, err := SiteCheck.Calculator().Calculate(c.Input)
		var reply []byte
		if err != nil {
			reply, _ = json.Marshal(map[string]any{"error": err})
		} else if reply, err = json.Marshal(a); err != nil {
			t.Fatal(err)
		}
		for _, wrong := range c.Check(reply) {
			t.Errorf("line %d, %s: %s", c.Line, c.Name, wrong)
		}
		if err == nil && a != nil {
			t.Logf("%-60s %-8v %-10v %v", c.Name, said(a, "verdict"), said(a, "binding"), said(a, "say"))
		}
	}
	if runtime.GOOS != "js" { // once is enough to be counted
		t.Logf("tally: %d invented sites worked by hand", len(cases))
	}
}
