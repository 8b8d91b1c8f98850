package wear

import (
	"fmt"
	"math"
	"math/rand"
	"testing"
)

// on returns n points of an ellipse, evenly by its parameter from start over
// the angle span.
func on(e ellipse, n int, start, span float64) []spot {
	sin, cos := math.Sincos(e.turn)
	points := make([]spot, n)
	for i := range points {
		s, c := math.Sincos(start + span*float64(i)/float64(n))
		points[i] = spot{e.x + cos*e.a*c - sin*e.b*s, e.y + sin*e.a*c + cos*e.b*s}
	}
	return points
}

// pointSets are published sets of points, with the ellipse by direct least squares and by
// least orthogonal distance. C is a worn hole in a picture, made up. The
// figures were computed with scikit-image 0.19.3 (EllipseModel, which is the fit of
// Halíř and Flusser) and SciPy 1.10.1; OpenCV 4.6 fitEllipseDirect gives the
// same to its five digits. Gander, Golub and Strebel, BIT 34 (1994), print
// 2.6996, 3.8160, 6.5187, 3.0319, 0.3596 for the orthogonal distances of B
// (quoted from memory). A has four points in the manual that it is from; the
// fifth is one more of that ellipse, for four do not tell an ellipse.
var pointSets = []struct {
	name             string
	points           []spot
	direct, shortest ellipse
	residual         float64 // root of the mean square distance from shortest; 0: not given
}{
	{name: "A two by one", points: []spot{{2, 0}, {0, 1}, {-2, 0}, {0, -1}, {math.Sqrt2, math.Sqrt2 / 2}}, direct: ellipse{x: 0, y: 0, a: 2, b: 1, turn: 0}, shortest: ellipse{x: 0, y: 0, a: 2, b: 1, turn: 0}, residual: 0},
	{name: "B Gander, Golub and Strebel", points: []spot{{1, 7}, {2, 6}, {5, 8}, {7, 7}, {9, 5}, {3, 7}, {6, 2}, {8, 4}},
		direct: ellipse{x: 5.06387772, y: 5.06975270, a: 3.77566371, b: 2.64233400, turn: 2.75547262}, shortest: ellipse{x: 2.69961391, y: 3.81595745, a: 6.51872021, b: 3.03188581, turn: 0.35962422}, residual: math.Sqrt(1.3733055398 / 8)},
	{name: "C worn hole", points: []spot{{412, 305}, {395, 352}, {356, 389}, {305, 402}, {253, 391}, {214, 357}, {197, 308}, {213, 258}, {251, 222}, {303, 208}, {354, 221}, {395, 257}},
		direct: ellipse{x: 303.81366972, y: 305.48175176, a: 106.20780965, b: 96.44385467, turn: 3.09265411}, shortest: ellipse{x: 303.82463873, y: 305.49719945, a: 106.23830962, b: 96.40964617, turn: 3.09209768}, residual: 0.89663503},
}

func sameEllipse(t *testing.T, name string, got, want ellipse, within float64) {
	t.Helper()
	turn := math.Abs(math.Remainder(got.turn-want.turn, math.Pi))
	if want.a-want.b < within*want.a {
		turn = 0 // a circle has no direction
	}
	d := max(math.Abs(got.x-want.x), math.Abs(got.y-want.y), math.Abs(got.a-want.a), math.Abs(got.b-want.b)) / want.a
	if !(max(d, turn) <= within) {
		t.Errorf("%s = %+v, want %+v within %g", name, got, want, within)
	}
}

func TestFitPublishedSets(t *testing.T) {
	for _, set := range pointSets {
		t.Run(set.name, func(t *testing.T) {
			direct, ok := fitEllipse(set.points)
			if !ok {
				t.Fatal("fitEllipse found none")
			}
			sameEllipse(t, "fitEllipse", direct, set.direct, 1e-7)
			shortest, ok := direct.refined(set.points)
			if !ok {
				t.Fatal("refined found none")
			}
			sameEllipse(t, "refined", shortest, set.shortest, 1e-6)
			if n := len(set.points); set.residual > 0 {
				near(t, "residual", shortest.residual(set.points)*math.Sqrt(float64(n-5)/float64(n)), set.residual, 1e-7)
			}
		})
	}
}

// TestFitScikitImageExample: the example in the documentation of scikit-image's
// EllipseModel, 25 points of the ellipse 10, 15, 4, 8 turned by 30°, which it
// finds again: [10, 15, 4, 8, 0.52]; it names the axes in the other order.
func TestFitScikitImageExample(t *testing.T) {
	want := newEllipse(10, 15, 4, 8, math.Pi/6)
	got, ok := fitEllipse(on(want, 25, 0, 2*math.Pi))
	if !ok {
		t.Fatal("found none")
	}
	sameEllipse(t, "fitEllipse", got, want, 1e-12)
}

