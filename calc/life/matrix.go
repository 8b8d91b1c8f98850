package life

import "math"

// matrix is symmetric, its lower half in rows.
type matrix [][]float64

func newMatrix(n int) matrix {
	m := make(matrix, n)
	for i := range m {
		m[i] = make([]float64, i+1)
	}
	return m
}

func (m matrix) clear() {
	for _, row := range m {
		clear(row)
	}
}

func (m matrix) copy(from matrix) {
	for i, row := range from {
		copy(m[i], row)
	}
}

// cholesky turns m into its root L, m = L·Lᵀ, and returns ln det m.
func (m matrix) cholesky() float64 {
	logDet := 0.0
	for i, row := range m {
		for j := 0; j <= i; j++ {
			s := row[j]
			for k := range j {
				s -= row[k] * m[j][k]
			}
			if i == j {
				row[i] = math.Sqrt(max(s, 1e-300))
				logDet += 2 * math.Log(row[i])
			} else {
				row[j] = s / m[j][j]
			}
		}
	}
	return logDet
}

// solve turns b into x of L·Lᵀ·x = b.
func (m matrix) solve(b []float64) {
	for i, row := range m {
		for k := range i {
			b[i] -= row[k] * b[k]
		}
		b[i] /= row[i]
	}
	for i := len(m) - 1; i >= 0; i-- {
		for k := i + 1; k < len(m); k++ {
			b[i] -= m[k][i] * b[k]
		}
		b[i] /= m[i][i]
	}
}

// inverse returns all of (L·Lᵀ)⁻¹.
func (m matrix) inverse() [][]float64 {
	inv := make([][]float64, len(m))
	for i := range inv {
		inv[i] = make([]float64, len(m))
		inv[i][i] = 1
		m.solve(inv[i])
	}
	return inv
}
