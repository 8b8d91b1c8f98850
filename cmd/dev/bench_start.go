package main

import (
	"context"
	_ "embed"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

//go:embed start.js
var startScript string

// emptyProgram is the least that Go makes a wasm of.
const emptyProgram = "package main\n\nfunc main() {}\n"

// starts is how often each program is started, in turn with the other.
const starts = 15

// benchStart measures the start of the sums up to where they take calls, beside the
// start of an empty program. What all processors did counts, since on a phone the
// engine's threads take turns with the page.
func benchStart(ctx context.Context, f figures, root string) error {
	dir, err := os.MkdirTemp("", "kerfside-start-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	for name, text := range map[string]string{"start.js": startScript, "main.go": emptyProgram, "go.mod": "module empty\n\ngo 1.24\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			return err
		}
	}
	empty := filepath.Join(dir, "empty.wasm")
	if err := cmd("go", "build", "-ldflags=-s -w", "-o", empty, ".").in(dir).with("GOOS=js", "GOARCH=wasm", "GOFLAGS=").quiet(); err != nil {
		return err
	}
	if err := slimFile(empty, empty); err != nil {
		return err
	}
	loader := filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js")
	programs := []string{empty, filepath.Join(gen, "calc.wasm")}
	var clock, work [2][]float64 // ms
	for range starts {
		for i, program := range programs {
			if ctx.Err() != nil {
				return context.Cause(ctx)
			}
			said, err := cmd("node", filepath.Join(dir, "start.js"), loader, program).output()
			if err != nil {
				return err
			}
			var wall, all float64
			if _, err := fmt.Sscan(said, &wall, &all); err != nil {
				return fmt.Errorf("start.js said %q: %w", said, err)
			}
			clock[i], work[i] = append(clock[i], wall), append(work[i], all)
		}
	}
	say("start of the sums, whole process, median of %d: %.0f ms by the clock, %.0f ms of all processors; an empty program %.0f and %.0f ms",
		starts, median(clock[1]), median(work[1]), median(clock[0]), median(work[0]))
	f.found("start-ratio", median(work[1])/median(work[0]))
	return nil
}

// median returns the middle of an odd number of figures.
func median(list []float64) float64 {
	slices.Sort(list)
	return list[len(list)/2]
}
