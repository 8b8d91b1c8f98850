package life

import (
	"math"
	"sort"
)

// Fitted is what is thought possible of a part of some age, for drawing from.
type Fitted struct {
	age    Use
	laws   Laws // shortest lives left first
	shares shares
}

// Fitted returns what is thought of a part of that age, new or in the torch: that it
// has lasted so long is counted in.
func (m *Model) Fitted(age Use) *Fitted {
	f := &Fitted{age: age, laws: laws(m.aged(age))}
	half := make(byKey, len(f.laws)) // of the life left
	for i, l := range f.laws {
		half[i] = key{of: f.left(l, math.Ln2), at: i}
	}
	sort.Sort(half)
	sorted := make(Laws, len(half))
	for i, k := range half {
		sorted[i] = f.laws[k.at]
	}
	f.laws, f.shares = sorted, newShares(sorted)
	return f
}

// key is what a law is sorted by, and where it stood.
type key struct {
	of float64
	at int
}

type byKey []key

func (k byKey) Len() int      { return len(k) }
func (k byKey) Swap(i, j int) { k[i], k[j] = k[j], k[i] }
func (k byKey) Less(i, j int) bool {
	return k[i].of < k[j].of || k[i].of == k[j].of && k[i].at < k[j].at
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
	law := f.laws[f.shares.pick(u)]
	return Left{Minutes: f.left(law, -math.Log1p(-v)), PerStart: law.PerStart}
}

// left is the life left that wears so much, (life/scale)^shape; it has the exponential
// distribution.
func (f *Fitted) left(l Law, wear float64) float64 {
	age := f.age.Equivalent(l.PerStart)
	return max(l.Scale*math.Exp(math.Log(l.used(age)+wear)/l.Shape)-age, 0)
}
