package main

import (
	"bytes"
	"slices"
	"testing"
)

func TestLate(t *testing.T) {
	load := func(offset byte) []byte { return []byte{opLocalGet, 1, opI64Load, 3, offset} }
	toArg := func(offset byte, value ...byte) []byte {
		return slices.Concat([]byte{opLocalGet, 1}, value, []byte{opI64Store, 3, offset})
	}
	get, set := []byte{opLocalGet, 3}, []byte{opLocalSet, 3}
	call := []byte{opI32Const, 0, opCall, 9, opGlobalGet, 0, opLocalSet, 1, opIf, noResult, opI32Const, 1, opReturn, opEnd}
	fails := []byte{opI32Const, 1, opEnd}
	end := []byte{opI32Const, 0, opReturn, opEnd}
	for name, c := range map[string]struct{ code, want [][]byte }{
		"before an end":       {[][]byte{load(48), set, toArg(0, get...), end}, [][]byte{toArg(0, load(48)...), end}},
		"before a call":       {[][]byte{load(48), set, toArg(0, get...), call, get, fails}, [][]byte{toArg(0, load(48)...), call, get, fails}},
		"before another":      {[][]byte{load(48), set, toArg(0, get...), load(8), set, toArg(0, get...), end}, [][]byte{toArg(0, load(48)...), toArg(0, load(8)...), end}},
		"used twice":          {[][]byte{load(48), set, toArg(0, get...), toArg(8, get...), end}, nil},
		"used where it jumps": {[][]byte{{opBlock, noResult}, load(48), set, toArg(0, get...), {opLocalGet, 4, opI32Wrap, opBrIf, 0}, end, get, {opDrop}, end}, nil},
		"used around a loop":  {[][]byte{{opLoop, noResult}, get, {opDrop}, load(48), set, toArg(0, get...), {opBr, 0, opEnd}, end}, nil},
		"dead around a loop":  {[][]byte{{opLoop, noResult}, load(48), set, toArg(0, get...), {opBr, 0, opEnd}, end}, [][]byte{{opLoop, noResult}, toArg(0, load(48)...), {opBr, 0, opEnd}, end}},
		"used in one case":    {[][]byte{load(48), set, toArg(0, get...), {opLocalGet, 4, opI32Wrap, opIf, noResult}, get, {opDrop, opElse, opEnd}, end}, nil},
		"used in the other":   {[][]byte{load(48), set, toArg(0, get...), {opLocalGet, 4, opI32Wrap, opIf, noResult, opElse}, get, {opDrop, opEnd}, end}, nil},
		"used behind a case":  {[][]byte{load(48), set, toArg(0, get...), {opLocalGet, 4, opI32Wrap, opIf, noResult, opEnd}, get, {opDrop}, end}, nil},
		"written over":        {[][]byte{load(48), set, toArg(48, opLocalGet, 4), toArg(0, get...), end}, nil},
		"half written over":   {[][]byte{load(48), set, toArg(44, opLocalGet, 4), toArg(0, get...), end}, nil},
		"a store beside it":   {[][]byte{load(48), set, toArg(40, opLocalGet, 4), toArg(0, get...), end}, [][]byte{toArg(40, opLocalGet, 4), toArg(0, load(48)...), end}},
		"a store elsewhere":   {[][]byte{load(48), set, {opLocalGet, 4, opI32Wrap, opLocalGet, 5, opI64Store, 3, 0}, toArg(0, get...), end}, nil},
		"a moved pointer":     {[][]byte{load(48), set, {opLocalGet, 1, opI32Const, 8, opI32Sub, opLocalSet, 1}, toArg(0, get...), end}, nil},
		"another call":        {[][]byte{load(48), set, {opCall, 9}, toArg(0, get...), end}, nil},
		"kept for nobody":     {[][]byte{{opI64Const, 7, opLocalTee, 3, opDrop}, end}, [][]byte{{opI64Const, 7, opDrop}, end}},
		"kept":                {[][]byte{{opI64Const, 7, opLocalTee, 3, opDrop}, get, {opDrop}, end}, nil},
	} {
		want := c.want
		if want == nil {
			want = c.code
		}
		code, err := readCode(bytes.Join(c.code, nil))
		if err != nil {
			t.Fatal(name, err)
		}
		if got := bytesOf(late(code)); !bytes.Equal(got, bytes.Join(want, nil)) {
			t.Errorf("%s:\n got %x\nwant %x", name, got, bytes.Join(want, nil))
		}
	}
}
