package main

import (
	"bytes"
	"slices"
	"testing"
)

// there is how the compiler names the place on the stack so far from its pointer.
func there(distance int) []byte {
	far := (&assembly{}).i32(distance).bytes[1:]
	return slices.Concat([]byte{opLocalGet, localStack, opI64ExtendU, opI64Const}, far, []byte{opI64Add, opI32Wrap})
}

func TestReach(t *testing.T) {
	const getStack, getX = "\x20\x01", "\x20\x03"
	join := func(parts ...any) []byte {
		var code []byte
		for _, p := range parts {
			switch p := p.(type) {
			case string:
				code = append(code, p...)
			case []byte:
				code = append(code, p...)
			case int:
				code = append(code, byte(p))
			}
		}
		return code
	}
	added := func(distance int) []byte {
		return join(getStack, (&assembly{}).i32(distance).op(opI32Add).bytes)
	}
	for name, c := range map[string]struct{ code, want []byte }{
		"a load":                     {join(there(300), opI64Load, 3, 8), join(getStack, opI64Load, 3, "\xb4\x02")},
		"a store":                    {join(there(16), getX, opI64Store, 3, 0), join(getStack, getX, opI64Store, 3, 16)},
		"a copy":                     {join(there(16), there(24), opI64Load, 3, 0, opI64Store, 3, 0), join(getStack, getStack, opI64Load, 3, 24, opI64Store, 3, 16)},
		"a sum stored":               {join(there(16), getX, getX, opI64Add, opI64Store, 3, 0), join(getStack, getX, getX, opI64Add, opI64Store, 3, 16)},
		"a choice":                   {join(there(8), getX, getX, getX, opI32Wrap, opSelect, opI64Store, 3, 0), join(getStack, getX, getX, getX, opI32Wrap, opSelect, opI64Store, 3, 8)},
		"what is stored is a place":  {join(there(8), there(80), opI32Store, 2, 0), join(getStack, added(80), opI32Store, 2, 8)},
		"zeros":                      {join(there(64), opI32Const, 0, opI32Const, 8, opMore, moreFill, 0), join(added(64), opI32Const, 0, opI32Const, 8, opMore, moreFill, 0)},
		"two places for one copying": {join(there(64), there(8), opI32Const, 8, opMore, moreCopy, 0, 0), join(added(64), added(8), opI32Const, 8, opMore, moreCopy, 0, 0)},
		"in a local":                 {join(there(8), opLocalTee, 4, opI64Load, 3, 0), join(added(8), opLocalTee, 4, opI64Load, 3, 0)},
		"a branch before the store":  {join(there(8), opBlock, noResult, opEnd, getX, opI64Store, 3, 0), join(added(8), opBlock, noResult, opEnd, getX, opI64Store, 3, 0)},
		"below the pointer":          {join(there(-8), opI64Load, 3, 0), join(there(-8), opI64Load, 3, 0)},
		"of another pointer":         {join(getX, opI64Const, 8, opI64Add, opI32Wrap, opI64Load, 3, 0), join(getX, opI64Const, 8, opI64Add, opI32Wrap, opI64Load, 3, 0)},
	} {
		code, err := readCode(c.code)
		if err != nil {
			t.Fatal(name, err)
		}
		if got := bytesOf(reach(code)); !bytes.Equal(got, c.want) {
			t.Errorf("%s:\n got %x\nwant %x", name, got, c.want)
		}
	}
}

func bytesOf(code []instruction) (all []byte) {
	for _, c := range code {
		all = append(all, c.bytes...)
	}
	return all
}

func TestMerge(t *testing.T) {
	give := func(n byte) []byte {
		return []byte{opLocalGet, 1, opI32Const, n, opI32Add, opLocalTee, 1, opGlobalSet, 0}
	}
	given := func(n byte) []byte { return []byte{opLocalGet, 1, opI32Const, n, opI32Add, opGlobalSet, 0} }
	end := []byte{opI32Const, 0, opReturn}
	for name, c := range map[string]struct{ code, want []byte }{
		"half a word":               {[]byte{opLocalGet, 3, opI64Load, 3, 8, opI32Wrap}, []byte{opLocalGet, 3, opI32Load, 2, 8}},
		"a whole word":              {[]byte{opLocalGet, 3, opI64Load, 3, 8, opI64Eqz}, []byte{opLocalGet, 3, opI64Load, 3, 8, opI64Eqz}},
		"nothing":                   {[]byte{opNop, opReturn, opNop}, []byte{opReturn}},
		"the end of a leaf":         {slices.Concat(give(8), end), slices.Concat(given(8), end)},
		"the end of another":        {slices.Concat(give(40), give(8), end), slices.Concat(given(48), end)},
		"given back before the end": {slices.Concat(give(8), []byte{opEnd}, end), slices.Concat(give(8), []byte{opEnd}, end)},
		"an end that stops":         {slices.Concat(give(8), []byte{opI32Const, 1, opReturn}), slices.Concat(give(8), []byte{opI32Const, 1, opReturn})},
	} {
		code, err := readCode(c.code)
		if err != nil {
			t.Fatal(name, err)
		}
		if got := bytesOf(merge(code)); !bytes.Equal(got, c.want) {
			t.Errorf("%s:\n got %x\nwant %x", name, got, c.want)
		}
	}
}
