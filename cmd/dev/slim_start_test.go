package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// startedMemory has Node start a program without running it, and writes out its memory.
const startedMemory = `
const fs = require("fs"), module = new WebAssembly.Module(fs.readFileSync(process.argv[1])), gojs = {};
for (const i of WebAssembly.Module.imports(module)) gojs[i.name] = () => { throw new Error(i.name); };
fs.writeFileSync(process.argv[2], new Uint8Array(new WebAssembly.Instance(module, { gojs }).exports.mem.buffer));`

// What the start function puts down is what was taken out, but for the names.
func TestStartPutsBackFunctions(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "calc.wasm")
	if err := linkWasm(path); err != nil {
		t.Fatal(err)
	}
	linked, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	sections, err := readSections(linked)
	if err != nil {
		t.Fatal(err)
	}
	var before piece
	var constants map[uint32]bool
	for _, s := range sections {
		if s.id == sectionCode {
			if constants, err = readConstants(s.bytes); err != nil {
				t.Fatal(err)
			}
		}
		if s.id == sectionData {
			pieces, err := readPieces(s.bytes)
			if err != nil {
				t.Fatal(err)
			}
			before = join(pieces)
		}
	}
	if _, _, err := dropTraces(before, nil); err != nil {
		t.Fatal(err)
	}
	taken := piece{before.at, slices.Clone(before.bytes)}
	s, err := takeTables(taken, countImports(sections), constants)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(before.bytes, taken.bytes) {
		t.Fatal("nothing was taken out")
	}
	for i := range sections {
		if sections[i].id == sectionData {
			sections[i].bytes = taken.section()
		}
	}
	if sections, err = s.addTo(sections); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, joinSections(sections), 0o644); err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(dir, "memory")
	if err := cmd("node", "-e", startedMemory, path, to).quiet(); err != nil {
		t.Fatal(err)
	}
	memory, err := os.ReadFile(to)
	if err != nil {
		t.Fatal(err)
	}
	after := piece{before.at, memory[before.at:][:len(before.bytes)]}

	want, err := readFunctions(before.bytes)
	if err != nil {
		t.Fatal(err)
	}
	got, err := readFunctions(after.bytes)
	if err != nil {
		t.Fatal(err)
	}
	known := 0
	for i := range want.functions {
		f, name, err := want.function(i)
		if err != nil {
			t.Fatal(err)
		}
		number := fmt.Sprintf("wasm.(*%05d).f", countImports(sections)+i)
		if slices.Contains(knownNames, string(name)) {
			number = string(name)
			known++
		}
		g, its, err := got.function(i)
		if err != nil || string(its) != number {
			t.Fatalf("%s is named %s, want %s (%v)", name, its, number, err)
		}
		f.put(funcName, g.word(funcName))
	}
	if known == 0 {
		t.Errorf("calc.wasm holds none of %q now", knownNames)
	}
	module, err := before.module(want.start, want.names)
	if err != nil {
		t.Fatal(err)
	}
	types, itabs, err := module.types()
	if err != nil {
		t.Fatal(err)
	}
	made, stayed := 0, 0
	expect := func(at int, anew uint32) {
		was, err := before.hash(at)
		if err != nil {
			t.Fatal(err)
		}
		is, err := after.hash(at)
		if err != nil {
			t.Fatal(err)
		}
		switch hash := binary.LittleEndian.Uint32(was); binary.LittleEndian.Uint32(is) {
		case hash:
			stayed++
		case anew:
			if constants[hash] {
				t.Errorf("the code names the hash %#x, which is gone", hash)
			}
			copy(was, is)
			made++
		default:
			t.Fatalf("instead of the hash %#x is %x", hash, is)
		}
	}
	hashes := map[uint32]bool{}
	for _, at := range types {
		hashes[newHash(at)] = true
		expect(at+typeHash, newHash(at))
	}
	if made < 1000 || stayed == 0 || len(hashes) != len(types) {
		t.Errorf("of %d types %d keep their hashes, and %d others are made", len(types), stayed, len(hashes))
	}
	for _, at := range itabs {
		expect(at+itabHash, 0)
	}
	at := want.start + want.units // all but the names and hashes is as before
	copy(before.bytes[want.start+want.names:at], after.bytes[want.start+want.names:at])
	for i, b := range after.bytes {
		if b != before.bytes[i] {
			t.Fatalf("memory at %d is %#x, want %#x", i, b, before.bytes[i])
		}
	}
}
