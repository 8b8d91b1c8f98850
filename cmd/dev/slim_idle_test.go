package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func TestNeverRuns(t *testing.T) {
	for name, want := range map[string]bool{
		"internal/bisect.New":                               true,
		"internal/bisect.(*Matcher).stack":                  true,
		"runtime.initMetrics":                               true,
		"runtime.initMetrics.func27":                        true,
		"runtime.traceLocker.GoPark":                        true,
		"runtime.traceLocker.ok":                            false,
		"runtime.traceback1":                                false,
		"crypto/internal/fips140/aes.newOutlined":           true,
		"crypto/internal/fips140/aes.init":                  false,
		"crypto/internal/fips140/aes.init.0":                false,
		"crypto/internal/fips140/aes.init.0.func1":          true,
		"crypto/internal/fips140/aes.initialize":            true,
		"crypto/internal/fips140/sha256.(*Digest).checkSum": false,
		"kerfside/calc/air.bisect":                          false,
	} {
		if got := neverRuns(name); got != want {
			t.Errorf("neverRuns(%q) = %t", name, got)
		}
	}
}

// A part that is linked no longer, or under another name, has to go from the list.
func TestIdlePartsAreLinked(t *testing.T) {
	path := filepath.Join(t.TempDir(), "calc.wasm")
	if err := linkWasm(path); err != nil {
		t.Fatal(err)
	}
	linked, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range idleParts {
		if !bytes.Contains(linked, append([]byte{0}, part...)) {
			t.Errorf("no function's name begins with %s", part)
		}
	}
}

func TestIdlePartsAreCalledByNothing(t *testing.T) {
	linked, err := cmd("go", "list", "-deps", "kerfside/cmd/wasm").with("GOOS=js", "GOARCH=wasm").output()
	if err != nil {
		t.Fatal(err)
	}
	packages := strings.Fields(linked)
	if !slices.Contains(packages, "crypto/sha256") {
		t.Fatalf("calc.wasm should hold crypto/sha256; it holds %v", packages)
	}
	for _, p := range idleWithout {
		if slices.Contains(packages, p) {
			t.Errorf("calc.wasm holds %s now: take out of idleParts what that calls", p)
		}
	}
}

// Of two functions the second is idle: it ends the program, and the first is as before.
func TestSlimCodeEmpties(t *testing.T) {
	section := []byte{2, 4, 0, opI32Const, 1, opEnd, 6, 1, 1, 0x7f, opI32Const, 1, opEnd}
	want := []byte{2, 4, 0, opI32Const, 1, opEnd, 3, 0, opUnreachable, opEnd}
	got, err := slimCode(section, map[int]bool{1: true}, nil)
	if err != nil || !bytes.Equal(got, want) {
		t.Errorf("got %x, %v, want %x", got, err, want)
	}
}
