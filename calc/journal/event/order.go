package event

import "cmp"

// Place is where an event stands in the order of the journal. When is the time
// it happened, O the stamp that the server confirmed, T the phone's own stamp.
type Place struct {
	When Stamp
	O    Stamp
	T    Stamp
	ID   string
}

// PlaceOf returns the place of an event with stamps o and t that, by what was
// entered, happened at the time at (0: as it was entered). Nobody can enter what
// is still to come, so an at above o counts as o.
func PlaceOf(id string, o, t Stamp, at int64) Place {
	when := o
	if at > 0 && StampOf(at) < o {
		when = StampOf(at)
	}
	return Place{When: when, O: o, T: t, ID: id}
}

// Compare orders by When, then as Written.
func (p Place) Compare(q Place) int {
	return cmp.Or(cmp.Compare(p.When, q.When), p.Written(q))
}

// Written orders by O, T and ID: the order in which things were entered, which
// decides between two values of one field.
func (p Place) Written(q Place) int {
	return cmp.Or(cmp.Compare(p.O, q.O), cmp.Compare(p.T, q.T), cmp.Compare(p.ID, q.ID))
}

// Clamp returns the o of an event whose phone stamped it t, or of one that once
// had t as its o: never later than now, the server's time.
func Clamp(t, now Stamp) Stamp { return min(t, now) }

// ServerNow returns the server's time from its wall clock and the highest o that
// it stored: never behind that. behind is by how many ms the wall clock is.
func ServerNow(wall int64, highest Stamp) (now Stamp, behind int64) {
	now = LastStampOf(wall)
	if highest > now {
		return highest, highest.Ms() - now.Ms()
	}
	return now, 0
}
