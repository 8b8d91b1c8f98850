package layout

import (
	"cmp"
	"math"
	"slices"

	"kerfside/calc/order"
	"kerfside/calc/unit"
)

// bodies are what is left once those cuts are done, from the left.
func (in ReleaseInput) bodies(done int) []Body {
	ends := []unit.Length{0, in.Length}
	freed := map[int]bool{}
	for i, c := range in.Cuts {
		switch {
		case done&(1<<i) == 0:
		case c.Holds > 0:
			freed[c.Holds-1] = true
		default:
			ends = append(ends, c.At)
		}
	}
	order.Sort(ends, cmp.Compare)
	var list []Body
	for i := 1; i < len(ends); i++ {
		list = append(list, in.body(ends[i-1], ends[i], freed))
	}
	return list
}

// body is what lies between two places, with what becomes of it.
func (in ReleaseInput) body(from, to unit.Length, freed map[int]bool) Body {
	weight, g := in.weigh(from, to)
	b := Body{From: from, To: to, Weight: weight, At: unit.Length(g.x)}
	var known []int // holds that bear from below or above, and no more
	var straps, unsure, built bool
	stands := false
	for i, h := range in.Holds {
		if freed[i] || h.At < from || h.At > to {
			continue
		}
		switch h.Kind {
		case BuiltIn:
			built = true
		case Clamp, Weld:
			unsure = true
		default:
			known = append(known, i)
			straps = straps || h.Kind == Strap
			stands = stands || h.Kind == Stand
		}
	}
	places := make([]at, len(known))
	for k, i := range known {
		places[k] = at{float64(in.Holds[i].At), float64(in.Holds[i].Across)}
	}
	carry, held := shares(places, g)
	b.Clear = unit.Length(clearance(places, g))
	if in.Hook != nil && straps && !stands && !built {
		// All hangs from one point: it is still only below that.
		off := math.Hypot(float64(in.Hook.At)-g.x, g.y)
		b.Clear = -unit.Length(off)
		if held && unit.Length(off) > in.doubt(b) {
			held, b.Tilt = false, unit.Angle(math.Atan2(off, float64(in.Hook.Height)))
		}
	}
	switch {
	case built:
		b.Fate = Stays
	case held:
		b.Fate = Held
		b.Carry = in.carried(b, known, carry)
		for _, c := range b.Carry {
			if rated := in.Holds[c.Hold].Rated; rated > 0 && max(c.High, c.Pull) > rated {
				b.Fate = Over
			}
		}
		if b.Fate == Held && (in.Hook == nil || stands) && in.leans(known) {
			b.Fate = Dragged
		}
		if b.Fate == Held && b.Clear < in.doubt(b) && (in.Hook == nil || stands) {
			b.Fate = Edge
		}
	case unsure:
		b.Fate = Unknown
	case len(known) == 0:
		b.Fate = Falls
		if in.mayDrop(from, to) {
			b.Fate = Dropped
		}
	case stands:
		b.Fate = Tips
	default:
		b.Fate = Swings
	}
	return b
}

// doubt is how far off the balance point of a body may lie.
func (in ReleaseInput) doubt(b Body) unit.Length {
	return max(leastDoubt, balanceDoubt*(b.To-b.From))
}

// carried turns shares into masses and pulls.
func (in ReleaseInput) carried(b Body, known []int, carry []span) []Carry {
	list := make([]Carry, len(known))
	for k, i := range known {
		list[k] = Carry{Hold: i, Low: b.Weight * unit.Mass(carry[k].low), High: b.Weight * unit.Mass(carry[k].high)}
		if in.Holds[i].Kind == Strap {
			if q := in.lean(in.Holds[i]); q < 90*unit.Degree {
				list[k].Pull = list[k].High / unit.Mass(math.Sin(float64(q)))
			}
		}
	}
	return list
}

// leans says whether one of these holds is a strap that is not upright.
func (in ReleaseInput) leans(holds []int) bool {
	return slices.ContainsFunc(holds, func(i int) bool { return in.Holds[i].Kind == Strap && in.lean(in.Holds[i]) < plumbFrom })
}

// lean is the angle of a strap from the horizontal.
func (in ReleaseInput) lean(h Hold) unit.Angle {
	if in.Hook == nil {
		return h.Angle
	}
	aside := math.Hypot(float64(h.At-in.Hook.At), float64(h.Across))
	return unit.Angle(math.Atan2(float64(in.Hook.Height), aside))
}

// mayDrop says whether all between two places may fall: each part of it that the cuts
// will leave is beside a cut that says so.
func (in ReleaseInput) mayDrop(from, to unit.Length) bool {
	var ends []unit.Length
	for _, c := range in.Cuts {
		if c.Holds == 0 && c.At >= from && c.At <= to {
			ends = append(ends, c.At)
		}
	}
	ends = append(ends, from, to)
	order.Sort(ends, cmp.Compare)
	ends = slices.Compact(ends)
	for i := 1; i < len(ends); i++ {
		may := false
		for _, c := range in.Cuts {
			may = may || c.Holds == 0 && (c.Drops == "right" && c.At == ends[i-1] || c.Drops == "left" && c.At == ends[i])
		}
		if !may {
			return false
		}
	}
	return true
}

// weigh returns what lies between two places and where it balances.
func (in ReleaseInput) weigh(from, to unit.Length) (unit.Mass, at) {
	even := float64(in.Weight)
	for _, l := range in.Lumps {
		even -= float64(l.Weight)
	}
	long := float64(in.Length)
	k := 0.0
	if in.Balance > 0 {
		k = 6 * (float64(in.Balance)/long - 0.5)
	}
	// The weight to the left of x, and its moment about the left end.
	sum := func(x float64) (m, mx float64) {
		u := x / long
		return even * (u - k*u + k*u*u), even * long * (u*u/2 - k*u*u/2 + 2*k*u*u*u/3)
	}
	m0, x0 := sum(float64(from))
	m1, x1 := sum(float64(to))
	m, mx := m1-m0, x1-x0
	my := m * float64(in.Across)
	for _, l := range in.Lumps {
		if l.At >= from && (l.At < to || to == in.Length && l.At == to) {
			m += float64(l.Weight)
			mx += float64(l.Weight) * float64(l.At)
			my += float64(l.Weight) * float64(l.Across)
		}
	}
	if m <= 0 {
		return 0, at{(float64(from) + float64(to)) / 2, 0}
	}
	return unit.Mass(m), at{mx / m, my / m}
}
