package chance

import "math"

// mostSobol is how many dimensions directions holds.
const mostSobol = 13

// directions are the primitive polynomials, as degree and inner coefficients, and the
// first direction numbers of Sobol's sequence from the second dimension on. Source: Joe
// and Kuo, Constructing Sobol sequences with better two-dimensional projections, SIAM J.
// Sci. Comput. 30 (2008), from memory.
var directions = [mostSobol - 1]struct {
	degree, inner uint
	m             []uint32
}{
	{degree: 1, inner: 0, m: []uint32{1}}, {degree: 2, inner: 1, m: []uint32{1, 3}}, {degree: 3, inner: 1, m: []uint32{1, 3, 1}},
	{degree: 3, inner: 2, m: []uint32{1, 1, 1}}, {degree: 4, inner: 1, m: []uint32{1, 1, 3, 3}}, {degree: 4, inner: 4, m: []uint32{1, 3, 5, 13}},
	{degree: 5, inner: 2, m: []uint32{1, 1, 5, 5, 17}}, {degree: 5, inner: 4, m: []uint32{1, 1, 5, 5, 5}}, {degree: 5, inner: 7, m: []uint32{1, 1, 7, 11, 19}},
	{degree: 5, inner: 11, m: []uint32{1, 1, 5, 1, 1}}, {degree: 5, inner: 13, m: []uint32{1, 1, 1, 3, 11}}, {degree: 5, inner: 14, m: []uint32{1, 3, 5, 5, 31}},
}

// Sobol returns the first n points, n a power of two, of Sobol's sequence in up to 13
// dimensions, each coordinate moved by half of 1/n into the unit interval. Each
// coordinate takes each of n even steps once, and each pair of them fills the square
// evenly; so averages over the points are off by far less than those over random ones.
func Sobol(n, dimensions int) [][]float64 {
	const bits = 32
	points := make([][]float64, n)
	for i := range points {
		points[i] = make([]float64, dimensions)
	}
	for d := range dimensions {
		var v [bits]uint32
		for i := range v {
			v[i] = 1 << (bits - 1 - i)
		}
		if d > 0 {
			p := directions[d-1]
			s := int(p.degree)
			for i := range v {
				if i < s {
					v[i] = p.m[i] << (bits - 1 - i)
					continue
				}
				v[i] = v[i-s] ^ v[i-s]>>s
				for k := 1; k < s; k++ {
					if p.inner>>(s-1-k)&1 == 1 {
						v[i] ^= v[i-k]
					}
				}
			}
		}
		x := uint32(0)
		for i := range n {
			points[i][d] = float64(x)/math.Exp2(bits) + 0.5/float64(n)
			for c, rest := 0, uint(i); ; c, rest = c+1, rest>>1 { // the lowest zero bit of i
				if rest&1 == 0 {
					x ^= v[c]
					break
				}
			}
		}
	}
	return points
}
