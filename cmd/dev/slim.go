package main

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"io"
	"os"
	"slices"
)

// What slim leaves out of a linked wasm. The linker cuts the memory's first
// content into some 70,000 pieces wherever eight bytes are zero; the addresses
// of the pieces cost more over the air than the zeros do, since those pack to
// nothing. And it puts in which line of which file each instruction came from,
// what arguments a trace would show, where a thread may be stopped, of which wasm
// has one, and the name of every function, for which a trace needs only its number.
// And it takes functions along that never run.

// Numbers of the wasm format: WebAssembly Core Specification 2.0, 5.4 and 5.5.
const (
	wasmHeader      = 8 // bytes before the first section
	sectionType     = 1
	sectionImport   = 2
	sectionFunction = 3
	sectionStart    = 8
	sectionCode     = 10
	sectionData     = 11
)

var errNotLinked = errors.New("this is no wasm as the Go linker writes it")

// slimFile writes to that path what was linked, made slim. It leaves a file alone that
// holds it already.
func slimFile(linked, to string) error {
	program, err := os.ReadFile(linked)
	if err != nil {
		return err
	}
	slim, err := slimWasm(program)
	if err != nil {
		return fail(linked+": "+err.Error(), "Take the Go toolchain that go.mod names.")
	}
	if old, err := os.ReadFile(to); err == nil && bytes.Equal(old, slim) {
		return nil
	}
	return os.WriteFile(to, slim, 0o644)
}

// slimWasm returns a linked wasm with its memory in one piece, without line numbers
// and functions that never run, and with short jumps.
func slimWasm(linked []byte) ([]byte, error) {
	sections, err := readSections(linked)
	if err != nil {
		return nil, err
	}
	var idle map[int]bool
	var numbers map[int][]int
	var starts *starter
	for i, s := range sections {
		if s.id != sectionData {
			continue
		}
		pieces, err := readPieces(s.bytes)
		if err != nil {
			return nil, err
		}
		if len(pieces) > 1 { // else it is slim
			memory := join(pieces)
			var code []*places
			var constants map[uint32]bool
			for _, s := range sections {
				if s.id == sectionCode {
					if code, err = readPlaces(s.bytes); err != nil {
						return nil, err
					}
					if constants, err = readConstants(s.bytes); err != nil {
						return nil, err
					}
				}
			}
			if idle, numbers, err = dropTraces(memory, code); err != nil {
				return nil, err
			}
			dropTables(memory.bytes)
			if starts, err = takeTables(memory, countImports(sections), constants); err != nil {
				return nil, err
			}
			sections[i].bytes = memory.section()
		}
	}
	for i, s := range sections {
		if s.id == sectionCode {
			if sections[i].bytes, err = slimCode(s.bytes, idle, numbers); err != nil {
				return nil, err
			}
		}
	}
	if starts != nil {
		if sections, err = starts.addTo(sections); err != nil {
			return nil, err
		}
	}
	return joinSections(sections), nil
}

// joinSections returns the wasm of these sections.
func joinSections(sections []section) []byte {
	wasm := []byte("\x00asm\x01\x00\x00\x00")
	for _, s := range sections {
		wasm = append(wasm, s.id)
		wasm = binary.AppendUvarint(wasm, uint64(len(s.bytes)))
		wasm = append(wasm, s.bytes...)
	}
	return wasm
}

// countImports is how many functions the engine counts before those of the program.
// Go's programs import nothing else.
func countImports(sections []section) int {
	for _, s := range sections {
		if s.id == sectionImport {
			n, _ := binary.Uvarint(s.bytes)
			return int(n)
		}
	}
	return 0
}

type section struct {
	id    byte
	bytes []byte
}

// readSections reads all sections of a wasm, in their order.
func readSections(wasm []byte) ([]section, error) {
	if len(wasm) < wasmHeader {
		return nil, errNotLinked
	}
	var all []section
	for r := bytes.NewReader(wasm[wasmHeader:]); r.Len() > 0; {
		id, err := r.ReadByte()
		if err != nil {
			return nil, err
		}
		content, err := readBytes(r)
		if err != nil {
			return nil, err
		}
		all = append(all, section{id, content})
	}
	return all, nil
}

// piece is what memory holds from an address on when the program starts.
type piece struct {
	at    int64
	bytes []byte
}

// readPieces reads a data section: for each piece memory 0, i32.const address,
// end, its bytes.
func readPieces(section []byte) ([]piece, error) {
	r := bytes.NewReader(section)
	n, err := binary.ReadUvarint(r)
	if err != nil {
		return nil, err
	}
	var pieces []piece
	for range n {
		var p piece
		var head [2]byte
		if _, err := io.ReadFull(r, head[:]); err != nil {
			return nil, err
		}
		at, err := binary.ReadUvarint(r) // signed, but no address is below 0
		if err != nil {
			return nil, err
		}
		end, err := r.ReadByte()
		if err != nil || head != [2]byte{0, opI32Const} || end != opEnd {
			return nil, errNotLinked
		}
		p.at = int64(at)
		if p.bytes, err = readBytes(r); err != nil {
			return nil, err
		}
		pieces = append(pieces, p)
	}
	return pieces, nil
}

// readBytes reads a length and as many bytes.
func readBytes(r *bytes.Reader) ([]byte, error) {
	n, err := binary.ReadUvarint(r)
	if err != nil || n > uint64(r.Len()) {
		return nil, errNotLinked
	}
	b := make([]byte, n)
	_, err = io.ReadFull(r, b)
	return b, err
}

// join puts pieces, in any order, into one with zeros between them.
func join(pieces []piece) piece {
	slices.SortFunc(pieces, func(a, b piece) int { return cmp.Compare(a.at, b.at) })
	all := piece{at: pieces[0].at}
	for _, p := range pieces {
		all.bytes = append(all.bytes, make([]byte, p.at-all.at-int64(len(all.bytes)))...)
		all.bytes = append(all.bytes, p.bytes...)
	}
	return all
}

// section returns the data section with this piece alone.
func (p piece) section() []byte {
	s := []byte{1, 0, opI32Const}
	s = appendSigned(s, p.at)
	s = append(s, opEnd)
	s = binary.AppendUvarint(s, uint64(len(p.bytes)))
	return append(s, p.bytes...)
}

// appendSigned appends v as signed LEB128, whose last byte has the sign in its second
// bit.
func appendSigned(to []byte, v int64) []byte {
	for ; v > 0x3f || v < -0x40; v >>= 7 {
		to = append(to, byte(v&0x7f|0x80))
	}
	return append(to, byte(v&0x7f))
}
