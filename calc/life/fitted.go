package life

import (
	"cmp"
	"math"

	"kerfside/calc/order"
)

// Fitted is what is thought possible of a part of some age, for drawing from.
type Fitted struct {
	age  Use
	laws Laws // shortest lives left first
}

// Fitted returns what is thought of a part of that age, new or in the torch: that it
// has lasted so long is counted in.
func (m *Model) Fitted(age Use) *Fitted {
	f := &Fitted{age: age, laws: laws(m.aged(age))}
	type place struct {
		half float64 // of the life left
		at   int
	}
	places := make([]place, len(f.laws))
	for i, l := range f.laws {
		places[i] = place{half: f.left(l, 0.5), at: i}
	}
	order.Sort(places, func(a, b place) int { return cmp.Or(cmp.Compare(a.half, b.half), cmp.Compare(a.at, b.at)) })
	sorted := make(Laws, len(places))
	for i, p := range places {
		sorted[i] = f.laws[p.at]
	}
	f.laws = sorted
	return f
}

// Laws returns what its lives may follow, those that leave it the shortest life first.
func (f *Fitted) Laws() Laws { return f.laws }

// Left is what one possible part has left: when Spent is above Minutes it is gone.
type Left struct {
	Minutes  float64 // equivalent
	PerStart float64 // what a start counts as
}

// Spent returns what a use takes of it.
func (l Left) Spent(use Use) float64 { return use.Equivalent(l.PerStart) }

// Draw returns what is left of the part, for two uniform numbers in (0, 1): u draws
// from what is not known about such parts, v the life of one of them. More comes of
// a larger v, and mostly of a larger u.
func (f *Fitted) Draw(u, v float64) Left {
	law := f.laws[len(f.laws)-1]
	for _, l := range f.laws {
		if u -= l.Weight; u < 0 {
			law = l
			break
		}
	}
	return Left{Minutes: f.left(law, v), PerStart: law.PerStart}
}

// left is the life left that is not reached with chance v.
func (f *Fitted) left(l Law, v float64) float64 {
	age := f.age.Equivalent(l.PerStart)
	return max(l.Scale*math.Pow(l.used(age)-math.Log1p(-v), 1/l.Shape)-age, 0)
}
