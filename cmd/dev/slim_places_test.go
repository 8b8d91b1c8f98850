package main

import (
	"bytes"
	"reflect"
	"slices"
	"testing"
)

const placesNumber = firstCode + 5

// placesBody is a function that goes on at 0, at 3 behind a call and at 6, to which it
// jumps back; at 5 a call leads back that nobody stops in.
func placesBody(begins []byte, back3, back5, to byte, table ...byte) []byte {
	call := func(back byte) []byte {
		return []byte{opLocalGet, 1, opI32Const, 8, 0x6b, opLocalTee, 1, opGlobalSet, 0,
			opLocalGet, 1, opI64Const, 0x80 | back, 0x80, 0x94, 0x80, 0x01, opI64Store, 3, 0,
			opI32Const, 0, opCall, 7}
	}
	body := bytes.Join([][]byte{{1, 1, typeI32}, begins, {opBlock, noResult, opLoop, noResult, opBlock, noResult, opBlock, noResult, opBlock, noResult,
		opLocalGet, 0, opBrTable, byte(len(table) - 1)}, table, {opEnd},
		call(back3), {opBrIf, 3, opEnd},
		call(back5), {opIf, noResult, opUnreachable, opEnd, opEnd},
		{opI32Const, to, opLocalSet, 0, opBr, 0},
		{opEnd, opUnreachable, opEnd, opI32Const, 1, opEnd}}, nil)
	return body
}

func placesSection(bodies ...[]byte) []byte {
	section := []byte{byte(5 + len(bodies))}
	for range 5 { // so that the first has its number
		section = append(append(section, byte(len(emptyBody))), emptyBody...)
	}
	for _, b := range bodies {
		section = append(append(section, byte(len(b))), b...)
	}
	return section
}

func TestPlacesAreRenumbered(t *testing.T) {
	old := placesBody(stackPointer, 3, 5, 6, 0, 0, 0, 1, 1, 1, 2)
	read, err := readPlaces(placesSection(old))
	if err != nil || len(read) != 6 || read[0] != nil || read[5] == nil {
		t.Fatalf("read as %v (%v)", read, err)
	}
	numbers := read[5].numbers(map[int]bool{1: true}, 9)
	want := []int{0, 1, 1, 2, 2, 3, 4, 4, 4, 5} // 1 by the runtime's table, 3 and 6 by the code's, 5 by the call
	if !reflect.DeepEqual(numbers, want) {
		t.Errorf("numbered %v, want %v", numbers, want)
	}
	got, err := renumber(old, placesNumber, numbers)
	if want := placesBody(stackPointer, 2, 3, 4, 0, 0, 1, 1, 2); err != nil || !bytes.Equal(got, want) {
		t.Errorf("%v\n got %x\nwant %x", err, got, want)
	}
}

func TestPlacesOfOtherCodeStay(t *testing.T) {
	good := placesBody(stackPointer, 3, 5, 6, 0, 0, 0, 1, 1, 1, 2)
	for name, body := range map[string][]byte{
		"no call":                 bytes.ReplaceAll(good, []byte{opGlobalSet, 0}, []byte{opGlobalSet, 1}),
		"a place used otherwise":  bytes.ReplaceAll(good, []byte{opI64Store, 3, 0}, []byte{opI64Store, 3, 8}),
		"a number set by no jump": bytes.ReplaceAll(good, []byte{opI32Const, 6, opLocalSet, 0}, []byte{opLocalGet, 6, opLocalSet, 0}),
		"no table":                bytes.ReplaceAll(good, []byte{opLocalGet, 0, opBrTable}, []byte{opLocalGet, 1, opBrTable}),
	} {
		if bytes.Equal(body, good) {
			t.Fatalf("%s: nothing changed", name)
		}
		if read, err := readPlaces(placesSection(body)); err != nil || read[5] != nil {
			t.Errorf("%s: read as %v (%v)", name, read, err)
		}
	}
}

func TestTablesMove(t *testing.T) {
	const at, twins = 2, 2
	// 64 from 1 on, to 9; the second adds 3 until 4 and takes 2 until 9
	old := []byte{0, 0, 2, 1, 0x80, 1, 8, 0, 6, 4, 3, 5, 0}
	described := func(words ...uint32) function {
		f := make(function, funcBytes+4*(twins+len(words)))
		f.put(funcStack, at)
		f.put(funcDefer, 5)
		f.put(funcTwins, twins)
		f[funcLast] = byte(len(words))
		f.put(funcBytes+4, at+6)
		for i, w := range words {
			f.put(funcBytes+4*(twins+i), w)
		}
		return f
	}
	code := &places{table: []int{0, 0, 0, 1, 1, 1, 2}, backs: map[int]bool{3: true}, last: 6}
	var anew tablesAnew
	f := described(noWord, noWord, noWord, noWord)
	numbers, err := anew.move(f, old, code)
	if want := []int{0, 1, 1, 2, 3, 3, 4, 4, 4, 5}; err != nil || !reflect.DeepEqual(numbers, want) {
		t.Errorf("numbered %v, want %v (%v)", numbers, want, err)
	}
	if f.word(funcDefer) != 3 || f.word(funcBytes) != 0 {
		t.Errorf("described as %x", f)
	}
	second := described()
	second.put(funcBytes, at+6)
	if _, err := anew.move(second, old, code); err != nil {
		t.Fatal(err)
	}
	placed := anew.place()
	stack, other := []byte{2, 1, 0x80, 1, 0xff, 0x7f, 0}, []byte{6, 3, 3, 0xff, 0x7f, 0}
	if want := slices.Concat([]byte{0}, other, stack); !bytes.Equal(placed, want) {
		t.Errorf("the tables are %x, want the one that three have first: %x", placed, want)
	}
	for i, f := range []function{f, second} {
		if got := placed[f.word(funcBytes+4):]; !bytes.HasPrefix(got, other) {
			t.Errorf("the other table of %d is %x", i, got)
		}
		if got := placed[f.word(funcStack):]; !bytes.HasPrefix(got, stack) {
			t.Errorf("the stack's table of %d is %x", i, got)
		}
	}
	for name, its := range map[string]struct {
		f    function
		code *places
	}{
		"what was inlined where": {described(noWord, noWord, noWord, 8), code},
		"other code":             {described(), nil},
		"a place behind the end": {described(), &places{table: code.table, backs: code.backs, last: 9}},
	} {
		numbers, err := new(tablesAnew).move(its.f, old, its.code)
		if err != nil || numbers != nil || its.f.word(funcDefer) != 5 {
			t.Errorf("%s: numbered %v (%v)", name, numbers, err)
		}
	}
	for name, bad := range map[string][]byte{"cut off": old[:5], "too short": old[:1], "nothing long": {0, 0, 2, 0}} {
		if _, err := new(tablesAnew).move(described(), bad, code); err == nil {
			t.Errorf("a table %s: no error", name)
		}
	}
}
