package wear

import "math"

// vector and matrix are of three by three, which is all that the ellipse needs.
type (
	vector [3]float64
	matrix [3]vector // rows
)

func (m matrix) of(v vector) (w vector) {
	for i := range 3 {
		w[i] = m[i][0]*v[0] + m[i][1]*v[1] + m[i][2]*v[2]
	}
	return w
}

func (m matrix) times(o matrix) (p matrix) {
	for i := range 3 {
		for j := range 3 {
			p[i][j] = m[i][0]*o[0][j] + m[i][1]*o[1][j] + m[i][2]*o[2][j]
		}
	}
	return p
}

func (m matrix) turned() (t matrix) {
	for i := range 3 {
		for j := range 3 {
			t[i][j] = m[j][i]
		}
	}
	return t
}

func (m matrix) scaled(k float64) matrix {
	for i := range 3 {
		for j := range 3 {
			m[i][j] *= k
		}
	}
	return m
}

func cross(a, b vector) vector {
	return vector{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

func dot(a, b vector) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// inverse returns m⁻¹, false if the rows lie in one plane.
func (m matrix) inverse() (matrix, bool) {
	c := matrix{cross(m[1], m[2]), cross(m[2], m[0]), cross(m[0], m[1])}
	det := dot(m[0], c[0])
	size := math.Sqrt(dot(m[0], m[0]) * dot(m[1], m[1]) * dot(m[2], m[2]))
	if !(math.Abs(det) > 1e-14*size) {
		return matrix{}, false
	}
	return c.turned().scaled(1 / det), true
}

// eigenvalues returns the real roots of λ³ − t·λ² + s·λ − d = 0, t the trace, s
// the sum of the principal minors and d the determinant, by Viète's cosines
// and Cardano's roots, each mended by steps of Newton's.
func (m matrix) eigenvalues() []float64 {
	t := m[0][0] + m[1][1] + m[2][2]
	s := m[0][0]*m[1][1] - m[0][1]*m[1][0] + m[0][0]*m[2][2] - m[0][2]*m[2][0] + m[1][1]*m[2][2] - m[1][2]*m[2][1]
	d := dot(m[0], cross(m[1], m[2]))
	// λ = t/3 + z makes it z³ + p·z + q = 0.
	third := t / 3
	p := s - t*t/3
	q := -2*t*t*t/27 + t*s/3 - d
	var roots []float64
	if under := q*q/4 + p*p*p/27; under > 0 {
		w := math.Sqrt(under)
		roots = []float64{math.Cbrt(-q/2+w) + math.Cbrt(-q/2-w) + third}
	} else if p == 0 {
		roots = []float64{third}
	} else {
		r := 2 * math.Sqrt(-p/3)
		angle := math.Acos(min(1, max(-1, 3*q/(p*r)))) / 3
		for k := range 3 {
			roots = append(roots, r*math.Cos(angle-2*math.Pi*float64(k)/3)+third)
		}
	}
	for i, z := range roots {
		for range 3 {
			value, slope := ((z-t)*z+s)*z-d, (3*z-2*t)*z+s
			if next := z - value/slope; slope != 0 && math.Abs(((next-t)*next+s)*next-d) < math.Abs(value) {
				z = next
			}
		}
		roots[i] = z
	}
	return roots
}

// eigenvector returns the direction, of length 1, that m − λ takes to nothing:
// it is square to all rows, so the longest cross product of two of them.
func (m matrix) eigenvector(root float64) vector {
	for i := range 3 {
		m[i][i] -= root
	}
	var best vector
	for _, c := range []vector{cross(m[0], m[1]), cross(m[1], m[2]), cross(m[2], m[0])} {
		if dot(c, c) > dot(best, best) {
			best = c
		}
	}
	l := math.Sqrt(dot(best, best))
	if l == 0 {
		return vector{}
	}
	return vector{best[0] / l, best[1] / l, best[2] / l}
}
