package book

import (
	"slices"
	"testing"
)

// TestFittedFromStock: a fitting takes from the one line that it can be; of several a
// person picks, and without an answer it is fitted all the same.
func TestFittedFromStock(t *testing.T) {
	s := trucks(t)
	aLine(s, "tips", `{'slot':'tip','rating':'45 A','rig':'rig-1'}`, 1, "0")
	asked := func() []string {
		var keys []string
		for _, a := range open(foldOf(s), lookAt(s, "parts", 10)).asksOfNew("rig-1", "") {
			keys = append(keys, a.Key)
			if a.Key == "line" && (a.Only.Words[0] != "tip" || len(a.Options) != 3 || a.Options[0].Label != "45 A, 0 left" || a.Options[2].Label != "Not from stock") {
				t.Errorf("asked %+v", a)
			}
		}
		return keys
	}
	fitted := func(answers map[string]string) any {
		d := do(t, s, "new-part", map[string]string{"rig": "rig-1"}, answers)
		return d.Entries[len(d.Entries)-1].Body["line"]
	}
	if got := asked(); !slices.Equal(got, []string{"slot"}) {
		t.Errorf("one line: asked %q", got)
	}
	if got := fitted(map[string]string{"slot": "tip"}); got != "tips" {
		t.Errorf("one line, without pieces: taken from %v", got)
	}
	if got := fitted(map[string]string{"slot": "cup"}); got != nil {
		t.Errorf("no line: taken from %v", got)
	}
	aLine(s, "more", `{'slot':'tip','rating':'60 A','rig':'rig-1'}`, 1, "5")
	if got := asked(); !slices.Equal(got, []string{"slot", "line"}) {
		t.Errorf("two lines: asked %q", got)
	}
	for line, want := range map[string]any{"more": "more", "none": nil, "": nil} {
		if got := fitted(map[string]string{"slot": "tip", "line": line}); got != want {
			t.Errorf("two lines, answered %q: taken from %v", line, got)
		}
	}
}
