package wear

import "math"

// squares is a linear least-squares fit of y by columns.
type squares struct {
	coef  []float64
	sse   float64     // Σ residual²
	inner [][]float64 // (XᵀX)⁻¹
	free  int         // readings − coefficients
}

// fit solves min |y − X·k|² by Householder reflections, which keep the figures
// that XᵀX would lose. X is given by columns. It returns false if there are
// fewer readings than columns or the columns do not tell each other apart.
func fit(columns [][]float64, y []float64) (squares, bool) {
	p, n := len(columns), len(y)
	if n < p {
		return squares{}, false
	}
	q := make([][]float64, p) // turned into R above the diagonal, step by step
	for j, c := range columns {
		q[j] = append([]float64(nil), c...)
	}
	b := append([]float64(nil), y...)
	r := make([][]float64, p)
	for k := range p {
		scale := norm(columns[k])
		alpha := norm(q[k][k:])
		if !(alpha > 1e-13*scale) {
			return squares{}, false
		}
		if q[k][k] > 0 {
			alpha = -alpha
		}
		v := append([]float64(nil), q[k][k:]...)
		v[0] -= alpha
		for j := k; j < p; j++ {
			reflect(v, q[j][k:])
		}
		reflect(v, b[k:])
		q[k][k] = alpha
	}
	for i := range p {
		r[i] = make([]float64, p)
		for j := i; j < p; j++ {
			r[i][j] = q[j][i]
		}
	}
	s := squares{coef: back(r, b), inner: inverse(r), free: n - p}
	for i := range n {
		e := y[i]
		for j := range p {
			e -= s.coef[j] * columns[j][i]
		}
		s.sse += e * e
	}
	return s, true
}

// reflect turns x over the plane square to v.
func reflect(v, x []float64) {
	vv, vx := 0.0, 0.0
	for i := range v {
		vv, vx = vv+v[i]*v[i], vx+v[i]*x[i]
	}
	if vv == 0 {
		return
	}
	for i := range v {
		x[i] -= 2 * vx / vv * v[i]
	}
}

// back solves R·k = b for upper triangular R.
func back(r [][]float64, b []float64) []float64 {
	p := len(r)
	k := make([]float64, p)
	for i := p - 1; i >= 0; i-- {
		k[i] = b[i]
		for j := i + 1; j < p; j++ {
			k[i] -= r[i][j] * k[j]
		}
		k[i] /= r[i][i]
	}
	return k
}

// inverse returns (RᵀR)⁻¹ = R⁻¹·R⁻ᵀ.
func inverse(r [][]float64) [][]float64 {
	p := len(r)
	columns := make([][]float64, p) // of R⁻¹
	for j := range p {
		e := make([]float64, p)
		e[j] = 1
		columns[j] = back(r, e)
	}
	in := make([][]float64, p)
	for i := range p {
		in[i] = make([]float64, p)
		for j := range p {
			for k := range p {
				in[i][j] += columns[k][i] * columns[k][j]
			}
		}
	}
	return in
}

// leverage is h = x·(XᵀX)⁻¹·x: how far x lies from what was read.
func (s squares) leverage(x []float64) float64 { return s.cross(x, x) }

// cross is x·(XᵀX)⁻¹·y: how what is made of x and of y err together.
func (s squares) cross(x, y []float64) float64 {
	h := 0.0
	for i := range x {
		for j := range y {
			h += x[i] * s.inner[i][j] * y[j]
		}
	}
	return h
}

// deviation is the residual standard deviation, 0 with no reading to spare.
func (s squares) deviation() float64 {
	if s.free < 1 {
		return 0
	}
	return math.Sqrt(s.sse / float64(s.free))
}

// at returns k·x.
func (s squares) at(x []float64) float64 {
	v := 0.0
	for j := range x {
		v += s.coef[j] * x[j]
	}
	return v
}

// nonNegative solves min |y − X·k|² with every k ≥ 0 by trying each set of
// columns (at most three, so eight sets): exact, where an iteration would want
// watching. It returns the fit of the columns that stay above nothing and
// their numbers; with none, all k are 0. Lawson & Hanson, Solving Least Squares
// Problems.
func nonNegative(columns [][]float64, y []float64) (squares, []int) {
	best := squares{sse: norm(y) * norm(y), free: len(y)}
	var kept []int
	for set := 1; set < 1<<len(columns); set++ {
		var some [][]float64
		var numbers []int
		for j := range columns {
			if set>>j&1 == 1 {
				some, numbers = append(some, columns[j]), append(numbers, j)
			}
		}
		s, ok := fit(some, y)
		if !ok || s.sse >= best.sse {
			continue
		}
		positive := true
		for _, k := range s.coef {
			positive = positive && k > 0
		}
		if positive {
			best, kept = s, numbers
		}
	}
	return best, kept
}

func norm(x []float64) float64 {
	big := 0.0
	for _, v := range x {
		big = max(big, math.Abs(v))
	}
	if big == 0 {
		return 0
	}
	sum := 0.0
	for _, v := range x {
		sum += v / big * (v / big)
	}
	return big * math.Sqrt(sum)
}
