// Package life tells how long the parts in the torch's head last, from those that
// the crew has used, worn out or not.
//
// A part's life is counted in equivalent minutes,
//
//	use = arc minutes + c·starts
//
// for a start wears a part too; c is learnt, with its doubt. That life is
// distributed by Weibull with shape b and scale e,
//
//	S(t) = exp(−(t/e)^b)
//
// A part that was pulled early, or is still fitted, has not failed: it lasted at
// least that long, and counts so (right-censored).
package life

// Use is what a part has done, or is asked to do: arc minutes and starts.
type Use struct{ Minutes, Starts float64 }

// Plus returns both uses together.
func (u Use) Plus(v Use) Use { return Use{Minutes: u.Minutes + v.Minutes, Starts: u.Starts + v.Starts} }

// Equivalent returns the use in minutes where a start counts as so many.
func (u Use) Equivalent(perStart float64) float64 { return u.Minutes + perStart*u.Starts }

// Seen is what a part mostly worked on and with. "" is not known, which is taken
// for the crew's average.
type Seen struct {
	Metal    string
	Surface  string // "clean", "rusty", "painted", "galvanised"
	Rig      string
	Position string // "flat", "vertical", "overhead"
	Start    string // "edge" or "pierce"
	Air      string // "dry" or "wet"
	Partner  string // the electrode beside a tip, the tip beside an electrode: "good" or "worn"
}

// Part is one part of the crew's history.
type Part struct {
	Use
	Seen
	Failed bool   // worn out; else pulled early or still fitted
	Slot   string // "tip", "electrode", "diffuser", "cup"; "" for the one that is asked about
}

// Others returns the parts without the fitted one of that age, which is counted by
// its age already: one part that has not failed and has done exactly that.
func Others(parts []Part, age Use) []Part {
	for i, p := range parts {
		if !p.Failed && p.Use == age {
			return append(parts[:i:i], parts[i+1:]...)
		}
	}
	return parts
}
