package store

import (
	"encoding/binary"
	"hash/fnv"
)

// filter tells of an id that it is certainly not among those that were added, or
// that it may be: a Bloom filter (Bloom 1970) with 16 bits for each id, of which
// an id sets 8. Of ids that are not there one in some 1,700 may be.
type filter []byte

const (
	filterBits  = 16 // for each id
	filterTries = 8  // bits of each id
)

// newFilter returns a filter for so many ids. Its bits are a power of two, 64 at
// least.
func newFilter(ids int) filter {
	bits := 64
	for bits < ids*filterBits {
		bits *= 2
	}
	return make(filter, bits/8)
}

// hashOf returns the two numbers that a filter knows an id by.
func hashOf(id string) (h [2]uint64) {
	f := fnv.New128a()
	f.Write([]byte(id))
	var sum [16]byte
	f.Sum(sum[:0])
	h[0], h[1] = binary.BigEndian.Uint64(sum[:8]), binary.BigEndian.Uint64(sum[8:])
	for i := range h { // FNV mixes the upper bits of short texts little; the finaliser of SplitMix64 does
		h[i] = (h[i] ^ h[i]>>30) * 0xbf58476d1ce4e5b9
		h[i] = (h[i] ^ h[i]>>27) * 0x94d049bb133111eb
		h[i] ^= h[i] >> 31
	}
	return h
}

// bitOf returns the i-th bit of a hash among so many bits, a power of two: both
// numbers together make all of them (Kirsch and Mitzenmacher 2006).
func bitOf(h [2]uint64, i int, bits int) int {
	return int((h[0] + uint64(i)*(h[1]|1)) & uint64(bits-1))
}

func (f filter) add(h [2]uint64) {
	for i := range filterTries {
		at := bitOf(h, i, 8*len(f))
		f[at/8] |= 1 << (at % 8)
	}
}

// bytes returns the filter as it is stored, with a sum at its end.
func (f filter) bytes() []byte {
	return binary.LittleEndian.AppendUint64(append(make([]byte, 0, len(f)+8), f...), sumOf(f))
}

// readFilter reads what bytes wrote; nil if that is damaged.
func readFilter(b []byte) filter {
	n := len(b) - 8
	if n < 8 || n&(n-1) != 0 || binary.LittleEndian.Uint64(b[n:]) != sumOf(b[:n]) {
		return nil
	}
	return filter(b[:n:n])
}

func sumOf(b []byte) uint64 {
	h := fnv.New64a()
	h.Write(b)
	return h.Sum64()
}

// shelf holds up to 16 filters of one size, which are asked at once: for each bit
// it says in which of them that is set. So an id costs a handful of looks into
// memory for all of them and not for each.
type shelf struct {
	bits    []uint16
	filters int
}

const shelfSize = 16

// takes reports whether there is room for a filter.
func (s *shelf) takes(f filter) bool { return s.filters < shelfSize && len(s.bits) == 8*len(f) }

// put adds a filter.
func (s *shelf) put(f filter) {
	for i, b := range f {
		for bit := range 8 {
			s.bits[8*i+bit] |= uint16(b>>bit&1) << s.filters
		}
	}
	s.filters++
}

// may returns the set of filters, by number, whose ids that one may be among.
func (s *shelf) may(h [2]uint64) uint16 {
	set := ^uint16(0)
	for i := 0; i < filterTries && set != 0; i++ {
		set &= s.bits[bitOf(h, i, len(s.bits))]
	}
	return set
}
