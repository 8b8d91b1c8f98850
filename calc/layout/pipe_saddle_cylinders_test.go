package layout

import (
	"math"
	"math/rand"
	"testing"
)

type vec [3]float64

func (a vec) plus(b vec, by float64) vec { return vec{a[0] + by*b[0], a[1] + by*b[1], a[2] + by*b[2]} }
func (a vec) dot(b vec) float64          { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vec) cross(b vec) vec {
	return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// ray runs from a point on a branch down along it, and returns how far it goes until it
// meets a cylinder of that radius round the x axis: by the quadratic of a ray and a
// cylinder, with no angle in it.
func ray(from, along vec, R float64) (float64, bool) {
	ax := vec{1, 0, 0}
	u, w := along.plus(ax, -along.dot(ax)), from.plus(ax, -from.dot(ax))
	a, b, c := u.dot(u), 2*u.dot(w), w.dot(w)-R*R
	root := b*b - 4*a*c
	if root < -1e-9*R*R {
		return 0, false
	}
	return (-b - math.Sqrt(max(root, 0))) / (2 * a), true
}

// TestSaddleOnBothCylinders puts the line, as it is laid flat, back round the branch, and
// sends a ray down from there: it meets the header where the line says. Of a straight cut
// no ray down the wall may meet the header above the line, and the nearest touches it.
func TestSaddleOnBothCylinders(t *testing.T) {
	r := rand.New(rand.NewSource(31))
	points := 0
	for range 300 {
		in := someSaddle(r)
		res, err := ComputeSaddle(in)
		if err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
		ro, ri, R := float64(in.Branch.OD)/2, float64(in.Branch.Bore())/2, float64(in.Header.OD)/2
		T := float64(in.Angle)
		down := vec{-math.Cos(T), -math.Sin(T), 0}
		acute := vec{math.Sin(T), -math.Cos(T), 0}
		right := acute.cross(down) // who faces the acute side, the far end up, has it at the right
		foot := vec{}.plus(right, float64(in.Offset))
		far := 40 * R
		if in.Fit == "in" {
			R = float64(in.Header.Bore()) / 2
		}
		for _, at := range res.outline(ro, 1) {
			p := at.X / 1000 / ro
			s := float64(res.ToAxis) + at.Y/1000
			out := vec{}.plus(acute, math.Cos(p)).plus(right, math.Sin(p))
			radii := []float64{ri}
			switch in.Fit {
			case "outside", "in":
				radii = []float64{ro}
			case "square":
				radii = nil
				for i := range 201 {
					radii = append(radii, ri+(ro-ri)*float64(i)/200)
				}
			}
			nearest, deepest := math.Inf(1), math.Inf(1)
			for _, radius := range radii {
				on := foot.plus(out, radius)
				run, meets := ray(on.plus(down, -far), down, R)
				if !meets {
					t.Fatalf("%+v: the ray at %.3f rad, radius %v passes the header", in, p, radius)
				}
				nearest = min(nearest, run)
				at := on.plus(down, -s)
				deepest = min(deepest, math.Hypot(at[1], at[2])-R)
			}
			points++
			between := 0.0 // of the radii that are looked at, the one that touches
			if in.Fit == "square" {
				between = 1e-4 * (ro - ri)
			}
			if deepest < -1e-9 || deepest > 1e-9+between {
				t.Fatalf("%+v: at %.3f rad the line lies %.3g m off the header", in, p, deepest)
			}
			// where a ray grazes the header's side, the root of its quadratic is only as good as this
			if off := (far - nearest) - s; math.Abs(off) > 1e-6*R+between {
				t.Fatalf("%+v: at %.3f rad the line is off by %.3g m along the branch", in, p, off)
			}
		}
	}
	t.Logf("tally: %d points of saddles put back on both pipes", points)
}

// TestHoleOnBothCylinders: each mark lies on the header's outside, and as far from the
// branch's axis as the hole's radius; the figures by tape and straight across are kept
// apart.
func TestHoleOnBothCylinders(t *testing.T) {
	r := rand.New(rand.NewSource(32))
	for range 300 {
		in := someSaddle(r)
		res, err := ComputeSaddle(in)
		if err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
		T, R := float64(in.Angle), float64(in.Header.OD)/2
		axis := vec{math.Cos(T), math.Sin(T), 0}
		right := vec{math.Sin(T), -math.Cos(T), 0}.cross(vec{}.plus(axis, -1))
		want := float64(in.Branch.Bore()) / 2
		if in.Fit == "in" {
			want = float64(in.Branch.OD) / 2
		}
		for i, m := range res.Hole.Marks {
			turned := float64(m.Round) / R // round the header from its top line
			at := vec{float64(m.Along), R * math.Cos(turned), 0}.plus(right, R*math.Sin(turned))
			if across := R * math.Sin(turned); math.Abs(across-float64(m.Across)) > 1e-9 {
				t.Fatalf("%+v: mark %d lies %v across, told %v", in, i, across, m.Across)
			}
			from := at.plus(right, -float64(in.Offset))
			beside := from.cross(axis)
			if got := math.Sqrt(beside.dot(beside)); math.Abs(got-want) > 1e-9 {
				t.Fatalf("%+v: mark %d lies %v from the branch's axis, want %v", in, i, got, want)
			}
		}
		if h := res.Hole; h.Round < h.Across-1e-12 {
			t.Fatalf("%+v: the tape reads less (%v) than the straight width (%v)", in, h.Round, h.Across)
		}
	}
}
