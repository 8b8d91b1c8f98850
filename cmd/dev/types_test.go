package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/cmd/internal/shapes"
)

// What the phone is told of Go's types is what they are.
func TestTypesAreAsInGo(t *testing.T) {
	t.Chdir("../..")
	files, err := shapes.Files(".", nil)
	if err != nil {
		t.Fatal(err)
	}
	for path, text := range files {
		if old, err := os.ReadFile(path); err != nil || string(old) != text {
			t.Errorf("%s is not what Go says now: run go run ./cmd/dev types (%v)", path, err)
		}
	}
	lying, err := filepath.Glob(shapes.Dir + "*")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range lying {
		if _, made := files[filepath.ToSlash(path)]; !made && !strings.HasSuffix(path, ".md") {
			t.Errorf("%s is made from nothing in Go any more: remove it", path)
		}
	}
}
