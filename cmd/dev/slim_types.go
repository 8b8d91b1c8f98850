package main

import (
	"encoding/binary"
	"maps"
	"slices"
)

// Each type has a hash, random to any packer, by which the code tells types apart where
// it has many cases, and by which the runtime finds in a table what a type does. Only
// the former needs the very number, as a constant in the code. All other hashes are taken
// out, and the start function makes others of where the types lie.

// Words of runtime.moduledata in runtime/symtab.go: where types begin and end, and the
// lists of types and of pairs of an interface and a type.
const (
	moduleTypes = 37
	moduleEnds  = 38
	moduleLinks = 45
	moduleItabs = 48
)

// Of abi.ITab in internal/abi/iface.go, and of abi.Type and what follows it in internal/abi/type.go.
const (
	itabType     = 8
	itabHash     = 16
	typeHash     = 16
	typeFlags    = 20
	typeKind     = 23
	typePointer  = 44
	typeBytes    = 48
	typeUncommon = 1
	kindMask     = 31

	uncommonBytes = 16
	uncommonCount = 4
	uncommonAt    = 8
)

const (
	// hashFactor spreads addresses: 2 to the 32th divided by the golden ratio.
	hashFactor = 0x9e3779b1
	hashShift  = 8
	hashStep   = 8   // types lie at multiples of it
	hashSkip   = 255 // so many steps on is no type
)

// newHash is what the start function makes of a type's address.
func newHash(at int) uint32 { return uint32(at) * hashFactor >> hashShift }

// typesSeen are the types that a module's lists lead to.
type typesSeen struct {
	memory      piece
	first, last int
	at          map[int]bool
	bad         bool
}

func (t *typesSeen) bytes(at, n int) []byte {
	b, err := moduleData{memory: t.memory}.between(int64(at), int64(at+n))
	if err != nil {
		t.bad = true
		return make([]byte, n)
	}
	return b
}

func (t *typesSeen) word(at int) int   { return int(binary.LittleEndian.Uint64(t.bytes(at, 8))) }
func (t *typesSeen) half(at int) int   { return int(int32(binary.LittleEndian.Uint32(t.bytes(at, 4)))) }
func (t *typesSeen) fourth(at int) int { return int(binary.LittleEndian.Uint16(t.bytes(at, 2))) }

// see walks over a type and all that it is made of.
func (t *typesSeen) see(at int) {
	if at == 0 || t.at[at] || t.bad {
		return
	}
	if at < t.first || at+typeBytes > t.last || at%hashStep != 0 {
		t.bad = true
		return
	}
	t.at[at] = true
	end := typeBytes
	words := 0 // that point to types
	var more []int
	switch kind := t.bytes(at+typeKind, 1)[0] & kindMask; kind {
	case 17: // array, and its slice
		words, end = 2, 72
	case 18: // channel
		words, end = 1, 64
	case 19: // function
		end = 56
		params := at + end
		if t.bytes(at+typeFlags, 1)[0]&typeUncommon != 0 {
			params += uncommonBytes
		}
		for i := range t.fourth(at+48) + t.fourth(at+50)&0x7fff {
			more = append(more, t.word(params+8*i))
		}
	case 20: // interface
		end = 80
		for i := range t.word(at + 64) {
			more = append(more, t.offset(t.word(at+56)+8*i+4))
		}
	case 21: // map: key, element, group
		words, end = 3, 112
	case 22, 23: // pointer, slice
		words, end = 1, 56
	case 25: // struct
		end = 80
		for i := range t.word(at + 64) {
			more = append(more, t.word(t.word(at+56)+24*i+8))
		}
	default:
		if kind == 0 || kind > 26 {
			t.bad = true
		}
	}
	for i := range words {
		more = append(more, t.word(at+typeBytes+8*i))
	}
	if t.bytes(at+typeFlags, 1)[0]&typeUncommon != 0 {
		u := at + end
		for i := range t.fourth(u + uncommonCount) {
			more = append(more, t.offset(u+t.half(u+uncommonAt)+16*i+4))
		}
	}
	more = append(more, t.offset(at+typePointer))
	for _, m := range more {
		t.see(m)
	}
}

// offset reads where a type is, from the first on; none has 0, and one left out -1.
func (t *typesSeen) offset(at int) int {
	if far := t.half(at); far > 0 {
		return t.first + far
	}
	return 0
}

// types returns where the types lie that the module's lists lead to, and its itabs.
func (m moduleData) types() (types, itabs []int, err error) {
	t := &typesSeen{memory: m.memory, first: int(m.word(moduleTypes)), last: int(m.word(moduleEnds)), at: map[int]bool{}}
	for i := range int(m.word(moduleLinks + 1)) {
		t.see(t.first + t.half(int(m.word(moduleLinks))+4*i))
	}
	for i := range int(m.word(moduleItabs + 1)) {
		itab := t.word(int(m.word(moduleItabs)) + 8*i)
		t.see(t.word(itab))
		t.see(t.word(itab + itabType))
		itabs = append(itabs, itab)
	}
	if t.bad || len(t.at) == 0 {
		return nil, nil, errOtherTable
	}
	return slices.Sorted(maps.Keys(t.at)), itabs, nil
}

// takeHashes takes the hashes that no constant of the code is out of a program's memory,
// and returns where their types lie, in steps from where the types begin.
func (m moduleData) takeHashes(constants map[uint32]bool) (steps []byte, err error) {
	types, itabs, err := m.types()
	if err != nil {
		return nil, err
	}
	take := func(at int) bool {
		hash, err := m.memory.hash(at)
		if err != nil || constants[binary.LittleEndian.Uint32(hash)] {
			return false
		}
		clear(hash)
		return true
	}
	last := m.firstType()
	for _, at := range types {
		if constants[newHash(at)] || !take(at+typeHash) {
			continue
		}
		for ; at-last >= hashSkip*hashStep; last += hashSkip * hashStep {
			steps = append(steps, hashSkip)
		}
		steps = append(steps, byte((at-last)/hashStep))
		last = at
	}
	for _, itab := range itabs { // nobody asks for another number there
		take(itab + itabHash)
	}
	return steps, nil
}

// firstType is where the first step to a type is from.
func (m moduleData) firstType() int { return int(m.word(moduleTypes)) &^ (hashStep - 1) }

// hash returns the bytes of one that lies at that address.
func (p piece) hash(at int) ([]byte, error) {
	return moduleData{memory: p}.between(int64(at), int64(at+4))
}

// readConstants returns the whole numbers that a code section names, their lower halves.
func readConstants(section []byte) (map[uint32]bool, error) {
	all := map[uint32]bool{}
	err := eachCode(section, func(_ int, code []instruction) {
		for _, c := range code {
			if c.op != opI32Const && c.op != opI64Const {
				continue
			}
			v := c.value
			if shift := 7 * (len(c.bytes) - 1); c.bytes[len(c.bytes)-1]&signBit != 0 && shift < 32 {
				v |= -1 << shift
			}
			all[uint32(v)] = true
		}
	})
	return all, err
}
