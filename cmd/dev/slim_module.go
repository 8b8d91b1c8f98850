package main

import (
	"bytes"
	"encoding/binary"
)

// Which words of runtime.moduledata, in runtime/symtab.go, say where the list is that
// functions are found by, from which instruction to which, where the words that follow
// a _func point to, and what lies behind that. Its first two point to the table of
// functions and to the names in it.
const (
	moduleFind    = 19
	moduleMin     = 20
	moduleMax     = 21
	modulePointed = 40
	moduleBehind  = 19
)

// moduleData is runtime.moduledata in a program's memory.
type moduleData struct {
	memory piece
	at     int
}

// module finds it by the table of functions, which starts there in memory.
func (p piece) module(start, names int) (moduleData, error) {
	table := uint64(p.at) + uint64(start)
	first := binary.LittleEndian.AppendUint64(binary.LittleEndian.AppendUint64(nil, table), table+uint64(names))
	at := bytes.Index(p.bytes, first)
	if at < 0 || at+8*(modulePointed+1) > len(p.bytes) {
		return moduleData{}, errOtherTable
	}
	return moduleData{p, at}, nil
}

func (m moduleData) word(i int) int64 {
	return int64(binary.LittleEndian.Uint64(m.memory.bytes[m.at+8*i:]))
}

// between returns the memory from an address to another.
func (m moduleData) between(from, to int64) ([]byte, error) {
	from, to = from-m.memory.at, to-m.memory.at
	if from < 0 || from > to || to > int64(len(m.memory.bytes)) {
		return nil, errOtherTable
	}
	return m.memory.bytes[from:to], nil
}
