package fold

import (
	"cmp"

	"kerfside/calc/order"
)

// stretch is a time in which at least one arc of a rig burnt, and the cut that it was for.
type stretch struct {
	span
	rig  string
	arcs int
	cut  string // KEY of the cut, "" if none of its arcs names one
}

// stretches returns the stretches of a timeline. Of arcs that overlap the first that
// names a cut tells whose they are: one torch makes one cut.
func (t *timeline) stretches(x *index, rig string) []stretch {
	union, arcs := t.union(), t.arcs.all()
	list := make([]stretch, 0, len(union))
	i := 0
	for k, u := range union {
		s := stretch{span: u, rig: rig}
		for ; i < len(arcs) && (k+1 == len(union) || arcs[i].start < union[k+1].start); i++ {
			if s.arcs++; s.cut == "" {
				s.cut = x.arcs[arcs[i].id].start.body.Text("cut")
			}
		}
		list = append(list, s)
	}
	return list
}

// stretches returns those of all rigs of a session, in their order.
func (s *session) stretches(x *index) []stretch {
	var all []stretch
	for rig, t := range s.timelines {
		all = append(all, t.stretches(x, rig)...)
	}
	order.Sort(all, func(a, b stretch) int { return cmp.Or(bySpan(a.span, b.span), cmp.Compare(a.rig, b.rig)) })
	return all
}
