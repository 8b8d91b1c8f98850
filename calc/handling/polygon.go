package handling

import (
	"math"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Point is a corner of an outline, measured from any origin.
type Point struct{ X, Y unit.Length }

// polygon returns the area of the outline with these corners and where it
// balances:
//
//	A = ½ Σ (xᵢ·yᵢ₊₁ − xᵢ₊₁·yᵢ)     x̄ = Σ (xᵢ + xᵢ₊₁)(xᵢ·yᵢ₊₁ − xᵢ₊₁·yᵢ) / 6A
//
// and ȳ alike, for corners in either sense of turning. Fewer than three
// corners, an outline without area and one that crosses itself are refused.
// Plane geometry; no source needed.
func polygon(corners []Point) (unit.Area, Point, error) {
	if len(corners) < 3 {
		return 0, Point{}, problem.Newf(problem.Malformed, "corners", "%s: no outline", unit.Count(len(corners), "corner", "corners")).
			WithHint("Give at least three, going round: 0:0, 300mm:0, 0:200mm.")
	}
	if i, j, ok := crossing(corners); ok {
		return 0, Point{}, problem.Newf(problem.Conflict, "corners", "the side after corner %d meets the side after corner %d", i+1, j+1).
			WithHint("Give the corners in the order in which you would walk round the piece.")
	}
	area, at := shoelace(corners)
	if area < 1e-12 {
		return 0, Point{}, problem.New(problem.Malformed, "corners", "the corners lie on one line", "Measure them again: the outline has no area.")
	}
	return area, at, nil
}

// shoelace sums over the corners; see polygon.
func shoelace(corners []Point) (unit.Area, Point) {
	origin := corners[0] // sums taken from a corner lose no figures to a far origin
	var twice, mx, my float64
	for i := range corners {
		a, b := corners[i], corners[(i+1)%len(corners)]
		ax, ay := float64(a.X-origin.X), float64(a.Y-origin.Y)
		bx, by := float64(b.X-origin.X), float64(b.Y-origin.Y)
		cross := ax*by - bx*ay
		twice, mx, my = twice+cross, mx+(ax+bx)*cross, my+(ay+by)*cross
	}
	if twice == 0 {
		return 0, origin
	}
	return unit.Area(math.Abs(twice) / 2), Point{origin.X + unit.Length(mx/(3*twice)), origin.Y + unit.Length(my/(3*twice))}
}

// crossing finds two sides that meet although they are not neighbours.
func crossing(corners []Point) (i, j int, ok bool) {
	n := len(corners)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue // neighbours round the end
			}
			if meet(corners[i], corners[i+1], corners[j], corners[(j+1)%n]) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// meet reports whether the sides a–b and c–d have a point in common.
func meet(a, b, c, d Point) bool {
	o1, o2, o3, o4 := side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)
	if o1*o2 < 0 && o3*o4 < 0 {
		return true
	}
	return o1 == 0 && between(a, b, c) || o2 == 0 && between(a, b, d) || o3 == 0 && between(c, d, a) || o4 == 0 && between(c, d, b)
}

// side tells on which side of a–b the point p lies: 1, −1, or 0 on the line.
func side(a, b, p Point) int {
	v := float64(b.X-a.X)*float64(p.Y-a.Y) - float64(b.Y-a.Y)*float64(p.X-a.X)
	switch {
	case v > 1e-15:
		return 1
	case v < -1e-15:
		return -1
	}
	return 0
}

// between reports whether p, on the line of a–b, lies within it.
func between(a, b, p Point) bool {
	return min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) && min(a.Y, b.Y) <= p.Y && p.Y <= max(a.Y, b.Y)
}
