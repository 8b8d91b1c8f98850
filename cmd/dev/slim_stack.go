package main

import (
	"encoding/binary"
	"slices"
)

// The Go compiler names a place on the stack by five instructions,
//
//	local.get 1, i64.extend_i32_u, i64.const distance, i64.add, i32.wrap_i64
//
// where for an access, which has an offset, the first is enough: a sixth of all
// instructions go.

// tidyBody says in short what a function says at length.
func tidyBody(body []byte) ([]byte, error) {
	_, r, err := readLocals(body)
	if err != nil {
		return nil, err
	}
	code, err := readCode(r.rest)
	if err != nil {
		return nil, err
	}
	short := slices.Clone(body[:len(body)-len(r.rest)])
	code = reach(code)
	for n := 0; n != len(code); { // one makes room for the other
		n = len(code)
		code = late(merge(code))
	}
	for _, c := range code {
		short = append(short, c.bytes...)
	}
	return short, nil
}

// reach goes through code with what lies on the engine's stack: where the new code
// puts there the stack pointer for a place that is further on, and how much further.
func reach(code []instruction) (short []instruction) {
	type value struct{ at, further int }
	other := value{at: none}
	var values []value // as far down as is known
	take := func(n int) (taken []value) {
		for range n {
			v := other
			if last := len(values) - 1; last >= 0 {
				v, values = values[last], values[:last]
			}
			taken = append(taken, v)
		}
		return taken
	}
	var settled []value // for which the code has to add
	for i := 0; i < len(code); i++ {
		c := code[i]
		if further, ok := namesPlace(code[i:]); ok {
			values = append(values, value{len(short), further})
			short = append(short, c)
			i += namedBy - 1
			continue
		}
		takes, puts, straight := c.stack()
		taken := take(takes)
		if address := len(taken) - 1; c.accesses() && taken[address].at != none {
			c.offset += taken[address].further
			c.bytes = binary.AppendUvarint(binary.AppendUvarint([]byte{c.op}, uint64(c.value)), uint64(c.offset))
			taken = taken[:address]
		}
		if !straight { // what lies there is known no longer
			taken = append(taken, take(len(values))...)
		}
		for _, v := range taken {
			if v.at != none {
				settled = append(settled, v)
			}
		}
		for range puts {
			values = append(values, other)
		}
		short = append(short, c)
	}
	// from the last on, so that the places before stay
	slices.SortFunc(settled, func(a, b value) int { return b.at - a.at })
	for _, v := range settled {
		more := (&assembly{}).i32(v.further).bytes
		short = slices.Insert(short, v.at+1, instruction{op: opI32Const, value: v.further, bytes: more}, instruction{op: opI32Add, bytes: []byte{opI32Add}})
	}
	return short
}

// namedBy is how many instructions the compiler names a place by.
const namedBy = 5

// namesPlace says whether code begins with a place on the stack, and how far that is
// from where the stack pointer points.
func namesPlace(code []instruction) (further int, ok bool) {
	return code[min(2, len(code)-1)].value, len(code) >= namedBy && code[0].is(opLocalGet, localStack) && code[1].op == opI64ExtendU &&
		code[2].op == opI64Const && code[2].positive() && code[3].op == opI64Add && code[4].op == opI32Wrap
}

// positive says of a constant whether it is not negative and small enough for an offset.
func (i instruction) positive() bool {
	return len(i.bytes) <= 5 && i.bytes[len(i.bytes)-1]&signBit == 0
}

// accesses says whether it loads or stores.
func (i instruction) accesses() bool { return i.op >= opI32Load && i.op <= opLastStore }

// stack returns how many values it takes from the engine's stack and puts there, and
// whether the next instruction follows it.
func (i instruction) stack() (takes, puts int, straight bool) {
	switch op := i.op; {
	case op == opLocalGet, op == opGlobalGet, op == opMemorySize, op >= opI32Const && op <= opF64Const:
		return 0, 1, true
	case op == opLocalSet, op == opGlobalSet, op == opDrop:
		return 1, 0, true
	case op == opLocalTee, op >= opI32Load && op < opI32Store, unary(op), op == opMore && i.value <= moreUnary:
		return 1, 1, true
	case op >= opI32Store && op <= opLastStore:
		return 2, 0, true
	case op >= opI32Eqz && op <= opLastSum:
		return 2, 1, true
	case op == opSelect:
		return 3, 1, true
	case op == opMore:
		return 3, 0, true
	case op == opNop:
		return 0, 0, true
	}
	return 0, 0, false
}

// unary says whether it makes one number of one.
func unary(op byte) bool {
	for _, of := range [][2]byte{{opI32Eqz, opI32Eqz}, {opI64Eqz, opI64Eqz}, {0x67, 0x69}, {0x79, 0x7b}, {0x8b, 0x91}, {0x99, 0x9f}, {opI32Wrap, opLastSum}} {
		if op >= of[0] && op <= of[1] {
			return true
		}
	}
	return false
}

// merge says in few instructions what the compiler says in several: that half of a word
// counts, and, where a function ends, that its stack is given back, which it says for
// what it used and again for what its call did. And it leaves out what does nothing.
func merge(code []instruction) (short []instruction) {
	for i := 0; i < len(code); i++ {
		switch rest := code[i:]; {
		case rest[0].op == opNop:
		case rest[0].op == opI64Load && len(rest) > 1 && rest[1].op == opI32Wrap:
			half := instruction{op: opI32Load, value: wordAligned, offset: rest[0].offset}
			half.bytes = binary.AppendUvarint([]byte{half.op, wordAligned}, uint64(half.offset))
			short = append(short, half)
			i++
		case gives(rest):
			n, total := 0, 0
			for ; gives(rest[n:]); n += givenBy {
				total += rest[n+1].value
			}
			if end := rest[n:]; len(end) < 2 || !end[0].is(opI32Const, 0) || end[1].op != opReturn {
				short = append(short, rest[:n]...)
			} else { // nothing reads the local any more
				given := instruction{op: opI32Const, value: total, bytes: (&assembly{}).i32(total).bytes}
				short = append(short, rest[0], given, rest[2], rest[4])
			}
			i += n - 1
		default:
			short = append(short, rest[0])
		}
	}
	return short
}

// givenBy is how many instructions the compiler gives stack back by.
const givenBy = 5

// gives says whether code begins with them, and with how much of it to give.
func gives(code []instruction) bool {
	return len(code) >= givenBy && code[0].is(opLocalGet, localStack) && code[1].positive() && code[1].op == opI32Const &&
		code[2].op == opI32Add && code[3].is(opLocalTee, localStack) && code[4].is(opGlobalSet, 0)
}
