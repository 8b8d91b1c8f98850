package main

import (
	"os"
	"path/filepath"
	"strings"
)

// gen is the folder of what is built for the phone.
const gen = "pwa/gen"

// buildWasm builds the calculators for the phone and puts the loader of the
// same toolchain beside them. The flags make the result the same bit for bit
// in every folder, so its content name stays the same too. The Go command
// leaves a file alone that is up to date.
func buildWasm() error {
	if err := os.MkdirAll(gen, 0o755); err != nil {
		return err
	}
	err := cmd("go", "build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w", "-o", filepath.Join(gen, "calc.wasm"), "./cmd/wasm").
		with("GOOS=js", "GOARCH=wasm").quiet()
	if err != nil {
		return err
	}
	root, err := cmd("go", "env", "GOROOT").output()
	if err != nil {
		return err
	}
	return copyIfNew(filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js"), filepath.Join(gen, "wasm_exec.js"))
}

// copyIfNew copies a file unless the target holds the same already.
func copyIfNew(from, to string) error {
	data, err := os.ReadFile(from)
	if err != nil {
		return fail("the Go toolchain has no "+from, "Take a whole Go distribution, 1.24 or newer.")
	}
	if old, err := os.ReadFile(to); err == nil && string(old) == string(data) {
		return nil
	}
	return os.WriteFile(to, data, 0o644)
}
