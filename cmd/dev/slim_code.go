package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"slices"
)

// The instructions that are told apart: WebAssembly Core Specification 2.0, 5.4.
const (
	opUnreachable  = 0x00
	opNop          = 0x01
	opBlock        = 0x02
	opLoop         = 0x03
	opIf           = 0x04
	opElse         = 0x05
	opEnd          = 0x0b
	opBr           = 0x0c
	opBrIf         = 0x0d
	opBrTable      = 0x0e
	opReturn       = 0x0f
	opCall         = 0x10
	opCallIndirect = 0x11
	opDrop         = 0x1a
	opSelect       = 0x1b
	opLocalGet     = 0x20
	opLocalSet     = 0x21
	opLocalTee     = 0x22
	opGlobalGet    = 0x23
	opGlobalSet    = 0x24
	opI32Load      = 0x28 // the first that loads
	opI64Load      = 0x29
	opI32Load8U    = 0x2d
	opI32Store     = 0x36
	opI64Store     = 0x37
	opI32Store8    = 0x3a
	opLastStore    = 0x3e
	opMemorySize   = 0x3f
	opI32Const     = 0x41
	opI64Const     = 0x42
	opF32Const     = 0x43
	opF64Const     = 0x44
	opI32Eqz       = 0x45 // from here on to opLastSum nothing stands behind the code
	opI32Eq        = 0x46
	opI64Eqz       = 0x50
	opI32Add       = 0x6a
	opI32Sub       = 0x6b
	opI32Mul       = 0x6c
	opI32DivU      = 0x6e
	opI32RemU      = 0x70
	opI32And       = 0x71
	opI32ShrU      = 0x76
	opI64Add       = 0x7c
	opI64Or        = 0x84
	opI32Wrap      = 0xa7
	opI64ExtendU   = 0xad
	opLastSum      = 0xc4
	opMore         = 0xfc // begins those with a second code
	moreUnary      = 7    // the last that makes a whole number of a float
	moreCopy       = 10
	moreFill       = 11

	wordAligned = 2    // what stands first behind an access to an i32
	noResult    = 0x40 // the type of a block that leaves nothing
	typeI32     = 0x7f
	typeI64     = 0x7e
	typeFunc    = 0x60
)

// signBit of the last byte of a signed LEB128 says that it is negative.
const signBit = 0x40

var errOtherCode = errors.New("an instruction is none that the Go linker writes")

// instruction is one of them with all that stands behind its code.
type instruction struct {
	op     byte
	value  int   // what stands behind it first; a negative constant is not read right
	offset int   // what a load or store adds to its address
	table  []int // of a br_table
	bytes  []byte
}

// is says whether it is this one with this value.
func (i instruction) is(op byte, value int) bool { return i.op == op && i.value == value }

// readCode reads all instructions of a function.
func readCode(code []byte) ([]instruction, error) {
	var all []instruction
	for r := (codeReader{rest: code}); len(r.rest) > 0; {
		before := r.rest
		i := r.instruction()
		if r.failed {
			return nil, errOtherCode
		}
		i.bytes = before[:len(before)-len(r.rest)]
		all = append(all, i)
	}
	return all, nil
}

// eachCode hands on the instructions of each function of a code section.
func eachCode(section []byte, to func(i int, code []instruction)) error {
	r := bytes.NewReader(section)
	n, err := binary.ReadUvarint(r)
	if err != nil {
		return err
	}
	for i := range int(n) {
		body, err := readBytes(r)
		if err != nil {
			return err
		}
		_, c, err := readLocals(body)
		if err != nil {
			return err
		}
		code, err := readCode(c.rest)
		if err != nil {
			return err
		}
		to(i, code)
	}
	return nil
}

type codeReader struct {
	rest   []byte
	failed bool
}

func (r *codeReader) instruction() instruction {
	i := instruction{op: r.byte()}
	switch op := i.op; {
	case op >= opI32Eqz && op <= opLastSum, op < opBlock, op == opElse, op == opEnd, op == opReturn, op == opDrop, op == opSelect:
	case op <= opIf, op == opBr, op == opBrIf, op == opCall, op >= opLocalGet && op <= opGlobalSet, op >= opMemorySize && op <= opI64Const:
		i.value = r.number()
	case op >= opI32Load && op <= opLastStore, op == opCallIndirect:
		i.value = r.number()
		i.offset = r.number()
	case op == opF32Const:
		r.skip(4)
	case op == opF64Const:
		r.skip(8)
	case op == opBrTable:
		for n := r.number(); n >= 0 && !r.failed; n-- {
			i.table = append(i.table, r.number())
		}
	case op == opMore:
		i.value = r.number()
		switch more := i.value; {
		case more <= moreUnary:
		case more == moreCopy: // memory
			r.skip(2)
		case more == moreFill:
			r.skip(1)
		default:
			r.failed = true
		}
	default:
		r.failed = true
	}
	return i
}

func (r *codeReader) skip(n int) {
	if n > len(r.rest) {
		r.failed, n = true, len(r.rest)
	}
	r.rest = r.rest[n:]
}

func (r *codeReader) byte() byte {
	if len(r.rest) == 0 {
		r.failed = true
		return 0
	}
	b := r.rest[0]
	r.skip(1)
	return b
}

// number reads LEB128 of either kind.
func (r *codeReader) number() int {
	v := 0
	for shift := 0; ; shift += 7 {
		b := r.byte()
		v |= int(b&0x7f) << shift
		if b < 0x80 {
			return v
		}
	}
}

// slimCode shortens each function of a code section, has its calls share its number,
// and empties those that are idle.
func slimCode(section []byte, idle map[int]bool, numbers map[int][]int) ([]byte, error) {
	r := bytes.NewReader(section)
	n, err := binary.ReadUvarint(r)
	if err != nil {
		return nil, err
	}
	slim := binary.AppendUvarint(nil, n)
	for i := range int(n) {
		body, err := readBytes(r)
		if err != nil {
			return nil, err
		}
		if numbers[i] != nil {
			if body, err = renumber(body, firstCode+i, numbers[i]); err != nil {
				return nil, err
			}
		}
		if idle[i] {
			body = emptyBody
		} else if body, err = shortenBody(body); err != nil {
			return nil, err
		} else if body, err = shareNumber(body, firstCode+i); err != nil {
			return nil, err
		} else if body, err = tidyBody(body); err != nil {
			return nil, err
		}
		slim = binary.AppendUvarint(slim, uint64(len(body)))
		slim = append(slim, body...)
	}
	return slim, nil
}

// emptyBody is a function that ends the program: no locals, unreachable, end.
var emptyBody = []byte{0, opUnreachable, opEnd}

// shortenBody shortens a function behind the declaration of its locals.
func shortenBody(body []byte) ([]byte, error) {
	_, r, err := readLocals(body)
	if err != nil {
		return nil, err
	}
	code, err := readCode(r.rest)
	if err != nil {
		return nil, err
	}
	locals := len(body) - len(r.rest)
	return append(slices.Clone(body[:locals]), shorten(code)...), nil
}
