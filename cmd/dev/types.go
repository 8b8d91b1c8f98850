package main

import (
	"os"
	"path/filepath"

	"kerfside/cmd/internal/shapes"
)

// writeTypes writes anew what pwa is told of the types in Go.
func writeTypes([]string) error {
	files, err := shapes.Files(".")
	if err != nil {
		return fail(err.Error(), "Mend what it names.")
	}
	for path, text := range files {
		old, err := os.ReadFile(path)
		if err == nil && string(old) == text {
			continue
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			return err
		}
		say("%s", path)
	}
	return nil
}
