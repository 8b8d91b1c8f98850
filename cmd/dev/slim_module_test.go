package main

import (
	"encoding/binary"
	"slices"
	"testing"
)

// A program of twenty functions, each of which is one stretch.
func TestCoarsen(t *testing.T) {
	const begin, list, functions = 0x1000, 8 * (modulePointed + 1), 20
	m := moduleData{piece{begin, make([]byte, list+functions*findBytes)}, 0}
	put := func(word, value int) { binary.LittleEndian.PutUint64(m.memory.bytes[8*word:], uint64(value)) }
	put(moduleFind, begin+list)
	put(moduleMin, 0x10000)
	put(moduleMax, 0x10000+functions*findStretch)
	for i := range functions {
		binary.LittleEndian.PutUint32(m.memory.bytes[list+i*findBytes:], uint32(i))
	}
	if err := m.coarsen(); err != nil {
		t.Fatal(err)
	}
	var got []int
	for i := range functions {
		got = append(got, int(binary.LittleEndian.Uint32(m.memory.bytes[list+i*findBytes:])))
	}
	want := []int{0, 0, 0, 0, 0, 0, 0, 0, 8, 8, 8, 8, 8, 8, 8, 8, 16, 16, 16, 16}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}

	put(moduleMax, 0x10000+(functions+1)*findStretch)
	if err := m.coarsen(); err == nil {
		t.Error("a list that ends behind the memory: no error")
	}
}
