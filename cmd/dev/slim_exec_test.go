package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestSlimExec: the toolchain's file loses what only refuses, and keeps what writes
// and what the sums call; one of another layout is refused.
func TestSlimExec(t *testing.T) {
	root, err := cmd("go", "env", "GOROOT").output()
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		t.Fatal(err)
	}
	slim, err := slimExec(string(text))
	if err != nil {
		t.Fatal(err)
	}
	for _, gone := range []string{"chmod(", "open(", "utimes(", "cwd()", "polyfill required"} {
		if !strings.Contains(string(text), gone) || strings.Contains(slim, gone) {
			t.Errorf("%s is there still, or never was", gone)
		}
	}
	for _, kept := range []string{"writeSync(fd, buf) {", "write(fd, buf, offset", "fsync(fd, callback) { callback(null); }", "getuid()", "gojs", "syscall/js.valueCall", "constants: {"} {
		if !strings.Contains(slim, kept) {
			t.Errorf("%s is gone", kept)
		}
	}
	if _, err := slimExec("globalThis.Go = class {};\n"); err == nil || !strings.Contains(err.Error(), "another layout") {
		t.Errorf("slimExec of another file = %v", err)
	}
}
