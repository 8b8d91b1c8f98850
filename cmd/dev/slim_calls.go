package main

import (
	"encoding/binary"
	"slices"
)

// Before each call a function writes to the stack where it goes on after it: 16 bits
// for the place and above them the number of the function. As constants those are all
// different, so they pack badly. So the number is put into a local where the function
// begins, and each call takes that with its own place: an engine that optimizes makes
// one constant of both again.

const (
	placeBits = 16

	localPlace  = 0 // where a function is to go on, its one parameter
	localStack  = 1 // the stack pointer, the first that it declares
	localNumber = 2 // the number of the function, which is put in between
)

// shareNumber returns a function's body with its number in a local, if it makes
// calls. The number is what other functions call it by.
func shareNumber(body []byte, number int) ([]byte, error) {
	types, r, err := readLocals(body)
	if err != nil {
		return nil, err
	}
	code, err := readCode(r.rest)
	if err != nil {
		return nil, err
	}
	calls := false
	for i := range code {
		calls = calls || goesOn(code, i, number)
	}
	ordinary := len(code) > 1 && code[0].is(opGlobalGet, 0) && code[1].is(opLocalSet, localStack)
	if !calls || !ordinary || len(types) == 0 || types[0] != typeI32 {
		return body, nil
	}
	short := appendLocals(nil, slices.Insert(types, 1, typeI64))
	for i, c := range code {
		switch place := c.value & (1<<placeBits - 1); {
		case goesOn(code, i, number):
			short = append(short, opLocalGet, localNumber)
			if place > 0 {
				short = append(appendSigned(append(short, opI64Const), int64(place)), opI64Or)
			}
		case c.op >= opLocalGet && c.op <= opLocalTee && c.value >= localNumber:
			short = binary.AppendUvarint(append(short, c.op), uint64(c.value+1))
		default:
			short = append(short, c.bytes...)
		}
		if i == 1 { // behind the stack pointer
			short = appendSigned(append(short, opI64Const), int64(number)<<placeBits)
			short = append(short, opLocalSet, localNumber)
		}
	}
	return short, nil
}

// goesOn says whether at i a place of the function with this number is written to
// where the stack pointer points.
func goesOn(code []instruction, i, number int) bool {
	return i > 0 && i+1 < len(code) && code[i].op == opI64Const && code[i].value>>placeBits == number &&
		code[i-1].is(opLocalGet, localStack) && code[i+1].op == opI64Store && code[i+1].offset == 0
}

// readLocals reads the types of a body's locals, one by one, and returns the reader at
// its code.
func readLocals(body []byte) (types []byte, r codeReader, err error) {
	r = codeReader{rest: body}
	for range r.number() {
		n := r.number()
		t := r.byte()
		if r.failed || n > len(body) {
			return nil, r, errOtherCode
		}
		types = append(types, slices.Repeat([]byte{t}, n)...)
	}
	return types, r, nil
}

// appendLocals appends the declaration of locals of these types.
func appendLocals(to, types []byte) []byte {
	var runs []byte
	n := 0
	for i := 0; i < len(types); n++ {
		from := i
		for i < len(types) && types[i] == types[from] {
			i++
		}
		runs = append(binary.AppendUvarint(runs, uint64(i-from)), types[from])
	}
	return append(binary.AppendUvarint(to, uint64(n)), runs...)
}
