package main

import (
	"bytes"
	"slices"
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

// inlinedCall in runtime/symtabinl.go.
const (
	inlinedBytes = 16
	inlinedName  = 4
	inlinedLine  = 12
)

// placesKnown is the function that the runtime goes on in at a place that no code of
// its own names.
const placesKnown = "runtime.goexit"

// dropTraces takes out of a program's memory what only traces show: which line of
// which file each instruction came from, and arguments. The runtime takes that for code
// that nobody can show. What it needs to walk a stack stays, and so does what was inlined
// where a function may recover from a panic: the runtime counts the calls in between. Of
// functions that never run nothing is needed; it returns which of the program's those
// are. And the places of functions whose code is given get new numbers, which it returns
// too.
func dropTraces(p piece, code []*places) (idle map[int]bool, numbers map[int][]int, err error) {
	t, err := readFunctions(p.bytes)
	if err != nil {
		return nil, nil, err
	}
	kept, lost, inlined := map[uint32]bool{}, map[uint32]bool{}, map[uint32]bool{} // what words point to
	idle, numbers = map[int]bool{}, map[int][]int{}
	old := t.bytes[t.tables:t.list]
	anew := tablesAnew{}
	for i := range t.functions {
		f, name, err := t.function(i)
		if err != nil {
			return nil, nil, err
		}
		runtimes := bytes.HasPrefix(name, []byte("runtime.")) || bytes.HasPrefix(name, []byte("internal/runtime/"))
		never := neverRuns(string(name))
		index := int(f.word(0)) - firstCode
		if never {
			idle[index] = true
			f.put(funcStack, 0)
		}
		for k, field := range f.tables()[1:] {
			if never || k == tableUnsafe || k == tableArgs || k == tableInlined && runtimes {
				f.put(field, 0)
			}
		}
		for k := range int(f[funcLast]) {
			word := f.word(f.last(k))
			if never || k == wordArgs || k == wordArgsLive || k == wordWrapped || k == wordInlined && runtimes {
				lost[word] = true
				f.put(f.last(k), noWord)
				continue
			}
			kept[word] = true
			if k == wordInlined {
				inlined[word] = true
			}
		}
		var its *places
		if index >= 0 && index < len(code) && !never && string(name) != placesKnown {
			its = code[index]
		}
		if numbers[index], err = anew.move(f, old, its); err != nil {
			return nil, nil, err
		}
		for _, field := range []int{funcFile, funcLine, funcUnit, funcStart} {
			f.put(field, 0)
		}
	}
	clear(t.bytes[t.units:t.tables]) // names of files
	tables := anew.place()
	if len(tables) > len(old) {
		return nil, nil, errOtherTable
	}
	clear(old[copy(old, tables):])
	module, err := p.module(t.start, t.names)
	if err != nil {
		return nil, nil, err
	}
	pointed, err := module.between(module.word(modulePointed), module.word(moduleBehind))
	if err != nil {
		return nil, nil, err
	}
	for _, set := range []map[uint32]bool{kept, lost, inlined} {
		delete(set, noWord)
	}
	return idle, numbers, clearTables(pointed, kept, lost, inlined)
}

// clearTables zeroes those tables that go and do not stay too, and in those of what was
// inlined the names and lines. Each ends where the next begins.
func clearTables(tables []byte, stays, goes, inlined map[uint32]bool) error {
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
		its := tables[b:begins[i+1]]
		if goes[uint32(b)] && !stays[uint32(b)] {
			clear(its)
		}
		for ; inlined[uint32(b)] && len(its) >= inlinedBytes; its = its[inlinedBytes:] {
			clear(its[inlinedName : inlinedName+4])
			clear(its[inlinedLine : inlinedLine+4])
		}
	}
	return nil
}