// TestFitLaws: points that lie on an ellipse give that ellipse, however it
// lies and however large it is, and the ellipse goes along when the points are
// turned, shifted and scaled, also when they are scattered.
func TestFitLaws(t *testing.T) {
	for seed := range int64(300) {
		t.Run(fmt.Sprintf("seed %d", seed), func(t *testing.T) {
			r := rand.New(rand.NewSource(seed))
			a := math.Pow(10, 4*r.Float64())
			want := newEllipse(1e4*(r.Float64()-0.5), 1e4*(r.Float64()-0.5), a, a*(0.3+0.7*r.Float64()), math.Pi*r.Float64())
			points := on(want, 5+r.Intn(30), 7*r.Float64(), math.Pi*(1.2+0.8*r.Float64()))
			got, ok := fitEllipse(points)
			if !ok {
				t.Fatalf("found none through %v", points)
			}
			sameEllipse(t, "fitEllipse", got, want, 1e-6)
			if res := got.residual(points); res > 1e-5*want.a {
				t.Errorf("residual %g of points that lie on it", res)
			}

			for i := range points {
				points[i].x += 0.02 * a * r.NormFloat64()
				points[i].y += 0.02 * a * r.NormFloat64()
			}
			before, ok := fitEllipse(points)
			if !ok {
				return // scattered too far
			}
			shift, scale, turn := spot{300 * r.NormFloat64(), 300 * r.NormFloat64()}, math.Pow(10, 2*r.Float64()-1), 7*r.Float64()
			sin, cos := math.Sincos(turn)
			move := func(p spot) spot {
				return spot{shift.x + scale*(cos*p.x-sin*p.y), shift.y + scale*(sin*p.x+cos*p.y)}
			}
			moved := make([]spot, len(points))
			for i, p := range points {
				moved[i] = move(p)
			}
			after, ok := fitEllipse(moved)
			if !ok {
				t.Fatal("found none after moving the points")
			}
			centre := move(spot{before.x, before.y})
			if before.b > 0.01*before.a && before.b < 0.99*before.a {
				sameEllipse(t, "moved", after, newEllipse(centre.x, centre.y, scale*before.a, scale*before.b, before.turn+turn), 1e-5)
			}
		})
	}
}

func TestFitRefuses(t *testing.T) {
	line := []spot{}
	for i := range 12 {
		line = append(line, spot{float64(i), 3 + 2*float64(i)})
	}
	for name, points := range map[string][]spot{
		"four points":         {{0, 0}, {1, 0}, {1, 1}, {0, 1}},
		"one place":           {{5, 5}, {5, 5}, {5, 5}, {5, 5}, {5, 5}, {5, 5}},
		"a straight line":     line,
		"two places in turn":  {{0, 0}, {9, 4}, {0, 0}, {9, 4}, {0, 0}, {9, 4}},
		"larger than numbers": {{1e300, 0}, {0, 1e300}, {-1e300, 0}, {0, -1e300}, {1e300, 1e300}},
	} {
		if e, ok := fitEllipse(points); ok {
			t.Errorf("%s: fitEllipse = %+v, want none", name, e)
		}
	}
}

// TestFoot: the foot lies on the ellipse, no other point of it is nearer, and
// the straight line to it is square to the rim.
func TestFoot(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 300 {
		e := ellipse{a: 1 + r.Float64(), b: 0.2 + 0.8*r.Float64()}
		p := spot{3 * (r.Float64() - 0.5), 3 * (r.Float64() - 0.5)}
		if r.Intn(8) == 0 {
			p.y = 0
		}
		if r.Intn(8) == 0 {
			p.x = 0
		}
		f, d := e.foot(p)
		near(t, "on the rim", (f.x/e.a)*(f.x/e.a)+(f.y/e.b)*(f.y/e.b), 1, 1e-9)
		near(t, "distance", math.Abs(d), math.Hypot(p.x-f.x, p.y-f.y), 1e-9)
		for _, q := range on(e, 2000, 0, 2*math.Pi) {
			if math.Hypot(p.x-q.x, p.y-q.y) < math.Abs(d)-1e-9 {
				t.Fatalf("foot of %v on %+v is %v, but %v is nearer", p, e, f, q)
			}
		}
	}
}

// TestEigen compares with matrices whose eigenvalues are known by their making.
func TestEigen(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 300 {
		var m matrix
		for i := range 3 {
			for j := range 3 {
				m[i][j] = r.NormFloat64()
			}
		}
		inverse, ok := m.inverse()
		if !ok {
			continue
		}
		want := vector{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}
		made := m.times(matrix{{want[0], 0, 0}, {0, want[1], 0}, {0, 0, want[2]}}).times(inverse)
		got := made.eigenvalues()
		for i, w := range want {
			apart := min(math.Abs(w-want[(i+1)%3]), math.Abs(w-want[(i+2)%3]))
			size := 0.0
			for j := range 3 {
				size = max(size, math.Sqrt(dot(made[j], made[j])))
			}
			if apart < 0.05 || size > 50 {
				continue // ill-conditioned: nobody's roots are good there
			}
			nearest := math.Inf(1)
			for _, g := range got {
				nearest = min(nearest, math.Abs(g-w))
			}
			if nearest > 1e-8*size {
				t.Errorf("eigenvalues of %v = %v, want %v among them", made, got, w)
			}
			v := made.eigenvector(w)
			image := made.of(v)
			for j := range 3 {
				if math.Abs(image[j]-w*v[j]) > 1e-8*size {
					t.Errorf("eigenvector of %v for %v = %v, its image is %v", made, w, v, image)
				}
			}
		}
	}
}
