package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

// FIPS 197, 4.2: {57} · {83} = {c1}, and 4.2.1: {57} · {13} = {fe}.
func TestGFTimes(t *testing.T) {
	if got := gfTimes(0x57, 0x83); got != 0xc1 {
		t.Errorf("{57} · {83} = %x", got)
	}
	if got := gfTimes(0x57, 0x13); got != 0xfe {
		t.Errorf("{57} · {13} = %x", got)
	}
}

// The linked program holds all of them, and none is left afterwards.
func TestDropTables(t *testing.T) {
	path := filepath.Join(t.TempDir(), "calc.wasm")
	if err := linkWasm(path); err != nil {
		t.Fatal(err)
	}
	linked, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	slim, err := slimWasm(linked)
	if err != nil {
		t.Fatal(err)
	}
	for i, table := range aesTables() {
		if n := bytes.Count(linked, table); n != 1 {
			t.Errorf("table %d of AES is linked %d times: see whether it has to be cleared", i, n)
		}
		if bytes.Contains(slim, table) {
			t.Errorf("table %d of AES is left", i)
		}
	}
}
