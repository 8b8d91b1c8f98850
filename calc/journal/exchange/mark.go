package exchange

import "kerfside/calc/journal/event"

// Mark is a checkpoint: the chain at arrival N.
type Mark struct {
	N int64       `json:"n"`
	H event.Chain `json:"h"`
}

// How many marks a phone keeps: the newest ones all, for a server restored from
// last night's backup; below them one for each stretch, so that a year of marks
// stays small and a deep rewind pulls at most a stretch too much.
const (
	marksDense   = 32
	marksStretch = 2000
)

// Remember returns marks with m added at the end, thinned out.
func Remember(marks []Mark, m Mark) []Mark {
	all := append(append([]Mark(nil), marks...), m)
	if len(all) <= marksDense {
		return all
	}
	old, kept := all[:len(all)-marksDense], []Mark(nil)
	for i, o := range old {
		if i+1 == len(old) || o.N/marksStretch != old[i+1].N/marksStretch {
			kept = append(kept, o)
		}
	}
	return append(kept, all[len(all)-marksDense:]...)
}

// UpTo returns the marks at or below n.
func UpTo(marks []Mark, n int64) []Mark {
	for i, m := range marks {
		if m.N > n {
			return marks[:i]
		}
	}
	return marks
}
