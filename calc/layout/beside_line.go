package layout

import (
	"math"

	"kerfside/calc/drawing"
)

// besideLine returns the line that runs so far to the right of one, in the direction in
// which its points follow. At a kink it goes no further out than twice that.
func besideLine(line []drawing.Point, by float64) []drawing.Point {
	normal := func(a, b drawing.Point) drawing.Point {
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		if l == 0 {
			return drawing.Point{}
		}
		return drawing.Point{X: (b.Y - a.Y) / l, Y: (a.X - b.X) / l}
	}
	out := make([]drawing.Point, len(line))
	last := len(line) - 1
	closed := math.Hypot(line[0].X-line[last].X, line[0].Y-line[last].Y) < 1e-6
	for i, p := range line {
		before, after := max(i-1, 0), min(i+1, last)
		if closed && i == 0 {
			before = last - 1
		}
		if closed && i == last {
			after = 1
		}
		n, m := normal(line[before], p), normal(p, line[after])
		if before == i {
			n = m
		}
		if after == i {
			m = n
		}
		sum := drawing.Point{X: n.X + m.X, Y: n.Y + m.Y}
		if long := math.Hypot(sum.X, sum.Y); long > 0 {
			// both halves are as far off where the middle one is 1/cos of half the bend
			reach := by / long * min(2/long, 2)
			out[i] = drawing.Point{X: p.X + sum.X*reach, Y: p.Y + sum.Y*reach}
			continue
		}
		out[i] = p
	}
	return out
}

// band is the area between a line and one beside it.
func band(line, beside []drawing.Point) []drawing.Point {
	area := append([]drawing.Point{}, line...)
	for i := len(beside) - 1; i >= 0; i-- {
		area = append(area, beside[i])
	}
	return area
}
