package journaltest

import (
	"os"
	"testing"
)

// Specification returns the specification.
func Specification(t testing.TB) string {
	text, err := os.ReadFile("../event/doc.go")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
