package main

import (
	"bytes"
	"errors"
	"os/exec"
	"strings"
	"testing"
)

// ended is what a run of the built command left.
type ended struct {
	out, err string
	status   int
}

// runBuilt runs the built command in a folder.
func runBuilt(t testing.TB, dir string, args ...string) ended {
	t.Helper()
	program, err := built()
	if err != nil {
		t.Fatal(err)
	}
	var out, told bytes.Buffer
	c := exec.Command(program, args...)
	c.Dir, c.Stdout, c.Stderr = dir, &out, &told
	var exit *exec.ExitError
	if err := c.Run(); err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return ended{out: out.String(), err: told.String(), status: c.ProcessState.ExitCode()}
}

// lines splits text into its lines.
func lines(text string) []string { return strings.Split(strings.TrimRight(text, "\n"), "\n") }
