package main

import (
	"debug/buildinfo"
	"strings"
	"testing"
)

// TestNotices: the built command prints the licence of each module that its own file
// says is linked in, and claims none for Kerfside.
func TestNotices(t *testing.T) {
	program, err := built()
	if err != nil {
		t.Fatal(err)
	}
	info, err := buildinfo.ReadFile(program)
	if err != nil {
		t.Fatal(err)
	}
	got := runBuilt(t, t.TempDir(), "notices")
	if !strings.HasPrefix(got.out, "Kerfside\nNo licence has been chosen for Kerfside itself.\n") || got.status != 0 {
		t.Errorf("it begins %.80q, status %d", got.out, got.status)
	}
	for _, m := range info.Deps {
		if !strings.Contains(got.out, "\n"+m.Path+" "+m.Version+"\n") {
			t.Errorf("nothing is told of %s %s", m.Path, m.Version)
		}
	}
	for _, said := range []string{"Go, its runtime", "GNU LESSER GENERAL PUBLIC LICENSE", "GCC RUNTIME LIBRARY EXCEPTION"} {
		if len(info.Deps) == 0 || !strings.Contains(got.out, said) {
			t.Errorf("nothing is told of %q", said)
		}
	}
}
