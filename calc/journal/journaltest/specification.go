package journaltest

import (
	"os"
	"strings"
	"testing"
)

// Specification returns the pages of the specification, one after the other.
func Specification(t testing.TB) string {
	files, err := os.ReadDir("..")
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, file := range files {
		if !strings.HasSuffix(file.Name(), ".md") {
			continue
		}
		text, err := os.ReadFile("../" + file.Name())
		if err != nil {
			t.Fatal(err)
		}
		all.Write(text)
	}
	return all.String()
}
