package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"slices"
)

// The table of functions as the linker lays it into memory: pcHeader in
// runtime/symtab.go and _func in runtime/runtime2.go, with eight-byte words
// and four-byte fields. The same layout since Go 1.20.
const (
	headerWords = 8
	headerBytes = 8 + 8*headerWords
	entryBytes  = 8 // of the list of functions: where the code begins, where the _func lies

	funcStack = 16 // offsets of fields of a _func
	funcFile  = 20
	funcLine  = 24
	funcTwins = 28 // how many tables follow it
	funcUnit  = 32
	funcStart = 36
	funcBytes = 44
)

var funcMagic = []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}

var errOtherTable = errors.New("the table of functions is not laid out as in Go 1.20 to 1.26")

// dropLines takes out of a program's memory which line of which file each
// instruction came from; the runtime takes that for code that nobody can show.
// What it needs to walk a stack stays.
func dropLines(memory []byte) error {
	start := bytes.Index(memory, funcMagic)
	if start < 0 || len(memory) < start+headerBytes {
		return errOtherTable
	}
	table := memory[start:]
	word := func(i int) int { return int(binary.LittleEndian.Uint64(table[8+8*i:])) }
	functions, names, units, files, places, list := word(0), word(3), word(4), word(5), word(6), word(7)
	ends := []int{headerBytes, names, units, files, places, list, list + functions*entryBytes, len(table)}
	if names != headerBytes || !slices.IsSorted(ends) {
		return errOtherTable
	}
	at := func(i int) uint32 { return binary.LittleEndian.Uint32(table[i:]) }
	stays, goes := map[uint32]bool{0: true}, map[uint32]bool{} // tables of places, by where they begin
	for i := range functions {
		f := list + int(at(list+i*entryBytes+4))
		if f+funcBytes > len(table) || f+funcBytes+4*int(at(f+funcTwins)) > len(table) {
			return errOtherTable
		}
		stays[at(f+funcStack)] = true
		for k := range int(at(f + funcTwins)) {
			stays[at(f+funcBytes+4*k)] = true
		}
		for _, field := range []int{funcFile, funcLine, funcUnit, funcStart} {
			if field == funcFile || field == funcLine {
				goes[at(f+field)] = true
			}
			clear(table[f+field : f+field+4])
		}
	}
	clear(table[units:places]) // names of files
	return clearTables(table[places:list], stays, goes)
}

// clearTables zeroes those tables that go and do not stay too. Each ends where
// the next begins.
func clearTables(tables []byte, stays, goes map[uint32]bool) error {
	begins := []int{len(tables)}
	for _, set := range []map[uint32]bool{stays, goes} {
		for b := range set {
			if int(b) >= len(tables) {
				return errOtherTable
			}
			begins = append(begins, int(b))
		}
	}
	slices.Sort(begins)
	begins = slices.Compact(begins)
	for i, b := range begins[:len(begins)-1] {
		if goes[uint32(b)] && !stays[uint32(b)] {
			clear(tables[b:begins[i+1]])
		}
	}
	return nil
}
