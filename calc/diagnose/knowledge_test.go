package diagnose

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

// TestKnowledge holds the tables together: unique keys, known causes, the five
// steps of frequency, guide steps that exist, and something to see and to check
// for every cause.
func TestKnowledge(t *testing.T) {
	causes := map[string]bool{}
	for _, c := range Causes {
		if causes[c.Key] || c.Label == "" || c.Do == "" || c.Prior <= 0 || c.Prior >= .5 || c.Minutes <= 0 {
			t.Errorf("cause %s is not whole, or stands twice", c.Key)
		}
		causes[c.Key] = true
		checkStep(t, c.Key, c.Guide, c.Step)
	}
	keys, seen, checked := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, f := range knowledge().findings {
		if keys[f.Key] || f.Label == "" {
			t.Errorf("finding %s has no label, or stands twice", f.Key)
		}
		keys[f.Key] = true
		if f.NoFault == "" && (len(f.Given) == 0 || f.Leak <= 0 || f.Leak >= .3) {
			t.Errorf("finding %s has no causes, or a leak of %v", f.Key, f.Leak)
		}
		for _, s := range f.Given {
			cause, p := s.Cause, s.Often
			if !causes[cause] {
				t.Errorf("finding %s names the unknown cause %s", f.Key, cause)
			}
			if p != always && p != mostly && p != often && p != sometimes && p != seldom {
				t.Errorf("finding %s, cause %s: %v is none of the five steps", f.Key, cause, p)
			}
			if f.Do == "" {
				seen[cause] = true
			} else if p >= often {
				checked[cause] = true
			}
		}
	}
	grouped := map[string]bool{}
	for _, g := range SignGroups {
		for _, key := range g.Signs {
			if !has(Signs, key) || grouped[key] {
				t.Errorf("group %s: %s is no sign, or stands twice", g.Label, key)
			}
			grouped[key] = true
		}
	}
	if len(grouped) != len(Signs) {
		t.Errorf("%d of %d signs stand in a group", len(grouped), len(Signs))
	}
	for _, c := range Checks {
		if c.Do == "" || c.Yes == "" || c.No == "" || c.Minutes <= 0 {
			t.Errorf("check %s is not whole", c.Key)
		}
		checkStep(t, c.Key, c.Guide, c.Step)
	}
	for cause := range causes {
		if !seen[cause] || !checked[cause] {
			t.Errorf("cause %s: shows itself %v, can be checked %v, want both", cause, seen[cause], checked[cause])
		}
	}
	if len(Checks) < 30 {
		t.Errorf("%d checks, want at least 30", len(Checks))
	}
}

func checkStep(t *testing.T, key, guide, step string) {
	t.Helper()
	text, err := os.ReadFile("../../guides/" + guide + ".md")
	if err != nil || !strings.Contains(string(text), "{#"+step+"}") {
		t.Errorf("%s: there is no step %s in guide %s", key, step, guide)
	}
}

// TestEverySignIsDrawn: the phone's small pictures and the signs are one set.
func TestEverySignIsDrawn(t *testing.T) {
	source, err := os.ReadFile("../../pwa/draw/signs.js")
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range Signs {
		if !strings.Contains(string(source), "\n  \""+s.Key+"\": [") {
			t.Errorf("sign %s has no picture in pwa/draw/signs.js", s.Key)
		}
	}
	if drawn := strings.Count(string(source), "\n  \""); drawn != len(Signs) {
		t.Errorf("%d pictures for %d signs", drawn, len(Signs))
	}
}

// alone are the causes that some check speaks of without speaking of others.
func alone(cause string) (Finding, bool) {
	for _, c := range Checks {
		if len(c.Given) == 1 && c.given(cause) > 0 {
			return c, true
		}
	}
	return Finding{}, false
}

