package wear

import "kerfside/calc/unit"

// TipLimits are those at which a tip is changed.
type TipLimits struct{ Growth, Oval unit.Ratio }

// interval is a value with what it is hardly under and hardly over: 95 times in
// 100 it is not.
type interval struct{ is, low, high unit.Ratio }

// Judged is what can be said of a tip.
type Judged struct {
	Verdict string     // tipGood, tipWatch, tipChange or tipUnknown
	Why     string     // in words
	Used    unit.Ratio // of the nearer limit
}

// The verdicts on a tip.
const (
	tipGood    = "good"
	tipWatch   = "look often"
	tipChange  = "change"
	tipUnknown = "cannot tell"
)

// judge holds a bore's growth and ovality against the limits: past one is only
// what is past it in all of its interval, and good only what is under both in
// all of theirs; between, nobody can tell.
func (l TipLimits) judge(growth, oval interval) Judged {
	const hair = 1e-9 // so that 15 % read in round figures is 15 %
	j := Judged{Used: max(growth.is/l.Growth, oval.is/l.Oval, 0)}
	say := func(verdict, why string) Judged { j.Verdict, j.Why = verdict, why; return j }
	switch {
	case growth.low >= l.Growth-hair:
		return say(tipChange, "the bore has grown to its limit")
	case oval.low > l.Oval+hair:
		return say(tipChange, "the bore is oval")
	case growth.high >= l.Growth-hair:
		return say(tipUnknown, "as far as the reading tells, the bore may have grown to its limit or not")
	case oval.high > l.Oval+hair:
		return say(tipUnknown, "as far as the reading tells, the bore may be oval past its limit or not")
	case j.Used >= 0.5:
		return say(tipWatch, "past half of its limit")
	}
	return say(tipGood, "under half of its limit")
}
