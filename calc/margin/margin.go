// Package margin judges what there is against what is needed, in the same
// three words everywhere.
package margin

import "kerfside/calc/unit"

// Verdict is a judgement in one word.
type Verdict string

const (
	OK    Verdict = "ok"    // a tenth or more to spare
	Tight Verdict = "tight" // enough, but less than a tenth to spare
	Fails Verdict = "fails" // not enough
)

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
