package guides

import (
	"regexp"
	"strings"
	"testing"

	"kerfside/calc/safety"
)

var (
	// handInHead is what a hand does to the parts of a torch's head.
	handInHead = regexp.MustCompile(`(?i)\b(touch|measure|unscrew|screw|clean|clear|feel|wipe|brush|turn|tighten|lift|take|slide|pull|drop|fit|change|try)\b[^.:;?!]{0,48}?\b(cup|tip|electrode|swirl ring|o-ring|stack)\b`)
	// liveAgain is where a guide puts volts or air back on the torch.
	liveAgain = regexp.MustCompile(`(?i)\b(plug in|power on|switch on|air on)\b`)
	// otherWording is the procedure told in other words than its own.
	otherWording = regexp.MustCompile(`(?i)waited,? (and )?cool|cooled and bled|cooled, bled|bleed and cool|plug out, (discharge|wait)|power off and (unplug|bleed|bled)|unplug(ged)?,? and bleed|(off|out), unplug(ged)?, wait`)
)

// dangers says where a guide sends a hand into a head that is not dead: neither
// is make-dead taken in before it, with nothing switched on since, nor does the
// step carry the caution. A card, read as one page, may say it at its top.
func dangers(g *Guide) (found []string) {
	dead := g.ID == deadGuide || g.Form == "card" && strings.Contains(g.bodyText, safety.MadeDead)
	for _, st := range g.Steps {
		text := st.Title + ". " + st.doText
		dead = dead && !liveAgain.MatchString(text)
		hand := handInHead.FindString(text)
		if hand == "" && st.Slot != "" {
			hand = "the " + st.Slot
		}
		if hand != "" && !dead && !strings.Contains(st.doText, safety.MadeDead) {
			found = append(found, st.ID+": "+hand)
		}
		dead = dead || st.included && st.ID == lastDeadStep
	}
	return found
}

const (
	deadGuide    = "make-dead"
	lastDeadStep = "bleed"
)

// TestHandsOnlyInDeadTorch walks over all shipped guides.
func TestHandsOnlyInDeadTorch(t *testing.T) {
	for _, g := range shipped(t).guides {
		for _, d := range dangers(g) {
			t.Errorf("%s#%s, but the torch is not dead: take in [Make the torch dead](make-dead.md) before it, or begin the step with > %s", g.ID, d, safety.MadeDead)
		}
		if g.ID == deadGuide {
			continue
		}
		texts := []string{g.bodyText}
		for _, st := range g.Steps {
			if !st.included {
				texts = append(texts, st.doText, st.Good, st.Worn, st.Change, st.Pass, st.Fail, st.Why)
			}
		}
		for _, text := range texts {
			text = strings.ReplaceAll(text, safety.MadeDead, "")
			if other := otherWording.FindString(text); other != "" {
				t.Errorf("%s tells in its own words (%q) how a torch is made dead: say %q", g.ID, other, safety.MadeDead)
			}
		}
	}
}

// The order in which a torch is made dead is a matter of life: off, isolated,
// stored energy relieved (29 CFR 1910.147(d), read in copies).
func TestDeadOrder(t *testing.T) {
	lib := shipped(t)
	g, err := lib.Guide(deadGuide)
	if err != nil {
		t.Fatal(err)
	}
	at := 0
	for _, id := range []string{"after-flow", "unplug", "cool", lastDeadStep} {
		if at >= len(g.Steps) || g.Steps[at].ID != id || g.Steps[at].Slot != "" {
			t.Fatalf("step %d of %s is not %s, or is about a part", at+1, deadGuide, id)
		}
		at++
	}
	if at != len(g.Steps) {
		t.Errorf("%s goes on after %s", deadGuide, lastDeadStep)
	}
}

// TestDangers: a hand is found where it should not be, and only there.
func TestDangers(t *testing.T) {
	cup := Step{ID: "cup", doText: "Unscrew the cup."}
	part := Step{ID: "part", Slot: "tip", doText: "See how round it is."}
	said := Step{ID: "said", Slot: "tip", doText: safety.MadeDead + " Lift out the tip."}
	dead := Step{ID: lastDeadStep, included: true}
	own := Step{ID: lastDeadStep}
	test := Step{ID: "test", doText: "Couple the hose, plug in, strike."}
	for name, c := range map[string]struct {
		steps []Step
		form  string
		body  string
		want  string
	}{
		"nothing said":         {steps: []Step{cup, part}, form: "steps", body: safety.MadeDead, want: "cup: Unscrew the cup part: the tip"},
		"said in the step":     {steps: []Step{said, part}, form: "steps", want: "part: the tip"},
		"taken in":             {steps: []Step{dead, cup, part}, form: "steps"},
		"taken in too late":    {steps: []Step{cup, dead, part}, form: "steps", want: "cup: Unscrew the cup"},
		"not the procedure":    {steps: []Step{own, cup}, form: "steps", want: "cup: Unscrew the cup"},
		"live again":           {steps: []Step{dead, cup, test, part}, form: "steps", want: "part: the tip"},
		"a card that says it":  {steps: []Step{part}, form: "card", body: "Look. " + safety.MadeDead},
		"a card that does not": {steps: []Step{part}, form: "card", body: "Look.", want: "part: the tip"},
	} {
		got := strings.Join(dangers(&Guide{ID: "x", Form: c.form, bodyText: c.body, Steps: c.steps}), " ")
		if got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
