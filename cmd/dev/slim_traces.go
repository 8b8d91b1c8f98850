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

// What stands in the tables and words that follow a _func, by index: PCDATA and
// FUNCDATA in internal/abi/symtab.go.
const (
	tableUnsafe  = 0 // where the thread may not be stopped
	tableInlined = 2
	tableArgs    = 3

	wordInlined  = 3
	wordArgs     = 5
	wordArgsLive = 6
	wordWrapped  = 7 // for the tracer of executions

	noWord = 0xffffffff
)

// placesKnown is the function that the runtime goes on in at a place that no code of
// its own names.
const placesKnown = "runtime.goexit"

var funcMagic = []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}

var errOtherTable = errors.New("the table of functions is not laid out as in Go 1.20 to 1.26")

// dropTraces takes out of a program's memory what only traces show: which line of
// which file each instruction came from, arguments, and names of functions that are
// not ours. The runtime takes that for code that nobody can show. What it needs to
// walk a stack stays, and so does what was inlined where a function may recover from
// a panic: the runtime counts the calls in between. Of functions that never run nothing
// is needed; it returns which of the program's those are. And the places of functions
// whose code is given get new numbers, which it returns too.
func dropTraces(p piece, code []*places) (idle map[int]bool, numbers map[int][]int, err error) {
	memory := p.bytes
	start := bytes.Index(memory, funcMagic)
	if start < 0 || len(memory) < start+headerBytes {
		return nil, nil, errOtherTable
	}
	table := memory[start:]
	word := func(i int) int { return int(binary.LittleEndian.Uint64(table[8+8*i:])) }
	functions, names, units, files, tables, list := word(0), word(3), word(4), word(5), word(6), word(7)
	ends := []int{headerBytes, names, units, files, tables, list, list + functions*entryBytes, len(table)}
	if names != headerBytes || !slices.IsSorted(ends) {
		return nil, nil, errOtherTable
	}
	at := func(i int) uint32 { return binary.LittleEndian.Uint32(table[i:]) }
	put := func(i int, v uint32) { binary.LittleEndian.PutUint32(table[i:], v) }
	gone := map[uint32]string{}                        // names, by where they stand
	kept, lost := map[uint32]bool{}, map[uint32]bool{} // what words point to
	idle, numbers = map[int]bool{}, map[int][]int{}
	anew := tablesAnew{bytes: []byte{0}, at: map[string]uint32{}}
	for i := range functions {
		f := list + int(at(list+i*entryBytes+4))
		if f+funcBytes > len(table) {
			return nil, nil, errOtherTable
		}
		words := f + funcBytes + 4*int(at(f+funcTwins))
		name, _, ended := bytes.Cut(table[min(names+int(at(f+funcName)), units):units], []byte{0})
		if words+4*int(table[f+funcLast]) > len(table) || !ended {
			return nil, nil, errOtherTable
		}
		runtimes := bytes.HasPrefix(name, []byte("runtime.")) || bytes.HasPrefix(name, []byte("internal/runtime/"))
		never := neverRuns(string(name))
		if never {
			idle[int(at(list+i*entryBytes))-firstCode] = true
			put(f+funcStack, 0)
		}
		if !keepsName(name) {
			gone[at(f+funcName)] = string(name)
			put(f+funcName, 0)
		}
		for k := range (words - f - funcBytes) / 4 {
			place := f + funcBytes + 4*k
			if never || k == tableUnsafe || k == tableArgs || k == tableInlined && runtimes {
				put(place, 0)
			}
		}
		for k := range int(table[f+funcLast]) {
			if never || k == wordArgs || k == wordArgsLive || k == wordWrapped || k == wordInlined && runtimes {
				lost[at(words+4*k)] = true
				put(words+4*k, noWord)
			}
			kept[at(words+4*k)] = true
		}
		index := int(at(list+i*entryBytes)) - firstCode
		var its *places
		if index >= 0 && index < len(code) && !never && string(name) != placesKnown {
			its = code[index]
		}
		if numbers[index], err = anew.move(table[f:words+4*int(table[f+funcLast])], table[tables:list], its); err != nil {
			return nil, nil, err
		}
		for _, field := range []int{funcFile, funcLine, funcUnit, funcStart} {
			clear(table[f+field : f+field+4])
		}
	}
	for begin, name := range gone {
		clear(table[names+int(begin):][:len(name)])
	}
	clear(table[units:tables]) // names of files
	if len(anew.bytes) > list-tables {
		return nil, nil, errOtherTable
	}
	clear(table[tables+copy(table[tables:list], anew.bytes) : list])
	module, err := p.module(start, names)
	if err != nil {
		return nil, nil, err
	}
	pointed, err := module.between(module.word(modulePointed), module.word(moduleBehind))
	if err != nil {
		return nil, nil, err
	}
	if err := module.coarsen(); err != nil {
		return nil, nil, err
	}
	delete(kept, noWord)
	delete(lost, noWord)
	return idle, numbers, clearTables(pointed, kept, lost)
}

// keepsName says which functions keep their names: ours, for traces, and those of
// reflect, two of which the runtime knows by name when it walks a stack.
func keepsName(name []byte) bool {
	for _, ours := range []string{"kerfside/", "main.", "reflect."} {
		if bytes.HasPrefix(name, []byte(ours)) {
			return true
		}
	}
	return false
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
