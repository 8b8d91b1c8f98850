package drawing

import (
	"math"
	"testing"
)

func TestBox(t *testing.T) {
	var d Drawing
	if low, high := d.Box(); low != (Point{}) || high != (Point{}) {
		t.Errorf("the box of nothing is %v to %v, want zeros", low, high)
	}
	d.Add(Cut, Point{10, 20}, Point{30, 25})
	d.AddCircle(Metal, Point{0, 40}, 5)
	d.Fill(Kerf, Point{12, 3}, Point{13, 3}, Point{13, 4})
	low, high := d.Box()
	if low != (Point{-5, 3}) || high != (Point{30, 45}) {
		t.Errorf("the box is %v to %v, want {-5 3} to {30 45}", low, high)
	}
}

// TestArc: the ends are met, every point lies on the circle, and no chord lies
// farther from it than said.
func TestArc(t *testing.T) {
	for _, r := range []float64{0.01, 0.5, 25, 4000} {
		points := Arc(Point{3, -7}, r, 30, -250)
		end := Point{3 + r*math.Cos(-250*math.Pi/180), -7 + r*math.Sin(-250*math.Pi/180)}
		if last := points[len(points)-1]; math.Hypot(last.X-end.X, last.Y-end.Y) > 1e-9 {
			t.Errorf("radius %v: the last point is %v, want %v", r, last, end)
		}
		for i, p := range points {
			if off := math.Abs(math.Hypot(p.X-3, p.Y+7) - r); off > 1e-9*max(r, 1) {
				t.Errorf("radius %v: point %d is %v off the circle", r, i, off)
			}
			if i == 0 {
				continue
			}
			q := points[i-1]
			if sag := r - math.Hypot((p.X+q.X)/2-3, (p.Y+q.Y)/2+7); sag > Off*(1+1e-9) {
				t.Errorf("radius %v: the chord to point %d lies %v off the circle, want %v or less", r, i, sag, Off)
			}
		}
	}
}
