package layout

import (
	"slices"
)

// judge returns the worst rank on the way of an order, and the heaviest load: as a share
// of what its hold is rated for, or of the whole weight.
func (in ReleaseInput) judge(states [][]Body, order []int) (rank int, load float64) {
	done := 0
	for i := -1; i < len(order); i++ {
		if i >= 0 {
			done |= 1 << order[i]
		}
		for _, b := range states[done] {
			rank = max(rank, b.Fate.rank())
			for _, c := range b.Carry {
				of := in.Holds[c.Hold].Rated
				if of == 0 {
					of = in.Weight
				}
				load = max(load, float64(max(c.High, c.Pull)/of))
			}
		}
	}
	return rank, load
}

// walk lists the states of an order.
func walk(states [][]Body, order []int) []State {
	list := []State{{Cut: -1, Bodies: states[0]}}
	done := 0
	for _, c := range order {
		done |= 1 << c
		list = append(list, State{Cut: c, Bodies: states[done]})
	}
	return list
}

// permutations yields every order of a list, the given one first, in one slice that is
// used again.
func permutations(list []int) func(yield func([]int) bool) {
	return func(yield func([]int) bool) {
		order := slices.Clone(list)
		for {
			if !yield(order) {
				return
			}
			// The next one as in a dictionary.
			i := len(order) - 2
			for i >= 0 && order[i] > order[i+1] {
				i--
			}
			if i < 0 {
				return
			}
			j := len(order) - 1
			for order[j] < order[i] {
				j--
			}
			order[i], order[j] = order[j], order[i]
			slices.Reverse(order[i+1:])
		}
	}
}
