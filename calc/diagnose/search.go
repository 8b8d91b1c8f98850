package diagnose

import (
	"cmp"
	"slices"

	"kerfside/calc/order"
)

// The stages of a search. Each is exhausted before the next begins.
const (
	harm     = iota // what can hurt
	foremost        // what its sign asks first
	opened          // the head, while it is open
	outside         // all that leaves the head shut
	waiting         // a long wait, after all that can be done meanwhile
	head            // the head: made dead and opened once for all of it
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
		if answers[f] != Unknown || seen.Skipped[check.Key] || stop && check.Hands.live() || !seen.asks(check) || !seen.can(check.Hands) || seen.explained(f) || (stop || r.grave()) && !r.concerns(check) {
			continue
		}
		o := offer{check: check, stage: outside}
		for c, p := range knowledge().frequency[f] {
			if p >= often {
				o.finds += p * p * chance[c] // what shows only often settles less
			}
		}
		whole := r.whole() && check.Hands == Dead
		if o.finds == 0 && !whole && !(check.Safety && check.Only != nil) && !(seen.Answers[check.First] && check.Hands != Dead) {
			continue
		}
		switch {
		case check.Safety && o.finds > .1:
			o.stage = harm
		case seen.Answers[check.First] && (check.Hands != Dead || o.finds > .1):
			o.stage = foremost
		case check.Hands == Dead && seen.Open:
			o.stage = opened
		case check.Hands == Dead:
			o.stage = head
		case check.Minutes >= long, check.Hands == Arc && seen.lookFirst():
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

// asks reports whether a sign was seen that a check is kept for, and none that
// tells the same or forbids it.
func (s Seen) asks(check Check) bool {
	seen := func(sign string) bool { return s.Answers[sign] }
	if _, told := s.Answers[check.Told]; told || slices.ContainsFunc(check.Not, seen) {
		return false
	}
	return check.Only == nil || slices.ContainsFunc(check.Only, seen)
}

// concerns reports whether a check looks for a cause of a sign that means stop or
// is grave: nothing else is asked beside one.
func (r *Result) concerns(check Check) bool {
	if r.whole() && check.Hands == Dead {
		return true
	}
	return slices.ContainsFunc(Causes, func(c Cause) bool { return r.explains(c.Key) && frequency(check.Key, c.Key) >= often })
}

// lookFirst reports whether a sign was seen after which no arc is struck before
// all that can be told without one was told: melt came back, or a breaker has one reset.
func (s Seen) lookFirst() bool {
	return s.Answers["blows-back"] || s.Answers["no-pierce"] || s.Answers["breaker"]
}

// can reports whether a check can be made at all: no cut without an arc, no
// reading of a flow without air, no lamp on a machine that is dark.
func (s Seen) can(h Hands) bool {
	lacks := map[Hands][]string{
		Arc: {"no-arc", "air-no-pilot", "no-air", "dead", "trips-on", "rcd", "heat-light", "fault-light"},
		Air: {"no-air", "dead", "trips-on", "rcd"},
		On:  {"dead", "trips-on", "rcd"},
	}
	if h == Arc && s.Answers["breaker"] && s.tried() {
		return false // a breaker is reset once
	}
	return !slices.ContainsFunc(lacks[h], func(sign string) bool { return s.Answers[sign] })
}

// tried reports whether a check with an arc was answered.
func (s Seen) tried() bool {
	return slices.ContainsFunc(Checks, func(c Check) bool {
		_, answered := s.Answers[c.Key]
		return answered && c.Hands == Arc
	})
}
