package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
)

// The table of functions as the linker lays it into memory: pcHeader in
// runtime/symtab.go and _func in runtime/runtime2.go, with eight-byte words
// and four-byte fields. The same layout since Go 1.20.
const (
	headerWords = 8
	headerBytes = 8 + 8*headerWords
	entryBytes  = 8      // of the list of functions: which one, where its _func lies
	firstCode   = 0x1000 // which one the first of the code section is

	funcName  = 4 // offsets of fields of a _func
	funcDefer = 12
	funcStack = 16
	funcFile  = 20
	funcLine  = 24
	funcTwins = 28 // how many tables follow it
	funcUnit  = 32
	funcStart = 36
	funcLast  = 43 // how many words follow those tables
	funcBytes = 44
)

var funcMagic = []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}

var errOtherTable = errors.New("the table of functions is not laid out as in Go 1.20 to 1.26")

// functionTable is that table.
type functionTable struct {
	bytes     []byte
	start     int // where it begins in memory
	functions int // how many there are

	names, units, files, tables, list int // where its parts begin in it
}

// readFunctions finds it in a program's memory.
func readFunctions(memory []byte) (functionTable, error) {
	start := bytes.Index(memory, funcMagic)
	if start < 0 || len(memory) < start+headerBytes {
		return functionTable{}, errOtherTable
	}
	t := functionTable{bytes: memory[start:], start: start}
	word := func(i int) int { return int(binary.LittleEndian.Uint64(t.bytes[8+8*i:])) }
	t.functions, t.names, t.units, t.files, t.tables, t.list = word(0), word(3), word(4), word(5), word(6), word(7)
	ends := []int{headerBytes, t.names, t.units, t.files, t.tables, t.list, t.list + t.functions*entryBytes, len(t.bytes)}
	if t.names != headerBytes || !slices.IsSorted(ends) {
		return functionTable{}, errOtherTable
	}
	return t, nil
}

// function returns what the table says of the function that comes so many after the
// first, and its name.
func (t functionTable) function(i int) (function, []byte, error) {
	at := t.list + int(binary.LittleEndian.Uint32(t.bytes[t.list+i*entryBytes+4:]))
	if at+funcBytes > len(t.bytes) {
		return nil, nil, errOtherTable
	}
	f := function(t.bytes[at:])
	end := funcBytes + 4*(int(f.word(funcTwins))+int(f[funcLast]))
	name, _, ended := bytes.Cut(t.bytes[min(t.names+int(f.word(funcName)), t.units):t.units], []byte{0})
	if end > len(f) || !ended {
		return nil, nil, errOtherTable
	}
	return f[:end], name, nil
}

// listFunctions returns the names of a linked program's functions, a line each, with the
// number that traces name it by once it is slim.
func listFunctions(linked []byte) ([]byte, error) {
	sections, err := readSections(linked)
	if err != nil {
		return nil, err
	}
	var list []byte
	for _, s := range sections {
		if s.id != sectionData {
			continue
		}
		pieces, err := readPieces(s.bytes)
		if err != nil || len(pieces) == 0 {
			return nil, errNotLinked
		}
		t, err := readFunctions(join(pieces).bytes)
		if err != nil {
			return nil, err
		}
		for i := range t.functions {
			_, name, err := t.function(i)
			if err != nil {
				return nil, err
			}
			list = fmt.Appendf(list, "%0*d %s\n", nameDigits, countImports(sections)+i, name)
		}
	}
	return list, nil
}

// function is what the runtime holds of one: its _func and what follows that.
type function []byte

func (f function) word(field int) uint32   { return binary.LittleEndian.Uint32(f[field:]) }
func (f function) put(field int, v uint32) { binary.LittleEndian.PutUint32(f[field:], v) }

// tables are the fields that say where its tables are.
func (f function) tables() []int {
	fields := []int{funcStack}
	for k := range int(f.word(funcTwins)) {
		fields = append(fields, funcBytes+4*k)
	}
	return fields
}

// last is the field of the word of that index behind its tables.
func (f function) last(k int) int { return funcBytes + 4*(int(f.word(funcTwins))+k) }

// inlined says whether it holds what was inlined where, by place.
func (f function) inlined() bool {
	return f[funcLast] > wordInlined && f.word(f.last(wordInlined)) != noWord
}
