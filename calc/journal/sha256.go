package journal

import (
	"encoding/binary"
	"math/bits"
)

// sha256Of is SHA-256 after FIPS 180-4, section 6.2. It serves the phone alone,
// which fetches each byte of program over the air: crypto/sha256 brings with it all
// that a validated module has, ciphers and a random generator among it.
func sha256Of(text []byte) Sum {
	h := [8]uint32{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19}
	whole := len(text) &^ 63
	for i := 0; i < whole; i += 64 {
		sha256Block(&h, text[i:i+64])
	}
	var end [128]byte // the rest, a 1, zeros, and how many bits there were
	n := 64
	if rest := copy(end[:], text[whole:]); rest > 64-9 {
		n = 128
	}
	end[len(text)-whole] = 0x80
	binary.BigEndian.PutUint64(end[n-8:], uint64(len(text))*8)
	for i := 0; i < n; i += 64 {
		sha256Block(&h, end[i:i+64])
	}
	var sum Sum
	for i, v := range h {
		binary.BigEndian.PutUint32(sum[4*i:], v)
	}
	return sum
}

// sha256Block takes the next 64 bytes into h.
func sha256Block(h *[8]uint32, block []byte) {
	var w [64]uint32
	for i := range 16 {
		b := block[4*i : 4*i+4]
		w[i] = uint32(b[0])<<24 | uint32(b[1])<<16 | uint32(b[2])<<8 | uint32(b[3])
	}
	for i := 16; i < 64; i++ {
		x, y := w[i-15], w[i-2]
		s0 := bits.RotateLeft32(x, -7) ^ bits.RotateLeft32(x, -18) ^ x>>3
		s1 := bits.RotateLeft32(y, -17) ^ bits.RotateLeft32(y, -19) ^ y>>10
		w[i] = w[i-16] + s0 + w[i-7] + s1
	}
	a, b, c, d, e, f, g, last := h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7]
	for i, k := range sha256Words {
		s1 := bits.RotateLeft32(e, -6) ^ bits.RotateLeft32(e, -11) ^ bits.RotateLeft32(e, -25)
		t1 := last + s1 + (e&f ^ ^e&g) + k + w[i]
		s0 := bits.RotateLeft32(a, -2) ^ bits.RotateLeft32(a, -13) ^ bits.RotateLeft32(a, -22)
		t2 := s0 + (a&b ^ a&c ^ b&c)
		a, b, c, d, e, f, g, last = t1+t2, a, b, c, d+t1, e, f, g
	}
	for i, v := range [8]uint32{a, b, c, d, e, f, g, last} {
		h[i] += v
	}
}

// sha256Words are the first 32 bits of the fractions of the cube roots of the first
// 64 primes: FIPS 180-4, section 4.2.2.
var sha256Words = [64]uint32{
	0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
	0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
	0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
	0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
	0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
	0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
	0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
	0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
}
