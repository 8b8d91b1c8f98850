package layout

import (
	"math"
)

// clearance is how far g lies from tipping over the supports, metres, and over which: the
// distance to the nearest edge of the outline round them, negative outside. Of supports in
// line it is that along the line.
func clearance(supports []at, g at) float64 {
	if len(supports) == 0 {
		return math.Inf(-1)
	}
	inLine := true
	for _, p := range supports[1:] {
		for _, q := range supports[1:] {
			a := supports[0]
			if math.Abs((p.x-a.x)*(q.y-a.y)-(q.x-a.x)*(p.y-a.y)) > 1e-9 {
				inLine = false
			}
		}
	}
	least := math.Inf(1)
	if inLine {
		// Along the line from the first support to the farthest from it.
		a, b := supports[0], supports[0]
		for _, p := range supports {
			if math.Hypot(p.x-a.x, p.y-a.y) > math.Hypot(b.x-a.x, b.y-a.y) {
				b = p
			}
		}
		long := math.Hypot(b.x-a.x, b.y-a.y)
		if long == 0 {
			return -math.Hypot(g.x-a.x, g.y-a.y)
		}
		along := func(p at) float64 { return ((p.x-a.x)*(b.x-a.x) + (p.y-a.y)*(b.y-a.y)) / long }
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range supports {
			low, high = min(low, along(p)), max(high, along(p))
		}
		if off := math.Abs((g.x-a.x)*(b.y-a.y)-(g.y-a.y)*(b.x-a.x)) / long; off > 1e-9 {
			return -off
		}
		return min(along(g)-low, high-along(g))
	}
	for i, p := range supports {
		for j, q := range supports {
			if i == j {
				continue
			}
			dx, dy := q.x-p.x, q.y-p.y
			long := math.Hypot(dx, dy)
			left := func(o at) float64 { return (dx*(o.y-p.y) - dy*(o.x-p.x)) / long }
			edge := true // of the outline: all others lie to its left
			for _, o := range supports {
				edge = edge && left(o) >= -1e-9
			}
			if edge {
				least = min(least, left(g))
			}
		}
	}
	return least
}
