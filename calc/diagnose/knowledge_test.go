package diagnose

import (
	"os"
	"slices"
	"strings"
	"testing"
)

// TestKnowledge holds the tables together: unique keys, known causes, the four
// steps of frequency, guide steps that exist, and something to see and to check
// for every cause.
func TestKnowledge(t *testing.T) {
	for i, c := range Causes {
		if cause(c.Key) != i || c.Label == "" || c.Do == "" || c.Prior <= 0 || c.Prior >= .5 || c.Minutes <= 0 {
			t.Errorf("cause %s is not whole, or stands twice", c.Key)
		}
		checkStep(t, c.Key, c.shownIn())
	}
	know := knowledge()
	for f, key := range know.keys {
		if know.finding(key) != f || know.labels[f] == "" {
			t.Errorf("finding %s has no label, or stands twice", key)
		}
		noFault := f < len(Signs) && Signs[f].NoFault != ""
		if !noFault && (slices.Max(know.frequency[f]) == 0 && key != "on-mains" || know.leaks[f] <= 0 || know.leaks[f] > .5) {
			t.Errorf("finding %s has no causes, or a leak of %v", key, know.leaks[f])
		}
	}
	for _, c := range Checks {
		if c.Do == "" || c.Yes == "" || c.No == "" || c.Minutes <= 0 || c.Hands == "" {
			t.Errorf("check %s is not whole", c.Key)
		}
		for _, step := range append([]string{c.shownIn()}, c.Same...) {
			checkStep(t, c.Key, step)
		}
		for _, key := range c.Only {
			if !slices.Contains(signKeys(), key) {
				t.Errorf("check %s waits for the unknown sign %s", c.Key, key)
			}
		}
	}
}

// TestSignGroups: each sign stands in one group of at most eight, six groups are
// for any day, and no group mixes what can hurt, what is seen and what is so.
func TestSignGroups(t *testing.T) {
	grouped := map[string]bool{}
	days := 0
	for _, g := range SignGroups {
		if len(g.Signs) == 0 || len(g.Signs) > 8 {
			t.Errorf("group %s has %d signs, want 1 to 8", g.Key, len(g.Signs))
		}
		facts, stops, fine := 0, 0, 0
		for _, key := range g.Signs {
			i := slices.Index(signKeys(), key)
			if i < 0 || grouped[key] {
				t.Errorf("group %s: %s is no sign, or stands twice", g.Key, key)
				continue
			}
			grouped[key] = true
			s := Signs[i]
			switch {
			case s.Fact:
				facts++
			case s.Stop != "":
				stops++
			case s.NoFault != "":
				fine++
			case fine > 0:
				t.Errorf("group %s: %s stands behind what is no fault", g.Key, key)
			}
		}
		for _, n := range []int{facts, stops} {
			if n != 0 && n != len(g.Signs) {
				t.Errorf("group %s mixes signs that mean stop, facts and others", g.Key)
			}
		}
		if facts == 0 && (g.Label == "" || !slices.Contains(g.Signs, g.Picture)) {
			t.Errorf("group %s has no label or no picture of its own", g.Key)
		}
		if facts == 0 && stops == 0 {
			days++
		}
	}
	if len(grouped) != len(Signs) || days != 6 {
		t.Errorf("%d of %d signs stand in a group, %d groups are for any day, want all and 6", len(grouped), len(Signs), days)
	}
}

// TestFrequencies reads the table as strictly as it is written: each cause once,
// known steps, known keys, none twice, and every cause shows something and comes
// out in a check.
func TestFrequencies(t *testing.T) {
	told := map[string]bool{}
	for line := range strings.Lines(strings.TrimSpace(frequencies)) {
		groups := strings.Split(strings.TrimSpace(line), "|")
		key := strings.TrimSpace(groups[0])
		if key == "" {
			continue
		}
		if cause(key) < 0 || told[key] {
			t.Errorf("%q is no cause, or stands twice", key)
		}
		told[key] = true
		seen, checked, before := map[string]bool{}, false, 1.0
		for _, group := range groups[1:] {
			words := strings.Fields(group)
			p, ok := steps[words[0]]
			if !ok || p >= before {
				t.Errorf("%s: %q is no step, or out of order", key, words[0])
			}
			before = p
			for _, finding := range words[1:] {
				f := knowledge().finding(finding)
				if f < 0 || seen[finding] {
					t.Errorf("%s: %q is no sign or check, or stands twice", key, finding)
					continue
				}
				seen[finding] = true
				checked = checked || f >= len(Signs) && p == always
				if f < len(Signs) && Signs[f].NoFault != "" {
					t.Errorf("%s shows %s, which is no fault", key, finding)
				}
			}
		}
		if !checked {
			t.Errorf("%s: no check always brings it out", key)
		}
		if !slices.ContainsFunc(Signs, func(s Sign) bool { return !s.Fact && seen[s.Key] }) {
			t.Errorf("%s shows no sign", key)
		}
	}
	if len(told) != len(Causes) {
		t.Errorf("the table has %d of %d causes", len(told), len(Causes))
	}
}

func checkStep(t *testing.T, key, at string) {
	t.Helper()
	guide, step, _ := strings.Cut(at, "#")
	text, err := os.ReadFile("../../guides/" + guide + ".md")
	own := err == nil && strings.Contains(string(text), "{#"+step+"}")
	dead, _ := os.ReadFile("../../guides/make-dead.md")
	if !own && !(strings.Contains(string(text), "make-dead") && strings.Contains(string(dead), "{#"+step+"}")) {
		t.Errorf("%s: there is no step %s in guide %s", key, step, guide)
	}
}

// TestEverySignIsDrawn: the phone's small pictures and the signs are one set.
func TestEverySignIsDrawn(t *testing.T) {
	signs := 0
	for _, s := range Signs {
		if s.Fact {
			continue
		}
		signs++
		if SignPictures[s.Key].Thin == "" {
			t.Errorf("sign %s has no picture in sign_picture.go", s.Key)
		}
	}
	if drawn := len(SignPictures); drawn != signs {
		t.Errorf("%d pictures for %d signs", drawn, signs)
	}
}

// TestBoundIsGenerous: with three at once at the most, the chance left out is
// what four and more would have before anything is seen; it is small.
func TestBoundIsGenerous(t *testing.T) {
	priors := Seen{Context: unknown}.priors()
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
	t.Logf("left out by the bound: %.2g", more)
}
