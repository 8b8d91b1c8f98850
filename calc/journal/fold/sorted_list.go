package fold

import (
	"slices"

	"kerfside/calc/order"
)

// sortedList is a list that stays in order while single elements come and go. No two
// of its elements are equal by compare. What is put in at the end costs little,
// whatever the length; what is put in further down costs the way there.
type sortedList[E any] struct {
	compare func(a, b E) int
	sorted  []E
	late    []E // put in, and not sorted in yet
}

func (r *sortedList[E]) put(e E) { r.late = append(r.late, e) }

// all returns the elements in order. The list is the ranked one's own.
func (r *sortedList[E]) all() []E {
	if len(r.late) == 0 {
		return r.sorted
	}
	if len(r.late) > 1 {
		order.Sort(r.late, r.compare)
	}
	i, j := len(r.sorted)-1, len(r.late)-1
	r.sorted = append(r.sorted, r.late...)
	for k := len(r.sorted) - 1; j >= 0; k-- { // from the end, until those that came late have their places
		if i >= 0 && r.compare(r.sorted[i], r.late[j]) > 0 {
			r.sorted[k] = r.sorted[i]
			i--
		} else {
			r.sorted[k] = r.late[j]
			j--
		}
	}
	clear(r.late)
	r.late = r.late[:0]
	return r.sorted
}

// remove takes out the element that is equal to e.
func (r *sortedList[E]) remove(e E) {
	if i, ok := slices.BinarySearchFunc(r.all(), e, r.compare); ok {
		r.sorted = slices.Delete(r.sorted, i, i+1)
	}
}
