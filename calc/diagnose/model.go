package diagnose

import (
	"cmp"
	"slices"
	"sync"

	"kerfside/calc/order"
)

// Seen is what is known of a bad cut.
type Seen struct {
	Answers map[string]bool // signs and checks by key: shows or does not
	Skipped map[string]bool // checks that cannot be made now
	Context Context
}

// Context is what the journal and the other sums know. Zero values say nothing.
type Context struct {
	TipMinutes       float64         // arc minutes since the tip was fitted; −1 if not known
	ElectrodeMinutes float64         // the same of the electrode
	DrainMinutes     float64         // arc minutes since the trap was drained
	Air, Power, Duty string          // verdicts of site-check: ok, tight, fails, doubt
	PastPlan         bool            // metal thicker than the plan's clean limit
	Found            map[string]int  // the crew's own confirmed faults by cause
	Failed           map[string]bool // guide steps, as torch-inspection#tip-size, answered worn or change and not cleared since
}

// The weights below are the authors' judgement.
const (
	usualTip       = 60.0 // arc minutes at which a tip is as suspect as its prior says
	usualElectrode = 90.0
	usualDrain     = 25.0 // minutes; common practice drains at 20 to 30
	justFitted     = 5.0  // arc minutes in which a thread-in electrode shows that it was not tightened
	aside          = 0.25 // share of its weight among all faults that a cause has by itself, so that most often one explains what is seen
	failedStep     = 10.0 // factor on the odds of what a guide step looks for, when the step was answered worn or change
	crewWeight     = 20.0 // how many confirmed faults the authors' priors count as
)

// age is the factor on the odds of a part's wear: a third for a new one, up to
// three times at three times its usual minutes.
func age(minutes, usual float64) float64 {
	if minutes < 0 {
		return 1
	}
	return min(3, 1.0/3+2.0/3*minutes/usual)
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
	tip, electrode, drain := age(c.TipMinutes, usualTip), age(c.ElectrodeMinutes, usualElectrode), age(c.DrainMinutes, usualDrain)
	air, power, duty := verdictFactor(c.Air), verdictFactor(c.Power), verdictFactor(c.Duty)
	f := map[string]float64{
		"tip-worn": tip, "tip-nicked": max(1, tip), "electrode-pitted": electrode, "air-wet": drain,
		"pressure-low": air, "volts-low": power, "generator-weak": power, "duty-passed": duty,
	}
	if c.PastPlan {
		f["metal-past-capacity"] = 10
	}
	return f
}

// priors of all causes: the authors', moved by the crew's own faults (each
// counts as one against crewWeight), then by the context through the odds.
func (c Context) priors() []float64 {
	total := 0
	for _, n := range c.Found {
		total += n
	}
	sum := 0.0
	for _, cause := range Causes {
		sum += cause.Prior
	}
	factors := c.factors()
	if c.ElectrodeMinutes >= 0 && c.ElectrodeMinutes < justFitted {
		factors["electrode-loose"] = 3
	}
	priors := make([]float64, len(Causes))
	for i, cause := range Causes {
		p := (crewWeight*cause.Prior + float64(c.Found[cause.Key])*sum) / (crewWeight + float64(total))
		p *= aside
		odds := p / (1 - p)
		if f, ok := factors[cause.Key]; ok {
			odds *= f
		}
		if c.Failed[cause.shownIn()] {
			odds *= failedStep
		}
		priors[i] = odds / (1 + odds)
	}
	return priors
}

// tables are what a network is built from: Causes, Signs and Checks as one.
type tables struct {
	findings  []Finding   // all signs and checks, in the order of the network
	frequency [][]float64 // how often each cause shows each finding, by finding, then by cause
}

// knowledge returns the tables, which are made when they are first asked for.
var knowledge = sync.OnceValue(func() tables {
	k := tables{findings: slices.Concat(Signs, Checks)}
	for _, finding := range k.findings {
		row := make([]float64, len(Causes))
		for c, cause := range Causes {
			row[c] = finding.given(cause.Key)
		}
		k.frequency = append(k.frequency, row)
	}
	return k
})

// build makes the network of a context.
func build(c Context) *Net {
	net, know := &Net{Priors: c.priors()}, knowledge()
	for f, finding := range know.findings {
		net.Leaks = append(net.Leaks, finding.Leak)
		for c, p := range know.frequency[f] {
			if p > 0 {
				net.Links = append(net.Links, Link{c, f, p})
			}
		}
	}
	return net
}

// Ranked is one cause after the answers.
type Ranked struct {
	Cause
	Chance  float64
	For     []string // labels of findings that speak for it
	Against []string
}

// State says what to do now.
type State string

const (
	Stop    State = "stop"     // a sign that means stop at once
	CheckOn State = "check"    // the next check is worth its minutes
	Act     State = "act"      // mend the first cause
	Service State = "service"  // stop; a qualified person mends this
	NoFault State = "no-fault" // what was seen is as it should be
	Nothing State = "nothing"  // nothing was seen yet
	None    State = "none"     // none of the known causes fits
)

