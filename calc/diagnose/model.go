package diagnose

import (
	"cmp"
	"slices"
	"strings"
	"sync"

	"kerfside/calc/order"
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

// tables are what a network is built from: all signs, then all checks.
type tables struct {
	keys, labels []string
	leaks        []float64
	frequency    [][]float64 // how often each cause shows each finding, by finding, then by cause
}

// knowledge returns the tables, which are made when they are first asked for.
var knowledge = sync.OnceValue(func() tables {
	var k tables
	for _, s := range Signs {
		k.keys, k.labels, k.leaks = append(k.keys, s.Key), append(k.labels, s.Label), append(k.leaks, s.Leak)
	}
	for _, c := range Checks {
		k.keys, k.labels, k.leaks = append(k.keys, c.Key), append(k.labels, c.Label), append(k.leaks, c.Leak)
	}
	k.frequency = make([][]float64, len(k.keys))
	for f := range k.frequency {
		k.frequency[f] = make([]float64, len(Causes))
	}
	for line := range strings.Lines(frequencies) {
		groups := strings.Split(line, "|")
		c := cause(strings.TrimSpace(groups[0]))
		for _, group := range groups[1:] {
			words := strings.Fields(group)
			for _, key := range words[1:] {
				k.frequency[k.finding(key)][c] = steps[words[0]]
			}
		}
	}
	return k
})

// finding is the place of a sign or check, −1 if there is none of that key.
func (k tables) finding(key string) int { return slices.Index(k.keys, key) }

func signKeys() []string  { return knowledge().keys[:len(Signs)] }
func checkKeys() []string { return knowledge().keys[len(Signs):] }

func causeKeys() []string {
	keys := make([]string, len(Causes))
	for i, c := range Causes {
		keys[i] = c.Key
	}
	return keys
}

// isStep reports whether a guide step looks for a cause or makes a check.
func isStep(step string) bool {
	return slices.ContainsFunc(Causes, func(c Cause) bool { return c.shownIn() == step }) ||
		slices.ContainsFunc(Checks, func(c Check) bool { return c.shownIn() == step || slices.Contains(c.Same, step) })
}

// frequency is how often a cause shows a sign, or a check brings it out.
func frequency(finding, ofCause string) float64 {
	know := knowledge()
	return know.frequency[know.finding(finding)][cause(ofCause)]
}

// cause is the place of a cause, −1 if there is none of that key.
func cause(key string) int {
	return slices.IndexFunc(Causes, func(c Cause) bool { return c.Key == key })
}

// build makes the network of what is known.
func build(s Seen) *Net {
	know := knowledge()
	net := &Net{Priors: s.priors(), Leaks: know.leaks}
	for f, row := range know.frequency {
		for c, p := range row {
			if p > 0 {
				net.Links = append(net.Links, Link{Cause: c, Finding: f, P: p})
			}
		}
	}
	return net
}

// Ranked is one cause after the answers.
type Ranked struct {
	Cause
	Chance  float64
	Found   bool     // a check brought it out
	For     []string // labels of findings that speak for it
	Against []string
}

// State says what to do now.
type State string

const (
	Stop    State = "stop"     // a sign that means stop at once
	CheckOn State = "check"    // make the next check
	Act     State = "act"      // mend the first cause
	Service State = "service"  // stop; a qualified person mends this
	Left    State = "left"     // all that can be asked was asked, and nothing is sure
	NoFault State = "no-fault" // what was seen is as it should be
	Nothing State = "nothing"  // nothing was seen yet
	None    State = "none"     // none of the known causes fits, though a check may be left
)

// Result is what the fault finder thinks.
type Result struct {
	State  State
	Causes []Ranked // most likely first
	None   float64  // chance that none of them is present
	Next   []Check  // checks to make, best first
	Signs  []Sign   // signs seen that mean stop, want something done at once, or are no faults
	Ruled  []Ruled
}

const (
	sure   = .85 // the chance from which a cause is acted on rather than checked further (the authors' judgement)
	hidden = .05 // a cause less likely than this is neither shown nor looked for: 1 in 20
)

// Think ranks the causes and picks the next check. The order of the answers
// does not matter. A check that is answered is not asked again.
func Think(seen Seen) Result {
	var res Result
	answers, stop, faults := seen.read(&res)
	post := build(seen).Posterior(answers)
	res.None, res.Ruled = post.None, seen.ruled()
	res.rank(post, answers)
	if faults > 0 {
		res.Next = res.search(seen, answers, stop)
	}
	res.State = res.state(answers, stop, faults)
	if res.State == Act || res.State == Service {
		// Only what the opened torch shows anyway is still worth a look.
		dead := res.State == Act && (seen.Open || res.Causes[0].inHead() || res.whole())
		res.Next = slices.DeleteFunc(res.Next, func(c Check) bool { return !dead || c.Hands != Dead })
	}
	return res
}

// grave reports whether a sign was seen after which only a cause that was found
// leads back to work.
func (r *Result) grave() bool {
	return slices.ContainsFunc(r.Signs, func(s Sign) bool { return s.Grave })
}

// whole reports whether a sign asks for a look at every part of the head.
func (r *Result) whole() bool {
	return slices.ContainsFunc(r.Signs, func(s Sign) bool { return s.Whole })
}

// read turns what is seen and known into the network's answers, tells whether a
// sign means stop, and counts the signs of a fault.
func (s Seen) read(res *Result) (answers []Answer, stop bool, faults int) {
	answers = make([]Answer, len(Signs)+len(Checks))
	say := func(f int, shows bool) {
		answers[f] = No
		if shows {
			answers[f] = Yes
		}
	}
	for f, sign := range Signs {
		shows, known := s.Answers[sign.Key]
		if shows && (sign.NoFault != "" || sign.Stop != "" || sign.Now != "" || sign.Grave) {
			res.Signs = append(res.Signs, sign)
		}
		if !known || sign.NoFault != "" {
			continue
		}
		say(f, shows)
		if shows && !sign.Fact {
			faults++
			stop = stop || sign.Stop != ""
		}
	}
	for k, check := range Checks {
		f := len(Signs) + k
		shows, known := s.Answers[check.Key]
		if !known {
			shows, known = s.told(check)
		}
		if known && !(shows && s.explained(f)) {
			say(f, shows)
		}
	}
	return answers, stop, faults
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

func (r *Result) rank(post *Posterior, answers []Answer) {
	know := knowledge()
	for i, cause := range Causes {
		ranked := Ranked{Cause: cause, Chance: post.Cause[i]}
		for f, answer := range answers {
			p := know.frequency[f][i]
			switch {
			case answer == Yes && p >= seldom:
				ranked.For = append(ranked.For, know.labels[f])
				ranked.Found = ranked.Found || f >= len(Signs) && p >= often
			case answer == No && p >= often:
				ranked.Against = append(ranked.Against, know.labels[f])
			}
		}
		r.Causes = append(r.Causes, ranked)
	}
	order.Stable(r.Causes, func(a, b Ranked) int { return cmp.Compare(b.Chance, a.Chance) })
}

// inHead reports whether the cause is found by a look into the head.
func (c Cause) inHead() bool {
	row := cause(c.Key)
	for k, check := range Checks {
		if check.Hands == Dead && knowledge().frequency[len(Signs)+k][row] == always {
			return true
		}
	}
	return false
}

// explains reports whether a cause shows one of the signs that mean stop, or
// that are grave.
func (r *Result) explains(key string) bool {
	return slices.ContainsFunc(r.Signs, func(s Sign) bool { return (s.Stop != "" || s.Grave) && frequency(s.Key, key) > 0 })
}

// certain reports whether a cause is to be acted on: a check brought it out, and
// it is all but sure. After a sign that means stop it has to explain that sign.
func (r *Result) certain(c Ranked, stop bool) bool {
	return c.Chance >= sure && c.Found && (!stop || r.explains(c.Key))
}

// service is the chance of causes that only a qualified person mends, at most 1.
func (r *Result) service() float64 {
	p := 0.0
	for _, c := range r.Causes {
		if c.Service {
			p += c.Chance
		}
	}
	return min(p, 1)
}

// state decides what to do now, and puts the cause that is acted on first: what
// was found is mended before the search goes on.
func (r *Result) state(answers []Answer, stop bool, faults int) State {
	switch {
	case faults == 0 && slices.ContainsFunc(r.Signs, func(s Sign) bool { return s.NoFault != "" }):
		return NoFault
	case faults == 0:
		return Nothing
	}
	if r.harmful(answers) {
		return Service
	}
	found := slices.IndexFunc(r.Causes, func(c Ranked) bool { return r.certain(c, stop) })
	r.first(found)
	top := r.Causes[0]
	switch {
	case found >= 0 && top.Service:
		return Service
	case found >= 0:
		return Act
	case stop && (len(r.Next) > 0 || r.grave()):
		return Stop
	case len(r.Next) == 0 && (r.grave() || top.Service && r.service() >= .5):
		return Service
	case r.None > .5 || top.Chance < hidden:
		return None
	case len(r.Next) > 0:
		return CheckOn
	}
	return Left
}

// first puts the cause at that place before all others.
func (r *Result) first(at int) {
	if at > 0 {
		c := r.Causes[at]
		r.Causes = slices.Insert(slices.Delete(r.Causes, at, at+1), 0, c)
	}
}

// harmful reports whether a check for harm was answered yes: that ends the
// search, however likely something else is. Its cause is put first.
func (r *Result) harmful(answers []Answer) bool {
	for k, check := range Checks {
		if !check.Safety || answers[len(Signs)+k] != Yes {
			continue
		}
		r.Next = nil
		r.first(slices.IndexFunc(r.Causes, func(c Ranked) bool { return c.Service && frequency(check.Key, c.Key) >= often }))
		return true
	}
	return false
}

// tells reports whether what a sign wants done at once is told: not beside a
// stop, nor beside a sign that hushes it.
func (r *Result) tells(sign Sign) bool {
	return !slices.ContainsFunc(r.Signs, func(s Sign) bool { return s.Stop != "" || slices.Contains(s.Hushes, sign.Key) })
}
