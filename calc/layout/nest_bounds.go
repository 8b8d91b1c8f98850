package layout

import (
	"slices"
)

// leastBySum is how many of the longest bars hold all pieces end to end.
func (p *packing) leastBySum() int {
	sum, room := int64(0), slices.Max(p.room)
	for _, it := range p.items {
		sum += it.size
	}
	return int((sum + room - 1) / room)
}

// leastByL2 is the bound of Martello and Toth for the longest bar: for each a up to half
// of it, pieces longer than L − a are alone, those longer than L/2 are apart, and what
// the latter leave does not hold all of the rest.
func (p *packing) leastByL2() int {
	room := slices.Max(p.room)
	best := p.leastBySum()
	tries := []int64{0}
	for _, it := range p.items {
		if 2*it.size <= room {
			tries = append(tries, it.size)
		}
	}
	for _, a := range tries {
		alone, apart := 0, 0
		rest := int64(0)
		for _, it := range p.items {
			switch {
			case it.size > room-a:
				alone++
			case 2*it.size > room:
				apart++
				rest -= room - it.size
			case it.size >= a:
				rest += it.size
			}
		}
		n := alone + apart
		if rest > 0 {
			n += int((rest + room - 1) / room)
		}
		best = max(best, n)
	}
	return best
}
