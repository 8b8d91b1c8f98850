package layout

import (
	"math"
	"slices"
)

// search is a branch and bound over all plans.
type search struct {
	*packing
	best  plan
	steps int
}

// branch places the i-th piece in every way that can still be better. after is the bar
// that a piece of the same length went to before: to go back from there is no new plan.
func (s *search) branch(i int, bins []bin, cost int64, after int) {
	if s.steps++; s.steps > mostSearchSteps {
		return
	}
	if i == len(s.items) {
		if p := (plan{bins: copied(bins), cost: cost}); p.better(s.best) {
			s.best = p
		}
		return
	}
	if s.best.whole() && cost+s.must(i, bins) >= s.best.cost {
		return
	}
	it := s.items[i]
	if i == 0 || s.items[i-1].size != it.size {
		after = 0
	}
	put := func(n, after int) {
		b := &bins[n]
		b.room -= it.size
		b.items = append(b.items, it)
		s.branch(i+1, bins, cost, after)
		b.items = b.items[:len(b.items)-1]
		b.room += it.size
	}
	for n := after; n < len(bins); n++ {
		if bins[n].room == it.size {
			// It fills the bar: no other place is better. Those of its length may still go to
			// bars before this one, which none of them was tried in.
			put(n, after)
			return
		}
	}
	var tried []int64
	for n := after; n < len(bins); n++ {
		if room := bins[n].room; room > it.size && !slices.Contains(tried, room) {
			tried = append(tried, room)
			put(n, n)
		}
	}
	for sort, room := range s.room {
		if room >= it.size && s.has(sort, bins) {
			opened := append(bins, bin{sort: sort, room: room - it.size, items: []item{it}})
			s.branch(i+1, opened, cost+s.cost[sort], len(bins))
		}
	}
}

// must is how much more stock the pieces from the i-th on take at least: what does not go
// into the room of open bars, at the best price of room.
func (s *search) must(i int, bins []bin) int64 {
	need, least := int64(0), s.items[len(s.items)-1].size
	for _, it := range s.items[i:] {
		need += it.size
	}
	for _, b := range bins {
		if b.room >= least {
			need -= b.room
		}
	}
	if need <= 0 {
		return 0
	}
	if s.oneSort() {
		return (need + s.room[0] - 1) / s.room[0] * s.cost[0]
	}
	price := math.Inf(1)
	for sort, room := range s.room {
		price = min(price, float64(s.cost[sort])/float64(room))
	}
	return int64(price * float64(need))
}

func copied(bins []bin) []bin {
	out := make([]bin, len(bins))
	for i, b := range bins {
		out[i] = bin{sort: b.sort, room: b.room, items: slices.Clone(b.items)}
	}
	return out
}
