package main

import (
	"os"
	"strings"
	"testing"

	"kerfside/calc/cutting"
)

// TestGradeWordsOnThePhone holds the phone's words for a grade to those of the sums:
// they are the same on all screens.
func TestGradeWordsOnThePhone(t *testing.T) {
	text, err := os.ReadFile("../../pwa/words/en.js")
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range []cutting.Grade{cutting.CutsClean, cutting.SeversRough, cutting.WillNotCut} {
		want := g.Words()
		if line := `"grade.` + string(g) + `": "` + strings.ToUpper(want[:1]) + want[1:] + `"`; !strings.Contains(string(text), line) {
			t.Errorf("words/en.js has no %s", line)
		}
	}
}
