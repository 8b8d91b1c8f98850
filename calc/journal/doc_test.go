package journal

import (
	"os"
	"testing"
)

// packageComment returns the specification.
func packageComment(t testing.TB) string {
	text, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
