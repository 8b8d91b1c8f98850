package diagnose

import (
	"slices"
)

// Seen is what is known of a bad cut.
type Seen struct {
	Answers map[string]bool // signs and checks by key: shows or does not
	Skipped map[string]bool // checks that cannot be made now
	Mended  map[string]bool // causes that were cured, which helped in part
	Open    bool            // the torch is dead and open now
	Context Context
}

// Context is what the journal, the plan and the other sums know.
type Context struct {
	TipMinutes       float64         // arc minutes since the tip was fitted; −1 if not known
	ElectrodeMinutes float64         // the same of the electrode
	DrainMinutes     float64         // arc minutes since the trap was drained
	Air, Power, Duty string          // verdicts of site-check: ok, tight, fails, doubt
	PastPlan         string          // "yes": thicker than the plan's clean limit; "no"; else not known
	Supply           string          // "mains", "generator"; "" if not known
	Warm             bool            // no frost: it is known to be too warm for ice
	Found            map[string]int  // the crew's own confirmed faults by cause
	Failed           map[string]bool // guide steps, as torch-inspection#tip-size, answered change and not cleared since
	Worn             map[string]bool // the same answered worn, which is not past the limit
	Passed           map[string]bool // guide steps answered good or done, on the parts that are in the torch
}

// The weights below are the authors' judgement.
const (
	usualTip       = 60.0 // arc minutes at which a tip is as suspect as its prior says
	usualElectrode = 90.0
	usualDrain     = 25.0 // minutes; common practice drains at 20 to 30
	newPart        = .05  // factor on the odds of wear at 0 minutes
	justDrained    = .3   // the same of water in a trap that was just drained: more may come
	settledIn      = 20.0 // arc minutes after which a tip of the wrong rating would have shown
	justFitted     = 5.0  // arc minutes in which a thread-in electrode shows that it was not tightened
	aside          = .25  // share of its weight among all faults that a cause has by itself, so that most often one explains what is seen
	failedStep     = 10.0 // factor on the odds of what a guide step looks for, when the step was answered change
	wornStep       = 2.0  // the same when it was answered worn
	crewWeight     = 20.0 // how many confirmed faults the authors' priors count as
)

// age is the factor on the odds of wear: least for a new part, 1 at its usual
// minutes, up to 3.
func age(minutes, usual, least float64) float64 {
	if minutes < 0 {
		return 1
	}
	return min(3, least+(1-least)*minutes/usual)
}

// verdictFactor is the factor on the odds of causes that a sum has judged.
func verdictFactor(verdict string) float64 {
	switch verdict {
	case "fails":
		return 6
	case "tight", "doubt":
		return 2
	case "ok":
		return .5
	}
	return 1
}

// factors of the context on the odds of each cause.
func (c Context) factors() map[string]float64 {
	tip, electrode := age(c.TipMinutes, usualTip, newPart), age(c.ElectrodeMinutes, usualElectrode, newPart)
	air, power := verdictFactor(c.Air), verdictFactor(c.Power)
	f := map[string]float64{
		"tip-worn": tip, "tip-nicked": max(1, tip), "electrode-pitted": electrode, "air-wet": age(c.DrainMinutes, usualDrain, justDrained),
		"pressure-low": air, "volts-low": power, "generator-weak": power, "circuit-overloaded": power, "duty-passed": verdictFactor(c.Duty),
	}
	if c.TipMinutes > settledIn {
		f["tip-large"] = newPart
	}
	if c.ElectrodeMinutes >= 0 && c.ElectrodeMinutes < justFitted {
		f["electrode-loose"] = 3
	}
	return f
}

// Ruled is a cause that what is known rules out.
type Ruled struct{ Cause, Why string }

// ruled lists the causes that cannot be. A sign that is seen counts for more
// than what is kept of the site.
func (s Seen) ruled() []Ruled {
	supply := s.Context.Supply
	switch {
	case s.Answers["generator"] || s.Answers["on-generator"]:
		supply = "generator"
	case s.Answers["on-mains"]:
		supply = "mains"
	}
	var list []Ruled
	if supply == "mains" {
		list = append(list, Ruled{"generator-weak", "the power comes from the mains"})
	}
	if s.Context.Warm && !s.Answers["frost"] {
		list = append(list, Ruled{"air-frozen", "it is too warm for ice"})
	}
	return list
}

// priors of all causes: the authors', moved by the crew's own faults (each
// counts as one against crewWeight), then by the context through the odds. What
// is ruled out or was mended has none.
func (s Seen) priors() []float64 {
	c := s.Context
	total, all := 0, 0.0
	for _, n := range c.Found {
		total += n
	}
	for _, cause := range Causes {
		all += cause.Prior
	}
	factors, ruled := c.factors(), s.ruled()
	priors := make([]float64, len(Causes))
	for i, cause := range Causes {
		if s.Mended[cause.Key] || slices.ContainsFunc(ruled, func(r Ruled) bool { return r.Cause == cause.Key }) {
			continue
		}
		p := (crewWeight*cause.Prior + float64(c.Found[cause.Key])*all) / (crewWeight + float64(total))
		p *= aside
		odds := p / (1 - p)
		if f, ok := factors[cause.Key]; ok {
			odds *= f
		}
		switch step := cause.shownIn(); {
		case c.Failed[step]:
			odds *= failedStep
		case c.Worn[step]:
			odds *= wornStep
		}
		priors[i] = odds / (1 + odds)
	}
	return priors
}

// told is the answer of a check that the plan or the journal holds.
func (s Seen) told(check Check) (shows, known bool) {
	if s.Answers["amps-up"] && check.Key == "amps-read" {
		return false, true
	}
	if plan := s.Context.PastPlan; check.Key == "plan-limit" && (plan == "yes" || plan == "no") {
		return plan == "yes", true
	}
	for _, step := range append([]string{check.shownIn()}, check.Same...) {
		switch {
		case s.Context.Failed[step]:
			return true, true
		case s.Context.Passed[step]:
			return false, true
		}
	}
	return false, false
}

// explained reports whether a finding that shows comes from a cause that was
// mended since, so that it says nothing of what is left.
func (s Seen) explained(f int) bool {
	for c, p := range knowledge().frequency[f] {
		if p >= often && s.Mended[Causes[c].Key] {
			return true
		}
	}
	return false
}
