package main

import (
	"bytes"
	"testing"
)

// instructions are given as bytes; what Go writes begins with its stack pointer.
var stackPointer = []byte{opGlobalGet, 0, opLocalSet, 1}

func TestShorten(t *testing.T) {
	join := func(parts ...[]byte) []byte { return bytes.Join(parts, nil) }
	one := func(b ...byte) []byte { return b }
	block, end := one(opBlock, noResult), one(opEnd)
	jump := func(to, depth byte) []byte { return one(opI32Const, to, opLocalSet, 0, opBr, depth) }
	ifTrue := one(opLocalGet, 2, opIf, noResult)
	call := func(depth byte) []byte { return one(opI32Const, 0, opCall, 7, opBrIf, depth) }
	halt := one(0x00)
	// three places: 0 and 1 where it begins, 2 in the middle, 3 behind
	dispatch := join(block, one(opLoop, noResult), block, block, block, one(opLocalGet, 0, opBrTable, 3, 0, 0, 1, 2), end)
	leave := join(end, halt, end, one(opI32Const, 1), end)

	tests := []struct {
		name       string
		code, want []byte
	}{
		{name: "ahead, to the block that ends next and to the one behind it",
			code: join(dispatch, jump(2, 2), end, jump(3, 1), end, leave),
			want: join(dispatch, one(opBr, 0), end, one(opBr, 0), end, leave)},
		{name: "over a place",
			code: join(dispatch, jump(3, 2), end, end, leave),
			want: join(dispatch, one(opBr, 1), end, end, leave)},
		{name: "back, and to itself, by the loop as before",
			code: join(dispatch, end, jump(2, 1), end, jump(0, 0), leave),
			want: join(dispatch, end, jump(2, 1), end, jump(0, 0), leave)},
		{name: "on a condition",
			code: join(dispatch, ifTrue, jump(3, 3), end, end, end, leave),
			want: join(dispatch, one(opLocalGet, 2, opBrIf, 1), end, end, leave)},
		{name: "on a condition beside something else",
			code: join(dispatch, ifTrue, one(0x01), jump(3, 3), end, end, end, leave),
			want: join(dispatch, ifTrue, one(0x01, opBr, 2), end, end, end, leave)},
		{name: "a call that may stop",
			code: join(dispatch, call(3), end, call(2), end, leave),
			want: join(dispatch, one(opI32Const, 0, opCall, 7), stop, end, one(opI32Const, 0, opCall, 7), stop, end, leave)},
		{name: "a branch that is no stop",
			code: join(dispatch, one(opLocalGet, 2, opBrIf, 0), end, end, leave),
			want: join(dispatch, one(opLocalGet, 2, opBrIf, 0), end, end, leave)},
		{name: "a number that is read where it should not be",
			code: join(dispatch, jump(2, 2), end, one(opLocalGet, 0, opDrop), end, leave),
			want: join(dispatch, jump(2, 2), end, one(opLocalGet, 0, opDrop), end, leave)},
		{name: "a table that names the loop",
			code: join(block, one(opLoop, noResult), block, one(opLocalGet, 0, opBrTable, 1, 0, 1), end, jump(1, 0), leave),
			want: join(block, one(opLoop, noResult), block, one(opLocalGet, 0, opBrTable, 1, 0, 1), end, jump(1, 0), leave)},
		{name: "no such beginning",
			code: join(jump(2, 0), end),
			want: join(jump(2, 0), end)},
	}
	for _, test := range tests {
		for _, begin := range [][]byte{nil, stackPointer} {
			code, err := readCode(join(begin, test.code))
			if err != nil {
				t.Errorf("%s: %v", test.name, err)
				continue
			}
			if got, want := shorten(code), join(begin, test.want); !bytes.Equal(got, want) {
				t.Errorf("%s:\n got %x\nwant %x", test.name, got, want)
			}
		}
	}
}

func TestReadCodeRefuses(t *testing.T) {
	for name, code := range map[string][]byte{
		"an unknown one":         {0xd0, 0x70},
		"an unknown second code": {opMore, 12, 0},
		"a number cut off":       {opI32Const, 0x80},
		"a float cut off":        {opF64Const, 1, 2, 3},
		"a table cut off":        {opBrTable, 3, 0, 0},
		"a table without end":    {opBrTable, 0xff, 0xff, 0xff, 0xff, 0x7f},
	} {
		if _, err := readCode(code); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
