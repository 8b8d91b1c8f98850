package main

import "encoding/binary"

// assembly is code that we write ourselves, instruction by instruction.
type assembly struct{ bytes []byte }

func (a *assembly) op(bytes ...byte) *assembly {
	a.bytes = append(a.bytes, bytes...)
	return a
}

func (a *assembly) get(local int) *assembly { return a.op(opLocalGet, byte(local)) }
func (a *assembly) set(local int) *assembly { return a.op(opLocalSet, byte(local)) }

func (a *assembly) i32(v int) *assembly {
	a.bytes = appendSigned(append(a.bytes, opI32Const), int64(v))
	return a
}

// i64 is eight bytes as they lie in memory.
func (a *assembly) i64(eight string) *assembly {
	a.bytes = appendSigned(append(a.bytes, opI64Const), int64(binary.LittleEndian.Uint64([]byte(eight))))
	return a
}

// add adds a constant to a local.
func (a *assembly) add(local, v int) *assembly {
	return a.get(local).i32(v).op(opI32Add).set(local)
}

// at is an access to memory at an address beside that on the stack.
func (a *assembly) at(op byte, offset int) *assembly {
	a.bytes = binary.AppendUvarint(append(a.bytes, op, 0), uint64(offset))
	return a
}

func (a *assembly) call(function int) *assembly {
	a.bytes = binary.AppendUvarint(append(a.bytes, opCall), uint64(function))
	return a
}

// until repeats the body until the condition holds.
func (a *assembly) until(condition, body func()) *assembly {
	a.op(opBlock, noResult, opLoop, noResult)
	condition()
	a.op(opBrIf, 1)
	body()
	return a.op(opBr, 0, opEnd, opEnd)
}

// body returns the code as a code section has it, as a function with so many locals
// that are i32.
func (a *assembly) body(locals int) []byte {
	var body []byte
	if locals > 0 {
		body = append(body, 1, byte(locals), typeI32)
	} else {
		body = append(body, 0)
	}
	body = append(append(body, a.bytes...), opEnd)
	return append(binary.AppendUvarint(nil, uint64(len(body))), body...)
}
