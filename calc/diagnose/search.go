package diagnose

import (
	"cmp"
	"slices"

	"kerfside/calc/order"
)

// The stages of a search. Each is exhausted before the next begins.
const (
	harm    = iota // what can hurt
	opened         // the head, while it is open
	outside        // all that leaves the head shut
	waiting        // a long wait, after all that can be done meanwhile
	head           // the head: made dead and opened once for all of it
)

// offer is a check that may be worth making.
type offer struct {
	check  Check
	stage  int
	finds  float64 // chance that it finds the cause and settles it
	yields float64 // finds for each minute
}

// sooner orders checks by stage, then by what they yield. What is in the head
// keeps the order in which it comes apart.
func sooner(a, b offer) int {
	if a.stage != b.stage || a.stage == opened || a.stage == head {
		return cmp.Compare(a.stage, b.stage)
	}
	return cmp.Compare(b.yields, a.yields)
}

// question is what a question costs besides its check, in minutes: to be read, and to
// be answered with a glove on. The authors' judgement.
const question = .7

// long is from how many minutes on a check is a wait.
const long = 10.0

// search lists the checks worth making, in the order of the package comment:
// what can hurt, then what lies outside the torch, then its head, once.
func (r *Result) search(seen Seen, answers []Answer, stop bool) []Check {
	chance := make([]float64, len(Causes)) // of causes that are still to be found
	for _, c := range r.Causes {
		if c.Chance >= hidden && !(c.Found && c.Chance >= sure) {
			chance[cause(c.Key)] = c.Chance
		}
	}
	var offers []offer
	for k, check := range Checks {
		f := len(Signs) + k
		if answers[f] != Unknown || seen.Skipped[check.Key] || stop && check.Hands.live() || !seen.asks(check) || !seen.can(check.Hands) || seen.explained(f) {
			continue
		}
		o := offer{check: check, stage: outside}
		for c, p := range knowledge().frequency[f] {
			if p >= often {
				o.finds += p * p * chance[c] // what shows only often settles less
			}
		}
		if o.finds == 0 {
			continue
		}
		switch {
		case check.Safety && o.finds > .1:
			o.stage = harm
		case check.Hands == Dead && seen.Open:
			o.stage = opened
		case check.Hands == Dead:
			o.stage = head
		case check.Minutes >= long:
			o.stage = waiting
		}
		o.yields = o.finds / (question + check.Minutes + check.setUp(seen.Open))
		offers = append(offers, o)
	}
	order.Stable(offers, sooner)
	list := make([]Check, len(offers))
	for i, o := range offers {
		list[i] = o.check
	}
	return list
}

// asks reports whether a sign was seen that a check is kept for.
func (s Seen) asks(check Check) bool {
	return check.Only == nil || slices.ContainsFunc(check.Only, func(sign string) bool { return s.Answers[sign] })
}

// can reports whether a check can be made at all: no cut without an arc, no
// reading of a flow without air, no lamp on a machine that is dark.
func (s Seen) can(h Hands) bool {
	lacks := map[Hands][]string{
		Arc: {"no-arc", "air-no-pilot", "no-air", "dead", "trips-on"},
		Air: {"no-air", "dead", "trips-on"},
		On:  {"dead", "trips-on"},
	}
	return !slices.ContainsFunc(lacks[h], func(sign string) bool { return s.Answers[sign] })
}
