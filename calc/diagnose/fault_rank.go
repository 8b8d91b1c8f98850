package diagnose

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/margin"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// judged words of site-check, or not known.
func judged() *form.Type {
	return form.OneOf(margin.Words...)
}

// FaultRank is the calculator fault-rank.
var FaultRank = form.Declaration{Name: "fault-rank", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Fault finder",
		About: "Ranks what can be wrong from the signs seen and the checks made. Names the next check in an old hand's order.",
		Place: "fix",
		Terms: []string{"trouble", "diagnosis", "bad cut", "dross", "no arc", "will not transfer", "why"},
		Fields: append([]form.Field{
			{Key: "signs", Label: "Signs seen", Help: "Words parted by commas, such as heavy-dross, wide-cut.", Takes: form.Text(), Optional: true, Chips: []string{"heavy-dross", "no-transfer", "unsteady"}},
			{Key: "absent", Label: "Signs looked for and not seen", Takes: form.Text(), Optional: true},
			{Key: "checks", Label: "Checks made", Help: "Such as trap-water:no, tip-gauge:yes.", Takes: form.Text(), Optional: true},
			{Key: "skipped", Label: "Checks that cannot be made now", Help: "Such as volts-load, slide-push.", Takes: form.Text(), Optional: true, Fine: true},
			{Key: "mended", Label: "Mended, which helped in part", Help: "Causes, such as tip-worn.", Takes: form.Text(), Optional: true, Fine: true},
			{Key: "open", Label: "The torch is dead and open now", Takes: form.YesNo(), Optional: true, Fine: true},
			{Key: "tip_minutes", Label: "Arc time on the tip", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Fine: true, Limits: form.Within(0*unit.Minute, 10000*unit.Minute)},
			{Key: "electrode_minutes", Label: "Arc time on the electrode", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Fine: true, Limits: form.Within(0*unit.Minute, 10000*unit.Minute)},
			{Key: "drain_minutes", Label: "Arc time since the trap was drained", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Fine: true, Limits: form.Within(0*unit.Minute, 10000*unit.Minute)},
			{Key: "air", Label: "Air, by the site check", Takes: judged(), Default: "unknown", Fine: true},
			{Key: "power", Label: "Power, by the site check", Takes: judged(), Default: "unknown", Fine: true},
			{Key: "duty", Label: "Duty, by the site check", Takes: judged(), Default: "unknown", Fine: true},
			{Key: "past_plan", Label: "Thicker than the plan cuts clean", Takes: form.OneOf("unknown", "not known", "yes", "yes", "no", "no"), Default: "unknown", Fine: true},
			{Key: "passed", Label: "Guide steps answered good", Help: "Such as torch-inspection#tip-size.", Takes: form.Text(), Optional: true, Fine: true},
			{Key: "failed", Label: "Guide steps answered change", Help: "Such as torch-inspection#tip-size.", Takes: form.Text(), Optional: true, Fine: true},
			{Key: "worn", Label: "Guide steps answered worn", Help: "Such as torch-inspection#tip-size.", Takes: form.Text(), Optional: true, Fine: true},
			{Key: "found", Label: "Own faults, by count", Help: "Such as tip-worn:3, air-wet:2.", Takes: form.Text(), Optional: true, Fine: true},
		}, keptFields()...),
		Results: []form.Result{
			{Key: "state", Label: "Now", Gives: form.OneOf("stop", "STOP: power off at the isolator and unplug first", "check", "Make the next check", "act", "Mend the first of these", "service", "Stop: have the machine serviced",
				"left", "Nothing is left to ask: try these in this order", "no-fault", "This is no fault", "nothing", "Pick what you see", "none", "None of the known causes fits"), Main: true},
			{Key: "causes", Label: "Most likely", Gives: form.Rows("label", "Cause", "words", "How likely", "do", "Do", "for", "For it", "against", "Against it")},
			{Key: "next", Label: "Next checks", Gives: form.Rows("label", "Check", "do", "How", "setup", "Minutes before", "minutes", "Minutes")},
			{Key: "ruled", Label: "Not looked for", Gives: form.Rows("label", "Cause", "why", "Since")},
			{Key: "none", Label: "None of these", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "no_faults", Label: "No faults", Gives: form.Rows("label", "Seen", "why", "Why it is none")},
		},
		Sources: []source.ID{"kadane-1977", "pearl-1988", "kerfside-judgement"},
		Run:     runRank,
	}
}}

