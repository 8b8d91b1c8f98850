package job

import "kerfside/calc/unit"

// allOrders is the longest list of which every order is tried; of a longer one the best of
// a few, and from there one row put elsewhere as long as that helps, within moreOrders.
const (
	allOrders  = 5
	moreOrders = 100
)

// better finds an order of the rows in which the job is over sooner: nil if there is
// none that is worth while. Rows that come to the same stay as they are.
func (p play) better(was unit.Duration) ([]int, unit.Duration) {
	n := len(p.rows)
	best, work := []int(nil), was
	q, o := p, Outcome{}
	q.rows = make([]row, n)
	try := func(order []int) bool {
		for i, k := range order {
			q.rows[i] = p.rows[k]
		}
		if q.doInto(&o); !o.Stuck && o.Work < work-unit.Second {
			best, work = append([]int(nil), order...), o.Work
			return true
		}
		return false
	}
	if n <= allOrders {
		permute(first(n), 0, func(order []int) { try(order) })
		return ifWorth(best, work, was)
	}
	by := func(key func(row) float64) []int {
		order := first(n)
		for i := 1; i < n; i++ { // by insertion: equal rows keep their order
			for k := i; k > 0 && key(p.rows[order[k]]) > key(p.rows[order[k-1]]); k-- {
				order[k], order[k-1] = order[k-1], order[k]
			}
		}
		return order
	}
	long := by(func(r row) float64 { return float64(r.run) })
	short := by(func(r row) float64 { return -float64(r.run) })
	turns := make([]int, n) // long and short in turns
	for i := range turns {
		turns[i] = long[i/2]
		if i%2 == 1 {
			turns[i] = short[i/2]
		}
	}
	for _, order := range [][]int{long, short, turns, by(func(r row) float64 { return r.heat })} {
		try(order)
	}
	at := best
	if at == nil {
		at = first(n)
	}
	order := make([]int, n)
	for tries, i, k := 0, 0, 0; tries < moreOrders && i < n; {
		if i != k {
			tries++
			if move(order, at, i, k); try(order) {
				at, i, k = best, 0, 0
				continue
			}
		}
		if k++; k == n {
			i, k = i+1, 0
		}
	}
	return ifWorth(best, work, was)
}

// ifWorth is the order found if it is worth while.
func ifWorth(order []int, work, was unit.Duration) ([]int, unit.Duration) {
	if !worth(was, work) {
		return nil, was
	}
	return order, work
}

// move makes of an order the one with what stands at i put to where k is.
func move(to, order []int, i, k int) {
	rest := append(append(to[:0], order[:i]...), order[i+1:]...)
	copy(to[k+1:], rest[k:])
	to[k] = order[i]
}

func first(n int) []int {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	return order
}

// permute visits every order of those from at on.
func permute(order []int, at int, visit func([]int)) {
	if at == len(order) {
		visit(order)
		return
	}
	for i := at; i < len(order); i++ {
		next := append([]int(nil), order...)
		next[at], next[i] = next[i], next[at]
		permute(next, at+1, visit)
	}
}
