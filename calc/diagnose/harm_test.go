package diagnose

import (
	"slices"
	"strings"
	"testing"
)

// eachPair calls visit with every sign alone and with every two.
func eachPair(visit func(seen map[string]bool)) {
	for i, one := range Signs {
		for _, two := range Signs[i:] {
			visit(map[string]bool{one.Key: true, two.Key: true})
		}
	}
}

// TestHarmEndsTheSearch: whatever else is seen, a yes to a check for harm sends
// the rig to a qualified person, and nothing more is asked.
func TestHarmEndsTheSearch(t *testing.T) {
	asked := 0
	eachPair(func(seen map[string]bool) {
		for _, check := range Think(Seen{Answers: seen, Context: unknown}).Next {
			if !check.Safety {
				continue
			}
			asked++
			answers := map[string]bool{check.Key: true}
			for key := range seen {
				answers[key] = true
			}
			res := Think(Seen{Answers: answers, Context: unknown})
			if top := res.Causes[0]; res.State != Service || len(res.Next) > 0 || !top.Service || frequency(check.Key, top.Key) < often {
				t.Errorf("%v: yes to %s leads to %s (%s), with %d checks left", seen, check.Key, res.State, top.Key, len(res.Next))
			}
		}
	})
	if asked < 100 {
		t.Errorf("only %d checks for harm", asked)
	}
}

// TestGraveNeedsACause: after a shock, a device that tripped or a dark machine,
// answers of no never lead back to work.
func TestGraveNeedsACause(t *testing.T) {
	for _, sign := range Signs {
		if !sign.Grave {
			continue
		}
		for _, other := range Signs {
			if other.NoFault != "" {
				continue
			}
			seen := Seen{Answers: map[string]bool{sign.Key: true, other.Key: true}, Context: unknown}
			res := Think(seen)
			for len(res.Next) > 0 && (res.State == CheckOn || res.State == Stop || res.State == None) {
				seen.Answers[res.Next[0].Key] = false
				res = Think(seen)
			}
			if res.State != Service && res.State != Stop {
				t.Errorf("%s with %s: with every answer no it ends in %s", sign.Key, other.Key, res.State)
			}
		}
	}
}

// TestNothingImpossibleIsAsked: no cut without an arc or under a lamp that stops
// the machine, no flow without air, and nothing live once a device has tripped.
func TestNothingImpossibleIsAsked(t *testing.T) {
	arcless := []string{"no-arc", "air-no-pilot", "no-air", "dead", "trips-on", "rcd", "heat-light", "fault-light"}
	off := []string{"dead", "trips-on", "rcd", "shock", "burnt-smell", "green-flame", "goes-on", "blows-sideways", "lead-marked"}
	eachPair(func(seen map[string]bool) {
		res := Think(Seen{Answers: seen, Context: unknown})
		for _, check := range res.Next {
			for sign := range seen {
				if check.Hands == Arc && slices.Contains(arcless, sign) {
					t.Errorf("%v: %s wants an arc", seen, check.Key)
				}
				if check.Hands.live() && slices.Contains(off, sign) {
					t.Errorf("%v: %s wants the machine on", seen, check.Key)
				}
			}
		}
	})
	// A breaker is reset once: after one trial there is no second.
	res := Think(Seen{Answers: map[string]bool{"breaker": true, "alone-try": false}, Context: unknown})
	if slices.ContainsFunc(res.Next, func(c Check) bool { return c.Hands == Arc }) {
		t.Error("a breaker that tripped again is tried once more")
	}
}

// TestLooksBeforeArcs: once melt has come back at somebody, all that can be told
// without an arc is told before one is struck.
func TestLooksBeforeArcs(t *testing.T) {
	for _, sign := range []string{"blows-back", "no-pierce"} {
		arc := false
		for _, check := range Think(Seen{Answers: map[string]bool{sign: true}, Context: unknown}).Next {
			if arc && check.Hands != Arc && check.Hands != Dead {
				t.Errorf("%s: %s comes after an arc", sign, check.Key)
			}
			arc = arc || check.Hands == Arc
		}
		if !arc {
			t.Errorf("%s: no arc is asked for at all", sign)
		}
	}
}

// TestWholeHead: an arc that came out at the side, and burning copper, want every
// part of the head looked at, also once one was found.
func TestWholeHead(t *testing.T) {
	for _, sign := range []string{"green-flame", "blows-sideways"} {
		for _, found := range []string{"", "cup-holes", "amps-tip"} {
			seen := Seen{Answers: map[string]bool{sign: true}, Context: unknown}
			if found != "" {
				seen.Answers[found] = true
			}
			res := Think(seen)
			for _, check := range Checks {
				if check.Hands == Dead && check.Key != found && !slices.ContainsFunc(res.Next, func(c Check) bool { return c.Key == check.Key }) {
					t.Errorf("%s, found %q: %s is not looked at", sign, found, check.Key)
				}
			}
		}
	}
}

// TestWordsAgree: no answer tells two things that cannot both be done.
func TestWordsAgree(t *testing.T) {
	clash := [][2]string{{"Reset nothing", "reset once"}, {"Leave the breaker off", "reset once"}, {"nplug", "Leave it switched on"}, {"Leave it switched on", "Power off"}}
	eachPair(func(seen map[string]bool) {
		var signs []string
		for key := range seen {
			signs = append(signs, key)
		}
		answer, err := FaultRank.Calculator().CalculateValues(map[string]any{"signs": strings.Join(signs, ",")})
		if err != nil {
			t.Fatal(err)
		}
		said := strings.Join(answer.Cautions(), "\n")
		for _, pair := range clash {
			if strings.Contains(said, pair[0]) && strings.Contains(said, pair[1]) {
				t.Errorf("%v: both %q and %q", signs, pair[0], pair[1])
			}
		}
	})
}

// TestEveryCheckIsReached: some two signs lead to each check, asked or answered
// before it.
func TestEveryCheckIsReached(t *testing.T) {
	reached := map[string]bool{}
	eachPair(func(seen map[string]bool) {
		for _, check := range Think(Seen{Answers: seen, Context: unknown}).Next {
			reached[check.Key] = true
		}
	})
	for _, check := range Checks {
		if !reached[check.Key] {
			t.Errorf("no two signs lead to %s", check.Key)
		}
	}
}

// TestButtonsAreShort: an answer fits a button, and a question two lines of one.
func TestButtonsAreShort(t *testing.T) {
	for _, check := range Checks {
		for _, answer := range []string{check.Yes, check.No} {
			if len(answer) > 22 {
				t.Errorf("%s: the answer %q has %d letters", check.Key, answer, len(answer))
			}
		}
		if len(check.Label) > 62 {
			t.Errorf("%s: the question has %d letters", check.Key, len(check.Label))
		}
	}
	for _, sign := range Signs {
		if len(sign.Label) > 48 {
			t.Errorf("%s: the sign has %d letters", sign.Key, len(sign.Label))
		}
	}
}