// shown is how many causes are told.
const shown = 6

func runRank(r *form.Reader, a *form.Answer) error {
	seen := Seen{Answers: map[string]bool{}, Skipped: map[string]bool{}, Mended: map[string]bool{}, Open: r.Has("open") && form.GetYes(r, "open"), Context: Context{
		TipMinutes: minutesOf(r, "tip_minutes"), ElectrodeMinutes: minutesOf(r, "electrode_minutes"), DrainMinutes: minutesOf(r, "drain_minutes"),
		Air: form.GetWord(r, "air"), Power: form.GetWord(r, "power"), Duty: form.GetWord(r, "duty"), PastPlan: form.GetWord(r, "past_plan"),
		Found: map[string]int{}, Failed: map[string]bool{}, Worn: map[string]bool{}, Passed: map[string]bool{},
	}}
	readWords(r, "signs", "sign", signKeys(), func(key string) { seen.Answers[key] = true })
	readWords(r, "absent", "sign", signKeys(), func(key string) {
		if seen.Answers[key] {
			r.Fail("absent", problem.Newf(problem.Conflict, "absent", "%s is both seen and not seen", key).WithHint("Take it out of one of the two."))
		}
		seen.Answers[key] = false
	})
	readChecks(r, seen.Answers)
	readWords(r, "skipped", "check", checkKeys(), func(key string) { seen.Skipped[key] = true })
	readWords(r, "mended", "cause", causeKeys(), func(key string) { seen.Mended[key] = true })
	readFound(r, seen.Context.Found)
	readSteps(r, "failed", seen.Context.Failed)
	readSteps(r, "worn", seen.Context.Worn)
	readSteps(r, "passed", seen.Context.Passed)
	kept := readKept(r, a, &seen.Context)
	if err := r.Err(); err != nil {
		return err
	}
	put(a, Think(seen), kept, seen.Open)
	return nil
}

// minutesOf reads arc minutes, −1 if none are given.
func minutesOf(r *form.Reader, key string) float64 {
	if !r.Has(key) {
		return -1
	}
	return float64(form.Get[unit.Duration](r, key) / unit.Minute)
}

func split(text string) []string {
	var words []string
	for _, w := range strings.Split(text, ",") {
		if w = strings.TrimSpace(w); w != "" {
			words = append(words, w)
		}
	}
	return words
}

func readWords(r *form.Reader, field, kind string, keys []string, found func(key string)) {
	for _, w := range split(form.GetText(r, field)) {
		if !slices.Contains(keys, w) {
			r.Fail(field, problem.Newf(problem.Unknown, field, "%q is not a %s that is known", w, kind).WithHint("One of %s.", strings.Join(keys, ", ")))
			return
		}
		found(w)
	}
}

func readChecks(r *form.Reader, answers map[string]bool) {
	for _, w := range split(form.GetText(r, "checks")) {
		key, outcome, _ := strings.Cut(w, ":")
		if !slices.Contains(checkKeys(), key) || (outcome != "yes" && outcome != "no") {
			r.Fail("checks", problem.Newf(problem.Unknown, "checks", "%q is not a check with its answer", w).WithHint("Write such as trap-water:yes, clamp-warm:no."))
			return
		}
		answers[key] = outcome == "yes"
	}
}

func readFound(r *form.Reader, found map[string]int) {
	for _, w := range split(form.GetText(r, "found")) {
		key, count, _ := strings.Cut(w, ":")
		n, err := strconv.Atoi(count)
		if err != nil || n < 0 || n > 100000 || cause(key) < 0 {
			r.Fail("found", problem.Newf(problem.Unknown, "found", "%q is not a cause with its count", w).WithHint("Write such as tip-worn:3."))
			return
		}
		found[key] += n
	}
}

