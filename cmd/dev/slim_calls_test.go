package main

import (
	"bytes"
	"testing"
)

func TestShareNumber(t *testing.T) {
	join := func(parts ...[]byte) []byte { return bytes.Join(parts, nil) }
	one := func(b ...byte) []byte { return b }
	const number = firstCode + 5
	begins := join(stackPointer, one(opI64Const, 0x80, 0x80, 0x94, 0x80, 0x01, opLocalSet, 2)) // 0x1005 << 16
	// writes a place of the function, by its low byte, with so many added to the stack pointer
	writes := func(place, offset byte) []byte {
		return one(opLocalGet, 1, opI64Const, 0x80|place, 0x80, 0x94, 0x80, 0x01, opI64Store, 3, offset)
	}
	number0 := one(opLocalGet, 1, opLocalGet, 2, opI64Store, 3, 0)
	numberAnd := func(place ...byte) []byte {
		return join(one(opLocalGet, 1, opLocalGet, 2, opI64Const), place, one(opI64Or, opI64Store, 3, 0))
	}
	call := one(opI32Const, 0, opCall, 7, opDrop)
	end := one(opEnd)

	tests := []struct {
		name       string
		body, want []byte
	}{
		{name: "calls, one of which begins the function anew",
			body: join(one(1, 1, typeI32), stackPointer, writes(0, 0), call, writes(3, 0), call, end),
			want: join(one(2, 1, typeI32, 1, typeI64), begins, number0, call, numberAnd(3), call, end)},
		{name: "a place whose last byte would read as below zero",
			body: join(one(1, 1, typeI32), stackPointer, writes(0x40, 0), call, end),
			want: join(one(2, 1, typeI32, 1, typeI64), begins, numberAnd(0xc0, 0), call, end)},
		{name: "locals of its own",
			body: join(one(2, 1, typeI32, 2, typeI64), stackPointer, writes(3, 0), call, one(opLocalGet, 0, opLocalGet, 2, opLocalTee, 3, opLocalSet, 2), end),
			want: join(one(2, 1, typeI32, 3, typeI64), begins, numberAnd(3), call, one(opLocalGet, 0, opLocalGet, 3, opLocalTee, 4, opLocalSet, 3), end)},
		{name: "locals of two types",
			body: join(one(2, 1, typeI32, 2, 0x7c), stackPointer, writes(3, 0), call, one(opGlobalGet, 2, opLocalSet, 2), end),
			want: join(one(3, 1, typeI32, 1, typeI64, 2, 0x7c), begins, numberAnd(3), call, one(opGlobalGet, 2, opLocalSet, 3), end)},
	}
	for _, same := range []struct {
		name string
		body []byte
	}{
		{"without calls", join(one(1, 1, typeI32), stackPointer, end)},
		{"a number stored higher up", join(one(1, 1, typeI32), stackPointer, writes(3, 8), end)},
		{"no stack pointer", join(one(1, 1, typeI32), writes(3, 0), call, end)},
		{"a stack pointer of 64 bits", join(one(1, 1, typeI64), stackPointer, writes(3, 0), call, end)},
		{"what is slim already", tests[0].want},
	} {
		tests = append(tests, struct {
			name       string
			body, want []byte
		}{name: same.name, body: same.body, want: same.body})
	}
	for _, test := range tests {
		got, err := shareNumber(test.body, number)
		if err != nil || !bytes.Equal(got, test.want) {
			t.Errorf("%s: %v\n got %x\nwant %x", test.name, err, got, test.want)
		}
	}
	other, err := shareNumber(tests[0].body, number+1)
	if err != nil || !bytes.Equal(other, tests[0].body) {
		t.Errorf("by another function's number it became %x (%v)", other, err)
	}
}

func TestShareNumberRefuses(t *testing.T) {
	for name, body := range map[string][]byte{
		"more locals than bytes": {1, 0x7f, typeI32},
		"locals cut off":         {2, 1, typeI32},
		"an unknown instruction": {1, 1, typeI32, 0xd0, 0x70},
	} {
		if _, err := shareNumber(body, 0); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
