package main

import (
	"os"
	"path/filepath"

	"kerfside/calc/problem"
)

// module is our own import path.
const module = "kerfside"

// fail returns an error that says what went wrong and what to do about it.
func fail(what, do string) error {
	return problem.New(problem.Refused, "", what, do)
}

// enterRoot makes the top of the module the working folder.
func enterRoot() error {
	dir, err := os.Getwd()
	if err != nil {
		return err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return os.Chdir(dir)
		}
		up := filepath.Dir(dir)
		if up == dir {
			return fail("there is no go.mod in this folder or above it", "Run the task from inside the project.")
		}
		dir = up
	}
}
