package wear

import (
	"cmp"
	"math"
	"slices"

	"kerfside/calc/order"
)

// spot is a place in a picture, in pixels from its upper left corner.
type spot struct{ x, y float64 }

// ellipse is an ellipse in a picture.
type ellipse struct {
	x, y float64 // centre, pixels
	a, b float64 // semi-axes, pixels, a ≥ b > 0
	turn float64 // direction of the long axis, radians in [0, π)
}

// newEllipse orders the axes and brings the turn into [0, π).
func newEllipse(x, y, a, b, turn float64) ellipse {
	if a < b {
		a, b, turn = b, a, turn+math.Pi/2
	}
	turn = math.Mod(turn, math.Pi)
	if turn < 0 {
		turn += math.Pi
	}
	if turn >= math.Pi { // −1e-17 + π
		turn = 0
	}
	return ellipse{x: x, y: y, a: a, b: b, turn: turn}
}

// own returns a place in the ellipse's own frame: centre 0, long axis along x.
func (e ellipse) own(p spot) spot {
	sin, cos := math.Sincos(e.turn)
	dx, dy := p.x-e.x, p.y-e.y
	return spot{cos*dx + sin*dy, cos*dy - sin*dx}
}

// foot returns the point of the ellipse that is nearest to p, both in its own
// frame, and the distance from it, positive outside. In the first quadrant the
// foot of (u, v) is (a²u/(s+a²), b²v/(s+b²)) with the largest root s of
//
//	(a·u/(s+a²))² + (b·v/(s+b²))² = 1
//
// which falls all the way from s = −b² on, so halving finds it (Eberly,
// Distance from a Point to an Ellipse, 2013).
func (e ellipse) foot(p spot) (spot, float64) {
	u, v := math.Abs(p.x), math.Abs(p.y)
	a, b := e.a, e.b
	var f spot
	switch {
	case v == 0 && a*u < a*a-b*b: // on the long axis, between the evolute's ends
		c := a * u / (a*a - b*b)
		f = spot{a * c, b * math.Sqrt(1-c*c)}
	case v == 0:
		f = spot{a, 0}
	default:
		low, high := b*v-b*b, math.Hypot(a*u, b*v)-b*b
		s := 0.0
		for range 200 {
			s = (low + high) / 2
			if s == low || s == high {
				break
			}
			g, h := a*u/(s+a*a), b*v/(s+b*b)
			if g*g+h*h > 1 {
				low = s
			} else {
				high = s
			}
		}
		f = spot{a * a * u / (s + a*a), b * b * v / (s + b*b)}
	}
	d := math.Hypot(u-f.x, v-f.y)
	if (u/a)*(u/a)+(v/b)*(v/b) < 1 {
		d = -d
	}
	return spot{math.Copysign(f.x, p.x), math.Copysign(f.y, p.y)}, d
}

// residual is the root mean square distance of the points from the ellipse,
// over what is left of them after five parameters.
func (e ellipse) residual(points []spot) float64 {
	sum := 0.0
	for _, p := range points {
		_, d := e.foot(e.own(p))
		sum += d * d
	}
	return math.Sqrt(sum / float64(max(len(points)-5, 1)))
}

// covered is the angle, seen from the centre and with the ellipse pressed into
// a circle, that is left when the widest gap between neighbouring points is
// taken away; radians.
func (e ellipse) covered(points []spot) float64 {
	angles := make([]float64, len(points))
	for i, p := range points {
		o := e.own(p)
		angles[i] = math.Atan2(o.y/e.b, o.x/e.a)
	}
	order.Sort(angles, cmp.Compare[float64])
	gap := angles[0] + 2*math.Pi - angles[len(angles)-1]
	for i := 1; i < len(angles); i++ {
		gap = max(gap, angles[i]-angles[i-1])
	}
	return 2*math.Pi - gap
}

// pulls returns, by columns, how far the rim moves outward under each point
// when the ellipse is shifted along its axes, stretched along each by a unit
// share, and sheared:
//
//	n·(t + S·p),  t = (k₁, k₂),  S = (k₃ k₅ / k₅ k₄)
//
// with p the foot and n the outward direction there. Unlike a turn, a shear
// still tells something when the ellipse is a circle. d is how far outside the
// points lie.
func (e ellipse) pulls(points []spot) (columns [][]float64, d []float64) {
	columns = make([][]float64, 5)
	for _, q := range points {
		p, out := e.foot(e.own(q))
		nx, ny := p.x/(e.a*e.a), p.y/(e.b*e.b)
		l := math.Hypot(nx, ny)
		nx, ny = nx/l, ny/l
		for i, v := range []float64{nx, ny, nx * p.x, ny * p.y, nx*p.y + ny*p.x} {
			columns[i] = append(columns[i], v)
		}
		d = append(d, out)
	}
	return columns, d
}

// moved returns the ellipse after the shift and stretch k of pulls.
func (e ellipse) moved(k []float64) ellipse {
	sin, cos := math.Sincos(e.turn)
	// (I+S)·diag(a², b²)·(I+S) in the ellipse's own frame; its eigenvalues are
	// the squares of the new axes.
	g, h, j := 1+k[2], 1+k[3], k[4]
	p := g*g*e.a*e.a + j*j*e.b*e.b
	q := g*j*e.a*e.a + h*j*e.b*e.b
	r := j*j*e.a*e.a + h*h*e.b*e.b
	mean, half := (p+r)/2, math.Hypot((p-r)/2, q)
	turn := math.Atan2(2*q, p-r) / 2
	return newEllipse(e.x+cos*k[0]-sin*k[1], e.y+sin*k[0]+cos*k[1],
		math.Sqrt(mean+half), math.Sqrt(max(mean-half, 0)), e.turn+turn)
}

// refined moves the ellipse to where the squares of the distances from it are
// least, by Gauss's and Newton's steps, each halved until it helps. It returns
// false if that leads nowhere, as with points that are on no ellipse.
func (e ellipse) refined(points []spot) (ellipse, bool) {
	sum := func(e ellipse) float64 {
		s := 0.0
		for _, p := range points {
			_, d := e.foot(e.own(p))
			s += d * d
		}
		return s
	}
	least := sum(e)
	for range 100 {
		columns, d := e.pulls(points)
		s, ok := fit(columns, d)
		if !ok {
			return ellipse{}, false
		}
		size := max(math.Hypot(s.coef[0], s.coef[1])/e.b, math.Abs(s.coef[2]), math.Abs(s.coef[3]), math.Abs(s.coef[4]))
		share := min(1, 0.3/size)
		better := false
		for range 30 {
			k := slices.Clone(s.coef)
			for i := range k {
				k[i] *= share
			}
			next := e.moved(k)
			if next.b > 1e-6*next.a {
				if now := sum(next); now <= least {
					better, e, least = now < least, next, now
					break
				}
			}
			share /= 2
		}
		if size < 1e-10 || !better {
			return e, size < 1e-4
		}
	}
	return ellipse{}, false
}
