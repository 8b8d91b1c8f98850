package pwa

import (
	"io/fs"
	"strings"
	"testing"
)

// TestStylesEnd: a sheet that closes fewer blocks than it opens takes those that
// follow it into its last layer.
func TestStylesEnd(t *testing.T) {
	sheets, err := fs.Glob(Files, "css/*.css")
	if err != nil || len(sheets) == 0 {
		t.Fatal(sheets, err)
	}
	for _, name := range sheets {
		text, err := fs.ReadFile(Files, name)
		if err != nil {
			t.Fatal(err)
		}
		if opened, closed := strings.Count(string(text), "{"), strings.Count(string(text), "}"); opened != closed {
			t.Errorf("%s opens %d blocks and closes %d", name, opened, closed)
		}
	}
}
