package life

import "math"

// matrix is symmetric, its lower half row by row.
type matrix []float64

func newMatrix(n int) matrix { return make(matrix, n*(n+1)/2) }

// row returns row i, up to the diagonal.
func (m matrix) row(i int) []float64 { return m[i*(i+1)/2:][: i+1 : i+1] }

// cholesky turns m into its root L, m = L·Lᵀ.
func (m matrix) cholesky() {
	for i, from := 0, 0; from < len(m); i++ {
		row := m[from : from+i+1]
		for j, start := 0, 0; j <= i; j++ {
			s, other := row[j], m[start:start+j]
			before := row[:len(other)]
			for k, x := range other {
				s -= x * before[k]
			}
			if i == j {
				row[i] = math.Sqrt(max(s, 1e-300))
			} else {
				row[j] = s / m[start+j]
			}
			start += j + 1
		}
		from += i + 1
	}
}

// logDet is ln det of what m is the root of.
func (m matrix) logDet() float64 {
	sum := 0.0
	for i, at := 0, 0; at < len(m); i++ {
		sum += 2 * math.Log(m[at])
		at += i + 2
	}
	return sum
}

// halfSolve turns b into x of L·x = b.
func (m matrix) halfSolve(b []float64) {
	for i := range b {
		row := m.row(i)
		s, before := b[i], b[:i]
		for k, x := range row[:len(before)] {
			s -= x * before[k]
		}
		b[i] = s / row[i]
	}
}

// solve turns b into x of L·Lᵀ·x = b.
func (m matrix) solve(b []float64) {
	m.halfSolve(b)
	for i := len(b) - 1; i >= 0; i-- {
		row := m.row(i)
		b[i] /= row[i]
		at, before := b[i], b[:i]
		for k, x := range row[:len(before)] {
			before[k] -= x * at
		}
	}
}

// variance returns bᵀ·(L·Lᵀ)⁻¹·b, and makes use of b.
func (m matrix) variance(b []float64) float64 {
	m.halfSolve(b)
	sum := 0.0
	for _, x := range b {
		sum += x * x
	}
	return sum
}
