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
	files, err := shapes.Files(".")
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

// A key that has another name in Go, and no longer in JavaScript, fails the type
// check. The module is copied, the key renamed and all made anew there.
func TestRenamedKeysFailTheTypeCheck(t *testing.T) {
	if os.Getenv("KERFSIDE_LONG") == "" {
		t.Skip("copies and builds the module: KERFSIDE_LONG=1")
	}
	t.Chdir("../..")
	t.Setenv("GOFLAGS", copiesBuild)
	if err := npmInstall(checkTools); err != nil {
		t.Fatal(err)
	}
	tools, err := filepath.Abs(checkTools)
	if err != nil {
		t.Fatal(err)
	}
	for _, plant := range []struct{ below, from, to, fault string }{
		{below: "calc", from: "nothing is called so"},
		{below: "calc/cutting", from: `"cleared_by"`, to: `"who_clears"`, fault: "'cleared_by'"},       // a column of may-i-cut
		{below: "calc/cutting", from: `"limit_pierce"`, to: `"pierces_to"`, fault: "'limit_pierce'"},   // a result of rig-table
		{below: "calc/journal", from: `json:"drain"`, to: `json:"drained"`, fault: "'drain' does not"}, // of the view now
	} {
		t.Run(plant.from, func(t *testing.T) {
			dir := t.TempDir()
			if err := copyRenamed(dir, plant.below, plant.from, plant.to); err != nil {
				t.Fatal(err)
			}
			if err := cmd("go", "run", "./cmd/dev", "types").in(dir).quiet(); err != nil {
				t.Fatal(err)
			}
			if err := os.Symlink(filepath.Join(tools, "node_modules"), filepath.Join(dir, checkTools, "node_modules")); err != nil {
				t.Fatal(err)
			}
			tsc := npmTool(tools, "typescript", "bin", "tsc")
			out, err := cmd("node", tsc, "--noEmit", "--project", filepath.Join(checkTools, "tsconfig.json")).in(dir).output()
			if plant.fault == "" && err != nil || plant.fault != "" && (err == nil || !strings.Contains(out, plant.fault)) {
				t.Errorf("the type check says %v, want %q:\n%s", err, plant.fault, out)
			}
		})
	}
}

// copyRenamed copies to dir what the types are made from and what takes them, with a
// text in the Go files below a folder replaced.
func copyRenamed(dir, below, from, to string) error {
	for _, top := range []string{"go.mod", "go.sum", "calc", "cmd", "guides", "pwa", "server", "testdata/calc"} {
		err := walkFiles(top, func(path string) error {
			if strings.Contains(path, "node_modules") || strings.HasPrefix(filepath.ToSlash(path), "pwa/types/") || strings.HasSuffix(path, "_test.go") {
				return nil
			}
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			if strings.HasPrefix(filepath.ToSlash(path), below+"/") && strings.HasSuffix(path, ".go") {
				text = []byte(strings.ReplaceAll(string(text), from, to))
			}
			if err := os.MkdirAll(filepath.Join(dir, filepath.Dir(path)), 0o755); err != nil {
				return err
			}
			return os.WriteFile(filepath.Join(dir, path), text, 0o644)
		})
		if err != nil {
			return err
		}
	}
	return nil
}