// readSteps reads guide steps that look for a cause.
func readSteps(r *form.Reader, field string, steps map[string]bool) {
	for _, w := range split(form.GetText(r, field)) {
		if !isStep(w) {
			r.Fail(field, problem.Newf(problem.Unknown, field, "%q is not a guide step that looks for a cause", w).WithHint("Write such as torch-inspection#tip-size."))
			return
		}
		steps[w] = true
	}
}

// Odds says a chance in words and a number: "about 6 in 10".
func Odds(p float64) string {
	switch {
	case p < .01:
		return "less than 1 in 100"
	case p < .095:
		step := 10.0
		if 1/p < 25 {
			step = 5
		}
		return fmt.Sprintf("about 1 in %.0f", step*math.Round(1/p/step))
	case p > .985:
		return "all but certain"
	case p > .945:
		return "about 19 in 20"
	}
	return fmt.Sprintf("about %.0f in 10", 10*p)
}

func put(a *form.Answer, res Result, kept kept, open bool) {
	a.PutWord("state", string(res.State))
	var causes, next, none, ruled []*form.Row
	for _, c := range res.Causes[:shown] {
		if res.State == Nothing || res.State == NoFault || c.Chance < hidden {
			break
		}
		row := a.NewRow()
		row.PutWord("cause", c.Key)
		row.PutWord("label", c.Label)
		row.PutFactor("chance", c.Chance)
		row.PutWord("words", Odds(c.Chance))
		row.PutWord("do", c.Do)
		row.PutWord("for", strings.Join(c.For, "; "))
		row.PutWord("against", strings.Join(c.Against, "; "))
		row.PutWord("guide", c.Guide)
		row.PutWord("step", c.Step)
		row.PutWord("part", c.Part)
		row.PutYes("service", c.Service)
		causes = append(causes, row)
	}
	dead := res.State == Act && res.Causes[0].inHead()
	for i, check := range res.Next {
		row := a.NewRow()
		row.PutWord("check", check.Key)
		row.PutWord("label", kept.fill(check.Label))
		row.PutWord("do", kept.fill(check.Do))
		row.PutWord("hands", string(check.Hands))
		row.PutFactor("setup", check.setUp(open))
		row.PutFactor("minutes", check.Minutes)
		row.PutWord("yes", check.Yes)
		row.PutWord("no", check.No)
		row.PutYes("safety", check.Safety)
		row.PutWord("guide", check.Guide)
		row.PutWord("step", check.Step)
		next = append(next, row)
		dead = dead || check.Hands == Dead && (i == 0 || res.State == Act)
		open = open || check.Hands == Dead
	}
	for _, f := range res.Signs {
		switch {
		case f.Stop != "":
			a.Caution("%s", f.Stop)
		case f.Now != "":
			if res.tells(f) {
				a.Caution("%s", f.Now)
			}
		case f.NoFault != "":
			row := a.NewRow()
			row.PutWord("sign", f.Key)
			row.PutWord("label", f.Label)
			row.PutWord("why", f.NoFault)
			none = append(none, row)
			a.Step("%s: %s", f.Label, f.NoFault)
		}
	}
	for _, out := range res.Ruled {
		row := a.NewRow()
		row.PutWord("label", Causes[cause(out.Cause)].Label)
		row.PutWord("why", out.Why)
		ruled = append(ruled, row)
	}
	a.PutRows("causes", causes)
	a.PutRows("next", next)
	a.PutRows("ruled", ruled)
	a.PutRows("no_faults", none)
	form.Put(a, "none", unit.Ratio(res.None))
	if len(causes) > 0 {
		a.Step("the frequencies behind this are the authors' judgement; your crew's own confirmed faults move them")
	}
	if dead {
		a.Caution(safety.MadeDead)
	}
}
