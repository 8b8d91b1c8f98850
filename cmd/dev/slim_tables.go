package main

import (
	"bytes"
	"encoding/binary"
	"math/bits"
)

// dropTables clears the tables of AES, which only idle functions read: random to any
// packer, they are a hundredth of what goes over the air.
func dropTables(memory []byte) {
	for _, table := range aesTables() {
		if at := bytes.Index(memory, table); at >= 0 {
			clear(memory[at : at+len(table)])
		}
	}
}

// aesTables returns the tables that crypto/internal/fips140/aes holds, as they lie in
// memory. FIPS 197: the S-box (5.1.1) and its inverse (5.3.2), and for each of four
// places in a column what becomes of it there by SubBytes and MixColumns (5.1.3), and
// by their inverses (5.3.3).
func aesTables() [][]byte {
	box, back := make([]byte, 256), make([]byte, 256)
	for x := range 256 {
		var inverse byte
		for y := range 256 {
			if gfTimes(byte(x), byte(y)) == 1 {
				inverse = byte(y)
			}
		}
		s := byte(0x63) ^ inverse
		for turn := 1; turn <= 4; turn++ {
			s ^= bits.RotateLeft8(inverse, turn)
		}
		box[x], back[s] = s, byte(x)
	}
	tables := [][]byte{box, back}
	for _, mix := range []struct {
		box    []byte
		column [4]byte
	}{{box, [4]byte{2, 1, 1, 3}}, {back, [4]byte{14, 9, 13, 11}}} {
		for place := range 4 {
			var table []byte
			for _, s := range mix.box {
				var word uint32
				for _, by := range mix.column {
					word = word<<8 | uint32(gfTimes(s, by))
				}
				table = binary.LittleEndian.AppendUint32(table, bits.RotateLeft32(word, -8*place))
			}
			tables = append(tables, table)
		}
	}
	return tables
}

// gfTimes multiplies in the field of FIPS 197, 4.2.
func gfTimes(a, b byte) byte {
	var product byte
	for ; b > 0; b >>= 1 {
		if b&1 > 0 {
			product ^= a
		}
		over := a&0x80 > 0
		a <<= 1
		if over {
			a ^= 0x1b
		}
	}
	return product
}
