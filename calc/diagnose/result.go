package diagnose

import (
	"cmp"
	"slices"

	"kerfside/calc/order"
)

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
