package diagnose

import (
	"slices"
	"testing"
)

// alone is a check that speaks of a cause without speaking of others.
func alone(c int) (key string, ok bool) {
	know := knowledge()
	for f := len(Signs); f < len(know.keys); f++ {
		others := 0
		for _, p := range know.frequency[f] {
			if p > 0 {
				others++
			}
		}
		if others == 1 && know.frequency[f][c] > 0 {
			return know.keys[f], true
		}
	}
	return "", false
}

// TestMoreEvidenceNeverLowers: a check that speaks for one cause alone raises
// it when it shows and lowers it when it does not, whatever else was seen.
func TestMoreEvidenceNeverLowers(t *testing.T) {
	tried := 0
	for _, s := range readStories(t) {
		before := Think(s.seen)
		for i, c := range Causes {
			check, ok := alone(i)
			if _, answered := s.seen.Answers[check]; !ok || answered {
				continue
			}
			tried++
			for _, shows := range []bool{true, false} {
				more := Seen{Answers: map[string]bool{check: shows}, Context: s.seen.Context}
				for k, v := range s.seen.Answers {
					more.Answers[k] = v
				}
				was, is := chanceOf(before, c.Key), chanceOf(Think(more), c.Key)
				if shows && is < was-1e-12 || !shows && is > was+1e-12 {
					t.Errorf("%s: %s = %v moves %s from %v to %v", s.name, check, shows, c.Key, was, is)
				}
			}
		}
	}
	if tried < 500 {
		t.Errorf("only %d tries", tried)
	}
}

// TestChancesAreChances: in [0, 1] and summing with none to at least 1.
func TestChancesAreChances(t *testing.T) {
	for _, s := range readStories(t) {
		res := Think(s.seen)
		sum := res.None
		for _, c := range res.Causes {
			if c.Chance < 0 || c.Chance > 1+1e-12 {
				t.Errorf("%s: chance of %s is %v", s.name, c.Key, c.Chance)
			}
			sum += c.Chance
		}
		if sum < 1-1e-9 {
			t.Errorf("%s: all chances sum to %v", s.name, sum)
		}
	}
}

// TestOrderDoesNotMatter: the words of a field may stand in any order.
func TestOrderDoesNotMatter(t *testing.T) {
	forward, err := FaultRank.Calculator().CalculateValues(map[string]any{"signs": "wide-cut, heavy-dross, spits", "checks": "trap-water:yes,tip-gauge:no"})
	if err != nil {
		t.Fatal(err)
	}
	backward, err := FaultRank.Calculator().CalculateValues(map[string]any{"signs": "spits,heavy-dross,wide-cut", "checks": "tip-gauge:no, trap-water:yes"})
	if err != nil {
		t.Fatal(err)
	}
	a, _ := forward.MarshalJSON()
	b, _ := backward.MarshalJSON()
	if string(a) != string(b) {
		t.Errorf("order matters:\n%s\n%s", a, b)
	}
}

// TestStopKeepsItOff: after a sign that means stop, no check switches the
// machine on again, and the sign's own words are told.
func TestStopKeepsItOff(t *testing.T) {
	for _, sign := range Signs {
		if sign.Stop == "" {
			continue
		}
		for _, other := range Signs {
			res := Think(Seen{Answers: map[string]bool{sign.Key: true, other.Key: true}})
			if res.State != Stop {
				t.Errorf("%s with %s: state = %s, want stop", sign.Key, other.Key, res.State)
			}
			for _, check := range res.Next {
				if check.Hands.live() {
					t.Errorf("after %s with %s, %s wants the machine on", sign.Key, other.Key, check.Key)
				}
			}
			if !slices.ContainsFunc(res.Signs, func(s Sign) bool { return s.Key == sign.Key }) {
				t.Errorf("%s with %s: what to do at once is not told", sign.Key, other.Key)
			}
		}
	}
}

// TestSkippedIsNotAsked: without any of its checks the finder still names what
// is most likely, and without some it asks the others.
func TestSkippedIsNotAsked(t *testing.T) {
	for _, s := range readStories(t) {
		s.seen.Skipped = map[string]bool{}
		for {
			res := Think(s.seen)
			if len(res.Next) == 0 {
				if res.State == CheckOn {
					t.Errorf("%s: nothing is left to check, and it says check", s.name)
				}
				break
			}
			if key := res.Next[0].Key; s.seen.Skipped[key] {
				t.Fatalf("%s: %s was skipped and is asked", s.name, key)
			}
			s.seen.Skipped[res.Next[0].Key] = true
		}
	}
}

// TestNoFaultsMoveNothing: what is as it should be leaves the ranking alone.
func TestNoFaultsMoveNothing(t *testing.T) {
	plain := Think(Seen{Answers: map[string]bool{"unsteady": true}})
	for _, sign := range Signs {
		if sign.NoFault == "" {
			continue
		}
		with := Think(Seen{Answers: map[string]bool{"unsteady": true, sign.Key: true}})
		for i, c := range with.Causes {
			if plain.Causes[i].Key != c.Key || plain.Causes[i].Chance != c.Chance {
				t.Errorf("%s moves %s to place %d with %v", sign.Key, c.Key, i+1, c.Chance)
			}
		}
	}
}

// TestCrewLearns: a crew's own confirmed faults move the ranking.
func TestCrewLearns(t *testing.T) {
	signs := map[string]bool{"not-through": true}
	plain := Think(Seen{Answers: signs, Context: unknown})
	crew := Think(Seen{Answers: signs, Context: Context{TipMinutes: -1, ElectrodeMinutes: -1, DrainMinutes: -1, Found: map[string]int{"volts-low": 30}}})
	if chanceOf(crew, "volts-low") <= chanceOf(plain, "volts-low") {
		t.Error("thirty confirmed faults of the cord changed nothing")
	}
}

// TestInspectionSpeaks: a step that was answered change or worn raises what it
// looks for above what it would be otherwise, change the more. Worn is not past
// the limit: it answers no check, and sends nothing to service.
func TestInspectionSpeaks(t *testing.T) {
	signs := map[string]bool{"unsteady": true}
	plain := Think(Seen{Answers: signs, Context: unknown})
	for _, cause := range Causes {
		failed, worn := unknown, unknown
		failed.Failed = map[string]bool{cause.shownIn(): true}
		worn.Worn = failed.Failed
		change, some := Think(Seen{Answers: signs, Context: failed}), Think(Seen{Answers: signs, Context: worn})
		was, is, most := chanceOf(plain, cause.Key), chanceOf(some, cause.Key), chanceOf(change, cause.Key)
		if is <= was || most <= is {
			t.Errorf("%s stands at %v, after step %s was answered worn at %v, after change at %v", cause.Key, was, cause.shownIn(), is, most)
		}
		if some.State != CheckOn {
			t.Errorf("step %s was answered worn, and that leads to %s", cause.shownIn(), some.State)
		}
	}
	for _, check := range Checks {
		worn := unknown
		worn.Worn = map[string]bool{check.shownIn(): true}
		if _, known := (Seen{Context: worn}).told(check); known {
			t.Errorf("step %s was answered worn, and %s is not asked any more", check.shownIn(), check.Key)
		}
	}
}

// BenchmarkThink ranks with every sign answered.
func BenchmarkThink(b *testing.B) {
	seen := Seen{Answers: map[string]bool{}, Context: Context{TipMinutes: 30, ElectrodeMinutes: 30, DrainMinutes: 10}}
	for i, s := range Signs {
		if s.NoFault == "" {
			seen.Answers[s.Key] = i%3 == 0
		}
	}
	for b.Loop() {
		Think(seen)
	}
}
