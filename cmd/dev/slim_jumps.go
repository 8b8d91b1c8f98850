package main

import (
	"encoding/binary"
	"slices"
)

// A function as the Go compiler writes it (cmd/internal/obj/wasm) can go on at
// several places: where it is jumped to, and behind each call, since a goroutine
// stops by leaving all functions. So it begins with
//
//	block             left with 1 when the goroutine stops; if there are calls
//	  loop            if there are jumps
//	    block … block one more than there are places: each ends where one is
//	      local.get 0
//	      br_table    to the place with the number in local 0
//	    end
//
// and a jump is `i32.const number, local.set 0, br loop`. But while the block that
// ends at the place is still open, a branch to its end gets there at once, and is
// faster too. And a stop behind a call is `br_if block`, whose depth is another one
// behind each call, which packs badly: the same is said by a return that reads alike
// everywhere.

// begin is how a function begins.
type begin struct {
	code         []instruction
	unwind, loop int // where these stand, or none
	first, last  int // of the blocks
	table        []int
	open         []int // where the blocks stand that are open at the instruction at hand
}

const none = -1

// stop is left for `br_if unwind`: if, i32.const 1, return, end.
var stop = []byte{opIf, noResult, opI32Const, 1, opReturn, opEnd}

// shorten returns the code with jumps ahead made branches and stops made returns. A
// function without such a beginning stays as it is.
func shorten(code []instruction) []byte {
	b, begun := readBegin(code)
	var short []byte
	for i := 0; i < len(code); i++ {
		c := code[i]
		if begun {
			if c.is(opIf, noResult) && i+4 < len(code) && code[i+4].op == opEnd {
				if depth, ok := b.ahead(i+1, 1); ok {
					short = branch(short, opBrIf, depth)
					i += 4
					continue
				}
			}
			if depth, ok := b.ahead(i, 0); ok {
				short = branch(short, opBr, depth)
				i += 2
				continue
			}
			if b.unwind != none && c.is(opBrIf, b.depth(b.unwind)) {
				short = append(short, stop...)
				continue
			}
		}
		switch c.op {
		case opBlock, opLoop, opIf:
			b.open = append(b.open, i)
		case opEnd:
			if len(b.open) > 0 { // else it is the function's own
				b.open = b.open[:len(b.open)-1]
			}
		}
		short = append(short, c.bytes...)
	}
	return short
}

func branch(to []byte, op byte, depth int) []byte {
	return binary.AppendUvarint(append(to, op), uint64(depth))
}

// readBegin reads how a function begins, if it does so.
func readBegin(code []instruction) (b begin, begun bool) {
	b = begin{code: code, unwind: none, loop: none}
	at := func(i int) instruction {
		if i < 0 || i >= len(code) {
			return instruction{}
		}
		return code[i]
	}
	i := 0
	if at(0).is(opGlobalGet, 0) && at(1).op == opLocalSet { // the stack pointer
		i = 2
	}
	n := len(code)
	if at(i).is(opBlock, noResult) && at(n-3).op == opEnd && at(n-2).is(opI32Const, 1) {
		b.unwind = i
		i++
	}
	if at(i).is(opLoop, noResult) {
		b.loop = i
		i++
	}
	b.first = i
	for at(i).is(opBlock, noResult) {
		i++
	}
	b.last = i - 1
	b.table = at(i + 1).table
	if !at(i).is(opLocalGet, 0) || at(i+1).op != opBrTable || at(i+2).op != opEnd || slices.Max(b.table) > b.last-b.first {
		return b, false
	}
	for k := i + 2; k < n; k++ {
		// an indirect call keeps its target in local 0; nobody else may read it
		if code[k].is(opLocalGet, 0) && !(code[k-1].is(opI32Const, 0) && code[k-2].is(opLocalSet, 0)) {
			return b, false
		}
	}
	return b, true
}

// depth is how a branch names an open block.
func (b *begin) depth(block int) int {
	return len(b.open) - 1 - slices.Index(b.open, block)
}

// ahead says whether at i, in more blocks than are open, stands a jump to a place
// further on, and how a branch from here names the block that ends there.
func (b *begin) ahead(i, more int) (depth int, ok bool) {
	if b.loop == none || i+2 >= len(b.code) {
		return 0, false
	}
	number, set, br := b.code[i], b.code[i+1], b.code[i+2]
	if number.op != opI32Const || !set.is(opLocalSet, 0) || !br.is(opBr, b.depth(b.loop)+more) {
		return 0, false
	}
	block := b.last - b.table[min(number.value, len(b.table)-1)]
	return b.depth(block), slices.Contains(b.open, block)
}
