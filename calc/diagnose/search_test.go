package diagnose

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// draw makes up what somebody may have seen: one to four signs and some facts,
// with parts of any age, and answers to some of the checks.
func draw(random *rand.Rand) Seen {
	seen := Seen{Answers: map[string]bool{}, Skipped: map[string]bool{}, Mended: map[string]bool{}, Context: unknown}
	for range 1 + random.IntN(4) {
		seen.Answers[Signs[random.IntN(len(Signs))].Key] = true
	}
	if random.IntN(2) == 0 {
		seen.Context.TipMinutes, seen.Context.ElectrodeMinutes = float64(random.IntN(3)*60), float64(random.IntN(3)*60)
	}
	if random.IntN(3) == 0 {
		seen.Context.Supply = []string{"mains", "generator"}[random.IntN(2)]
	}
	for range random.IntN(5) {
		if res := Think(seen); len(res.Next) > 0 {
			seen.Answers[res.Next[0].Key] = random.IntN(3) == 0
			seen.Open = res.Next[0].Hands == Dead
		}
	}
	return seen
}

// TestOrderOfSearch holds the rules of the package comment over many draws.
func TestOrderOfSearch(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 29))
	states, asked := map[State]int{}, 0
	for range 1500 {
		seen := draw(random)
		res := Think(seen)
		states[res.State]++
		stopped := slices.ContainsFunc(res.Signs, func(s Sign) bool { return s.Stop != "" })
		dead, place := false, -1
		for i, check := range res.Next {
			asked++
			if stopped && check.Hands.live() {
				t.Errorf("%v: %s wants the machine on after a stop", seen.Answers, check.Key)
			}
			if !seen.Open && dead && check.Hands != Dead {
				t.Errorf("%v: %s comes after the torch was opened", seen.Answers, check.Key)
			}
			if seen.Open && i > 0 && check.Hands == Dead && res.Next[i-1].Hands != Dead && !res.Next[i-1].Safety && !seen.Answers[res.Next[i-1].First] {
				t.Errorf("%v: %s waits although the torch is open", seen.Answers, check.Key)
			}
			if check.Hands == Dead && !check.Shut {
				at := slices.IndexFunc(Checks, func(c Check) bool { return c.Key == check.Key })
				if at < place {
					t.Errorf("%v: %s is not asked in the order in which the head comes apart", seen.Answers, check.Key)
				}
				dead, place = true, at
			}
			if !(res.whole() && check.Hands == Dead) && !(check.Safety && check.Only != nil) && !(seen.Answers[check.First] && check.Hands != Dead) && !looksFor(check, res) {
				t.Errorf("%v: %s looks for nothing that is as likely as 1 in 20", seen.Answers, check.Key)
			}
		}
		top := res.Causes[0]
		if (res.State == Act || res.State == Service && len(res.Next) > 0) && (top.Chance < sure || !top.Found) {
			t.Errorf("%v: acts on %s at %.2f, brought out: %v", seen.Answers, top.Key, top.Chance, top.Found)
		}
	}
	for _, state := range []State{Stop, CheckOn, Act, Service, Left, NoFault, None} {
		if states[state] == 0 {
			t.Errorf("no draw ended in %s", state)
		}
	}
	t.Logf("%d checks in order; states %v", asked, states)
}

func looksFor(check Check, res Result) bool {
	return slices.ContainsFunc(res.Causes, func(c Ranked) bool { return c.Chance >= hidden && frequency(check.Key, c.Key) >= often })
}

// TestSafetyFirst: while a cause of harm is likely, what finds it is asked before
// anything that saves minutes.
func TestSafetyFirst(t *testing.T) {
	random, asked := rand.New(rand.NewPCG(3, 31)), 0
	for range 500 {
		res := Think(draw(random))
		for i, check := range res.Next {
			if i == 0 || !check.Safety || res.Next[i-1].Safety {
				continue
			}
			finds := 0.0
			for _, c := range res.Causes {
				if p := frequency(check.Key, c.Key); p >= often && c.Chance >= hidden && !c.Found {
					finds += p * p * c.Chance
				}
			}
			asked++
			if finds > .1+1e-9 {
				t.Errorf("%s is asked before %s, which finds with %.2f", res.Next[i-1].Key, check.Key, finds)
			}
		}
	}
	if asked == 0 {
		t.Error("no draw asks for a safety check")
	}
}

// TestNewPartIsNotWorn: whatever is seen, nothing is called worn at 0 minutes
// unless a look into the head said so.
func TestNewPartIsNotWorn(t *testing.T) {
	worn := map[string]string{"tip-worn": "tip-gauge", "electrode-pitted": "electrode-pit"}
	for i, one := range Signs {
		for _, two := range Signs[i:] {
			seen := Seen{Answers: map[string]bool{one.Key: true, two.Key: true}, Context: unknown}
			seen.Context.TipMinutes, seen.Context.ElectrodeMinutes = 0, 0
			for _, c := range Think(seen).Causes[:1] {
				if worn[c.Key] != "" {
					t.Errorf("%s and %s: %s stands first at %.2f, and the part is new", one.Key, two.Key, c.Key, c.Chance)
				}
			}
		}
	}
	for key, check := range worn {
		seen := Seen{Answers: map[string]bool{"wide-cut": true, "hard-start": true, "unsteady": true, check: true}, Context: unknown}
		seen.Context.TipMinutes, seen.Context.ElectrodeMinutes = 0, 0
		if res := Think(seen); place(res, key) > 2 || chanceOf(res, key) < .3 {
			t.Errorf("%s: the look said so, and it stands at %.2f", key, chanceOf(res, key))
		}
	}
}