// Result is what the fault finder thinks.
type Result struct {
	State  State
	Causes []Ranked  // most likely first
	None   float64   // chance that none of them is present
	Next   []Finding // checks worth making, best first
	Worth  []Worth
	Signs  []Finding // signs seen that mean stop, or that are no faults
}

// sure is the chance from which a cause is acted on rather than checked further
// (the authors' judgement).
const sure = .85

// Think ranks the causes and picks the next check. The order of the answers
// does not matter. A check that is answered is not asked again.
func Think(seen Seen) Result {
	var res Result
	findings := knowledge().findings
	answers := make([]Answer, len(findings))
	stop, faults := false, 0
	for f, finding := range findings {
		shows, known := seen.Answers[finding.Key]
		if !known {
			continue
		}
		if shows && (finding.NoFault != "" || finding.Stop != "") {
			res.Signs = append(res.Signs, finding)
		}
		if finding.NoFault != "" {
			continue
		}
		answers[f] = No
		if shows {
			answers[f] = Yes
			faults++
			stop = stop || finding.Stop != ""
		}
	}
	post := build(seen.Context).Posterior(answers)
	res.None = post.None
	res.rank(post, answers)
	if faults > 0 {
		res.weigh(post, answers, func(check Finding) bool { return !seen.Skipped[check.Key] && !(stop && check.Live) })
	}
	res.State = res.state(stop, faults, seen)
	return res
}

func (r *Result) rank(post *Posterior, answers []Answer) {
	know := knowledge()
	for i, cause := range Causes {
		ranked := Ranked{Cause: cause, Chance: post.Cause[i]}
		for f, answer := range answers {
			if answer == Unknown {
				continue
			}
			finding, p := know.findings[f], know.frequency[f][i]
			with := 1 - (1-finding.Leak)*(1-p)
			switch {
			case answer == Yes && p >= seldom:
				ranked.For = append(ranked.For, finding.Label)
			case answer == No && with >= often:
				ranked.Against = append(ranked.Against, finding.Label)
			}
		}
		r.Causes = append(r.Causes, ranked)
	}
	order.Stable(r.Causes, func(a, b Ranked) int { return cmp.Compare(b.Chance, a.Chance) })
}

// weigh finds the checks worth making: safety checks whose causes are live
// first, then by minutes saved; those that save none, by bits for each minute,
// since to know the cause has a worth of its own. Only checks that can be made
// are weighed.
func (r *Result) weigh(post *Posterior, answers []Answer, can func(check Finding) bool) {
	cost := make([]float64, len(Causes))
	for i, c := range Causes {
		cost[i] = c.Minutes
	}
	scales, frequency := post.scales(cost), knowledge().frequency
	type offer struct {
		finding Finding
		worth   Worth
		live    float64
	}
	var offers []offer
	for k, check := range Checks {
		f := len(Signs) + k
		if answers[f] != Unknown || !can(check) || !relevant(f, answers) {
			continue
		}
		o := offer{finding: check, worth: scales.Weigh(f, check.Minutes)}
		for i, p := range frequency[f] {
			if p >= often {
				o.live = max(o.live, post.Cause[i])
			}
		}
		// A check of a cause that is all but certain or all but excluded tells
		// nothing, whatever its minutes.
		if o.worth.Bits > 1e-3 || (check.Safety && o.live > .1) {
			offers = append(offers, o)
		}
	}
	order.Stable(offers, func(a, b offer) int {
		first := func(o offer) int {
			if o.finding.Safety && o.live > .1 {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(first(a), first(b)), cmp.Compare(max(b.worth.Value, 0), max(a.worth.Value, 0)), cmp.Compare(b.worth.Bits/b.finding.Minutes, a.worth.Bits/a.finding.Minutes))
	})
	for _, o := range offers {
		r.Next = append(r.Next, o.finding)
		r.Worth = append(r.Worth, o.worth)
	}
}

// relevant reports whether a check can speak of a cause that would show a sign
// which was seen: nobody is sent to measure what nothing points to.
func relevant(check int, answers []Answer) bool {
	frequency := knowledge().frequency
	for f, answer := range answers {
		if answer != Yes {
			continue
		}
		for c, p := range frequency[f] {
			if p > 0 && frequency[check][c] >= seldom {
				return true
			}
		}
	}
	return false
}

func (r *Result) state(stop bool, faults int, seen Seen) State {
	top := r.Causes[0]
	switch {
	case faults == 0 && len(r.Signs) > 0:
		return NoFault
	case faults == 0:
		return Nothing
	case stop:
		return Stop
	case r.None > .5 || top.Chance < .05:
		return None
	case top.Service && top.Chance >= .5:
		return Service
	case top.Chance >= sure || len(r.Next) == 0:
		return Act
	}
	return CheckOn
}
