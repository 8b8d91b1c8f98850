// Package margin judges what there is against what is needed, in the same
// words everywhere.
package margin

import "kerfside/calc/unit"

// Verdict is a judgement in one word.
type Verdict string

const (
	OK      Verdict = "ok"      // a tenth or more to spare
	Tight   Verdict = "tight"   // enough, but less than a tenth to spare
	Fails   Verdict = "fails"   // not enough
	Doubt   Verdict = "doubt"   // not enough, but only by a figure that nobody has read
	Unknown Verdict = "unknown" // what it takes to judge is not known
)

// Words are the verdicts, each followed by how people are told, for a choice.
var Words = []string{"ok", "holds", "tight", "only just", "fails", "short", "doubt", "may be short", "unknown", "not known"}

// Spare is what a tight margin lacks to be ok: a judgement of the authors, and
// about what pressure gauges, plates and hoses scatter by.
const Spare unit.Ratio = 0.10

// Of returns capacity/need − 1, at most Most; nothing needed is Most.
func Of[M ~float64](capacity, need M) unit.Ratio {
	if need <= 0 {
		return Most
	}
	return min(unit.Ratio(capacity/need-1), Most)
}

// Most is as large as a margin is reckoned: nothing hinges on a larger one.
const Most unit.Ratio = 10

// Used is the need as a share of the capacity, 1/(1 + margin), at most Most.
func Used(m unit.Ratio) unit.Ratio { return 1 / max(1+m, 1/Most) }

// Judge returns the verdict on a margin.
func Judge(m unit.Ratio) Verdict {
	switch {
	case m >= Spare:
		return OK
	case m >= 0:
		return Tight
	}
	return Fails
}

// spoken are shares as people say them, each up to about half way to the next.
var spoken = []struct {
	below unit.Ratio
	words string
}{
	{0.03, "next to nothing"}, {0.08, "a little"}, {0.15, "about a tenth"}, {0.225, "about a fifth"}, {0.29, "about a quarter"}, {0.42, "about a third"},
	{0.58, "about half"}, {0.7, "about two thirds"}, {0.87, "about three quarters"}, {1.25, "about as much again"},
}

// Say puts a margin in words that are no finer than what plates and gauges
// know: "about a third short", "about a fifth to spare".
func Say(m unit.Ratio) string {
	end := " to spare"
	if m < 0 {
		m, end = -m, " short"
	}
	for _, s := range spoken {
		if m >= s.below {
			continue
		}
		if s.below > 1 && end == " short" {
			return "far short"
		}
		return s.words + end
	}
	if end == " short" {
		return "far short"
	}
	return "more than twice what is needed"
}
