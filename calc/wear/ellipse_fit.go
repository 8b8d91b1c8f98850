package wear

import "math"

// fitEllipse puts an ellipse through five or more points by least squares of
// the conic
//
//	F(x, y) = A·x² + B·x·y + C·y² + D·x + E·y + F0,   4·A·C − B² = 1
//
// which can only be an ellipse (Fitzgibbon, Pilu and Fisher 1999), in the
// arrangement of Halíř and Flusser 1998 that splits off the linear terms and
// leaves an eigenproblem of 3 × 3. The points are shifted and scaled to lie
// near 1 first. Scattered points give ellipses that are a little too small;
// ellipse.refined has no such bias. It returns false for points on one line
// and others that no ellipse goes through.
func fitEllipse(points []spot) (ellipse, bool) {
	n := float64(len(points))
	if n < 5 {
		return ellipse{}, false
	}
	var mx, my, size float64
	for _, p := range points {
		mx, my = mx+p.x/n, my+p.y/n
	}
	for _, p := range points {
		size += ((p.x-mx)*(p.x-mx) + (p.y-my)*(p.y-my)) / n
	}
	size = math.Sqrt(size)
	if !(size > 0) || math.IsInf(size, 0) {
		return ellipse{}, false
	}
	var s1, s2, s3 matrix
	for _, p := range points {
		x, y := (p.x-mx)/size, (p.y-my)/size
		square, plain := vector{x * x, x * y, y * y}, vector{x, y, 1}
		for i := range 3 {
			for j := range 3 {
				s1[i][j] += square[i] * square[j]
				s2[i][j] += square[i] * plain[j]
				s3[i][j] += plain[i] * plain[j]
			}
		}
	}
	s3i, ok := s3.inverse()
	if !ok {
		return ellipse{}, false
	}
	t := s3i.times(s2.turned()).scaled(-1)
	m := s2.times(t)
	for i := range 3 {
		for j := range 3 {
			m[i][j] += s1[i][j]
		}
	}
	// The inverse of the constraint's matrix only swaps and halves rows.
	m = matrix{{m[2][0] / 2, m[2][1] / 2, m[2][2] / 2}, {-m[1][0], -m[1][1], -m[1][2]}, {m[0][0] / 2, m[0][1] / 2, m[0][2] / 2}}
	best, found := vector{}, 0.0
	for _, root := range m.eigenvalues() {
		v := m.eigenvector(root)
		if c := 4*v[0]*v[2] - v[1]*v[1]; c > found {
			best, found = v, c
		}
	}
	if found <= 1e-12 {
		return ellipse{}, false
	}
	rest := t.of(best)
	e, ok := fromConic(best[0], best[1], best[2], rest[0], rest[1], rest[2])
	if !ok {
		return ellipse{}, false
	}
	return newEllipse(mx+size*e.x, my+size*e.y, size*e.a, size*e.b, e.turn), true
}

// fromConic returns the ellipse a·x² + b·x·y + c·y² + d·x + e·y + f = 0, false if
// the conic is none.
func fromConic(a, b, c, d, e, f float64) (ellipse, bool) {
	det := b*b - 4*a*c
	if !(det < 0) {
		return ellipse{}, false
	}
	x, y := (2*c*d-b*e)/det, (2*a*e-b*d)/det
	level := a*x*x + b*x*y + c*y*y + d*x + e*y + f
	p, q, r := -a/level, -b/(2*level), -c/level
	mean, half := (p+r)/2, math.Hypot((p-r)/2, q)
	if !(mean-half > 0) || math.IsInf(mean, 0) {
		return ellipse{}, false
	}
	// The long axis belongs to the smaller eigenvalue, square to the larger one's.
	turn := math.Atan2(2*q, p-r)/2 + math.Pi/2
	return newEllipse(x, y, 1/math.Sqrt(mean-half), 1/math.Sqrt(mean+half), turn), true
}