// TestMoreEvidenceNeverLowers: a check that speaks for one cause alone raises
// it when it shows and lowers it when it does not, whatever else was seen.
func TestMoreEvidenceNeverLowers(t *testing.T) {
	tried := 0
	for _, s := range readStories(t) {
		before := Think(s.seen)
		for _, c := range Causes {
			check, ok := alone(c.Key)
			if !ok {
				continue
			}
			tried++
			for _, shows := range []bool{true, false} {
				more := Seen{Answers: map[string]bool{check.Key: shows}, Context: s.seen.Context}
				for k, v := range s.seen.Answers {
					more.Answers[k] = v
				}
				was, is := chanceOf(before, c.Key), chanceOf(Think(more), c.Key)
				if shows && is < was-1e-12 || !shows && is > was+1e-12 {
					t.Errorf("%s: %s = %v moves %s from %v to %v", s.name, check.Key, shows, c.Key, was, is)
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

// TestSafetyFirst: while a cause of harm is likely, what finds it is asked before
// anything that saves minutes.
func TestSafetyFirst(t *testing.T) {
	asked := 0
	for _, s := range readStories(t) {
		res := Think(s.seen)
		for i, check := range res.Next {
			harm := 0.0
			for _, s := range check.Given {
				if s.Often >= often {
					harm = max(harm, chanceOf(res, s.Cause))
				}
			}
			if !check.Safety || harm <= .1 {
				continue
			}
			asked++
			if i > 0 && !res.Next[i-1].Safety {
				t.Errorf("%s: %s is asked before %s, whose cause has %.2f", s.name, res.Next[i-1].Key, check.Key, harm)
			}
		}
	}
	if asked == 0 {
		t.Error("no story asks for a safety check")
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
				if check.Live {
					t.Errorf("after %s with %s, %s wants the machine on", sign.Key, other.Key, check.Key)
				}
			}
			if !has(res.Signs, sign.Key) {
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
	plain := Think(Seen{Answers: signs, Context: Context{TipMinutes: -1, ElectrodeMinutes: -1, DrainMinutes: -1}})
	crew := Think(Seen{Answers: signs, Context: Context{TipMinutes: -1, ElectrodeMinutes: -1, DrainMinutes: -1, Found: map[string]int{"volts-low": 30}}})
	if chanceOf(crew, "volts-low") <= chanceOf(plain, "volts-low") {
		t.Error("thirty confirmed faults of the cord changed nothing")
	}
}

// TestInspectionSpeaks: a step that was answered worn raises what it looks for,
// above what it would be otherwise, and leaves no other cause higher.
func TestInspectionSpeaks(t *testing.T) {
	signs := map[string]bool{"unsteady": true}
	unknown := Context{TipMinutes: -1, ElectrodeMinutes: -1, DrainMinutes: -1}
	plain := Think(Seen{Answers: signs, Context: unknown})
	for _, cause := range Causes {
		failed := unknown
		failed.Failed = map[string]bool{cause.shownIn(): true}
		after := Think(Seen{Answers: signs, Context: failed})
		if was, is := chanceOf(plain, cause.Key), chanceOf(after, cause.Key); is <= was {
			t.Errorf("%s stands at %v after step %s was answered worn, and at %v before", cause.Key, is, cause.shownIn(), was)
		}
	}
}

// TestBoundIsGenerous: with three at once at the most, the chance left out is
// what four and more would have before anything is seen; it is small.
func TestBoundIsGenerous(t *testing.T) {
	priors := Context{TipMinutes: -1, ElectrodeMinutes: -1, DrainMinutes: -1}.priors()
	counts := []float64{1} // chance of exactly k causes
	for _, p := range priors {
		next := make([]float64, len(counts)+1)
		for k, q := range counts {
			next[k] += q * (1 - p)
			next[k+1] += q * p
		}
		counts = next
	}
	more := 1.0
	for k := 0; k <= maxTogether; k++ {
		more -= counts[k]
	}
	if more > .01 {
		t.Errorf("four causes and more have %v before anything is seen", more)
	}
	t.Log(fmt.Sprintf("left out by the bound: %.2g", more))
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