// TestKnownRulesOut: what is known of rig, site, plan and inspection is neither
// looked for nor asked.
func TestKnownRulesOut(t *testing.T) {
	asks := func(res Result, key string) bool {
		return slices.ContainsFunc(res.Next, func(c Check) bool { return c.Key == key })
	}
	tests := []struct {
		name  string
		signs []string
		with  func(*Seen)
		cause string // has no chance any more
		check string // is not asked any more
	}{
		{name: "mains", signs: []string{"cuts-out", "unsteady"}, with: func(s *Seen) { s.Context.Supply = "mains" }, cause: "generator-weak", check: "idle-saver"},
		{name: "mains, picked as a fact", signs: []string{"cuts-out", "fault-light"}, with: func(s *Seen) { s.Answers["on-mains"] = true }, cause: "generator-weak", check: "idle-saver"},
		{name: "warm", signs: []string{"no-air"}, with: func(s *Seen) { s.Context.Warm = true }, cause: "air-frozen", check: "ice"},
		{name: "the plan", signs: []string{"not-through", "blows-back"}, with: func(s *Seen) { s.Context.PastPlan = "no" }, check: "plan-limit"},
		{name: "an inspection", signs: []string{"wide-cut", "not-through"}, with: func(s *Seen) { s.Context.Passed = map[string]bool{"torch-inspection#tip-size": true} }, check: "tip-gauge"},
		{name: "the short inspection", signs: []string{"spits"}, with: func(s *Seen) { s.Context.Passed = map[string]bool{"quick-look#drain": true} }, check: "trap-water"},
		{name: "a step that failed", signs: []string{"unsteady"}, with: func(s *Seen) { s.Context.Failed = map[string]bool{"torch-inspection#electrode-pit": true} }, check: "electrode-pit"},
	}
	for _, test := range tests {
		seen := Seen{Answers: map[string]bool{}, Context: unknown}
		for _, sign := range test.signs {
			seen.Answers[sign] = true
		}
		before := Think(seen)
		if test.cause != "" && chanceOf(before, test.cause) == 0 {
			t.Errorf("%s: %s has no chance before", test.name, test.cause)
		}
		test.with(&seen)
		after := Think(seen)
		if test.cause != "" && chanceOf(after, test.cause) != 0 {
			t.Errorf("%s: %s still has %.2f", test.name, test.cause, chanceOf(after, test.cause))
		}
		if asks(after, test.check) {
			t.Errorf("%s: %s is still asked", test.name, test.check)
		}
	}
	// The sign that is seen counts for more than what is kept of the site.
	seen := Seen{Answers: map[string]bool{"generator": true}, Context: unknown}
	seen.Context.Supply = "mains"
	if chanceOf(Think(seen), "generator-weak") == 0 {
		t.Error("a generator that bogs is ruled out by a site kept as mains")
	}
}

// TestTwoCauses: after a cure that helped in part, the search goes on with what
// is left. For every two causes that a sign tells apart: mend the first, and the
// second is found.
func TestTwoCauses(t *testing.T) {
	for _, test := range []struct{ signs, was []string }{
		{[]string{"wide-cut", "spits"}, []string{"tip-worn", "air-wet"}},
		{[]string{"no-transfer", "spits", "unsteady"}, []string{"air-wet", "clamp-poor"}},
		{[]string{"head-hot", "cuts-out"}, []string{"cup-clogged", "volts-low"}},
		{[]string{"heavy-dross", "bevel-one"}, []string{"too-slow", "torch-tilted"}},
	} {
		s := story{seen: Seen{Answers: map[string]bool{}, Mended: map[string]bool{}, Context: unknown}, was: test.was}
		for _, sign := range test.signs {
			s.seen.Answers[sign] = true
		}
		first := s.tell()
		if len(first.trouble) > 0 {
			t.Errorf("%v: %v", test.was, first.trouble)
		}
		for _, key := range first.asked {
			check := Checks[slices.IndexFunc(Checks, func(c Check) bool { return c.Key == key })]
			s.seen.Answers[key] = s.answer(check)
		}
		found := Think(s.seen).Causes[0].Key
		s.seen.Mended[found] = true
		s.was = slices.DeleteFunc(slices.Clone(test.was), func(w string) bool { return w == found })
		for _, sign := range test.signs {
			s.seen.Answers[sign] = frequency(sign, s.was[0]) >= sometimes
		}
		if chanceOf(Think(s.seen), found) != 0 {
			t.Errorf("%v: %s was mended and is still suspected", test.was, found)
		}
		if then := s.tell(); len(then.trouble) > 0 {
			t.Errorf("%v, %s mended: %v", test.was, found, then.trouble)
		}
	}
}
