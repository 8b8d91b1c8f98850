package layout

import (
	"slices"
)

// opens returns the sort of bar to open for a piece: the shortest that is limited, for
// off-cuts go first, else the longest; -1 for none.
func (p *packing) opens(size int64, used []bin) int {
	best := -1
	for sort, room := range p.room {
		if room < size || !p.has(sort, used) {
			continue
		}
		switch limited := p.in.Stock[sort].Count > 0; {
		case best < 0:
			best = sort
		case limited != (p.in.Stock[best].Count > 0):
			if limited {
				best = sort
			}
		case limited == (room < p.room[best]):
			best = sort
		}
	}
	return best
}

// firstFit puts each piece, longest first, into the first bar with room.
func (p *packing) firstFit() plan {
	var out plan
	for _, it := range p.items {
		i := slices.IndexFunc(out.bins, func(b bin) bool { return b.room >= it.size })
		if i < 0 {
			sort := p.opens(it.size, out.bins)
			if sort < 0 {
				out.left = append(out.left, it)
				continue
			}
			out.bins = append(out.bins, bin{sort: sort, room: p.room[sort]})
			out.cost += p.cost[sort]
			i = len(out.bins) - 1
		}
		out.bins[i].room -= it.size
		out.bins[i].items = append(out.bins[i].items, it)
	}
	return out
}

// fullest fills one bar after the other as full as can be, each with the longest piece
// that is left.
func (p *packing) fullest() plan {
	var out plan
	rest := slices.Clone(p.items)
	for len(rest) > 0 {
		sort := p.opens(rest[0].size, out.bins)
		if sort < 0 {
			out.left = append(out.left, rest[0])
			rest = rest[1:]
			continue
		}
		f := filling{items: rest[1:], room: p.room[sort] - rest[0].size}
		f.best = f.room + 1
		f.pick(0, f.room, nil)
		b := bin{sort: sort, room: f.best, items: []item{rest[0]}}
		if f.best > f.room {
			b.room = f.room
		}
		var others []item
		for i, it := range rest[1:] {
			if slices.Contains(f.picked, i) {
				b.items = append(b.items, it)
			} else {
				others = append(others, it)
			}
		}
		out.bins, out.cost, rest = append(out.bins, b), out.cost+p.cost[sort], others
	}
	return out
}

// filling looks for the pieces that leave the least room.
type filling struct {
	items  []item
	room   int64
	best   int64
	picked []int
	steps  int
}

// mostFillSteps is how many choices are looked at for one bar.
const mostFillSteps = 20_000

func (f *filling) pick(from int, room int64, picked []int) {
	if f.steps++; f.steps > mostFillSteps || f.best == 0 {
		return
	}
	if room < f.best {
		f.best, f.picked = room, slices.Clone(picked)
	}
	for i := from; i < len(f.items); i++ {
		if it := f.items[i]; it.size <= room && (i == from || f.items[i-1].size != it.size) {
			f.pick(i+1, room-it.size, append(picked, i))
		}
	}
}
