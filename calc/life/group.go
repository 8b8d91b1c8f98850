package life

import (
	"slices"

	"kerfside/calc/order"
)

// factor is one thing that parts differ by.
type factor struct {
	key  string
	base string // the level that others are held against, where it was seen
	of   func(Seen) string
}

var factors = [...]factor{
	{key: "metal", base: "mild-steel", of: func(s Seen) string { return s.Metal }},
	{key: "surface", base: "clean", of: func(s Seen) string { return s.Surface }},
	{key: "rig", of: func(s Seen) string { return s.Rig }},
	{key: "position", base: "flat", of: func(s Seen) string { return s.Position }},
	{key: "start", base: "edge", of: func(s Seen) string { return s.Start }},
	{key: "air", base: "dry", of: func(s Seen) string { return s.Air }},
	{key: "partner", base: "good", of: func(s Seen) string { return s.Partner }},
}

// group is the parts that were alike in one factor.
type group struct {
	factor          int // index into factors
	level           string
	parts, failures int
}

// design says which parts belong to which groups. A factor of which only one level
// was seen has none: the parts cannot tell what it does.
type design struct {
	groups []group
	only   [len(factors)]string // of each factor, its one level where there was one
}

// member is, by factor, the place of a part's group from 1 on; 0 where it has none.
type member [len(factors)]int

// groups lists the places.
func (m member) groups() (list []int) {
	for _, k := range m {
		if k > 0 {
			list = append(list, k)
		}
	}
	return list
}

func newDesign(parts []Part) (d design, members []member) {
	members = make([]member, len(parts))
	for f, factor := range factors {
		seen := map[string]*group{}
		for _, p := range parts {
			level := factor.of(p.Seen)
			if level == "" {
				continue
			}
			g := seen[level]
			if g == nil {
				g = &group{factor: f, level: level}
				seen[level] = g
			}
			g.parts++
			if p.Failed {
				g.failures++
			}
		}
		if len(seen) == 0 {
			continue
		}
		levels := order.Keys(seen)
		if len(levels) == 1 {
			d.only[f] = levels[0]
			continue
		}
		for _, level := range levels {
			d.groups = append(d.groups, *seen[level])
		}
		for i, p := range parts {
			members[i][f] = 1 + d.find(f, factor.of(p.Seen))
		}
	}
	return d, members
}

// find returns the index of a group, or −1.
func (d design) find(factor int, level string) int {
	for k, g := range d.groups {
		if g.factor == factor && g.level == level {
			return k
		}
	}
	return -1
}

// of returns how much of each group a part of that sort is, and how many spreads of
// groups are in doubt on top for what the history has not seen. What is not known of
// the part is what the crew's parts were on average.
func (d design) of(s Seen) (weights []float64, unseen float64) {
	weights = make([]float64, len(d.groups))
	for f, factor := range factors {
		level := factor.of(s)
		k := d.find(f, level)
		switch {
		case level == "":
			d.average(f, weights)
		case level == d.only[f]:
		case k >= 0:
			weights[k] = 1
		case d.only[f] != "": // the crew's average is that other level's
			unseen += 2
		case !d.tells(f) && (factor.base == "" || level == factor.base): // the prior speaks of these
		default:
			unseen++
		}
	}
	return weights, unseen
}

// tells reports whether the history has groups of a factor.
func (d design) tells(factor int) bool {
	return slices.ContainsFunc(d.groups, func(g group) bool { return g.factor == factor })
}

// average sets the weights of a factor's groups to their shares of the parts.
func (d design) average(factor int, weights []float64) {
	parts := 0.0
	for _, g := range d.groups {
		if g.factor == factor {
			parts += float64(g.parts)
		}
	}
	for k, g := range d.groups {
		if g.factor == factor {
			weights[k] = float64(g.parts) / parts
		}
	}
}
