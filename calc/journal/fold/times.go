package fold

import (
	"cmp"
	"slices"
	"sort"

	"kerfside/calc/order"
)

// newestTimes is how many of the crew's newest times of a sort count, and newestSessions
// in how many sessions, or guides, they are looked for: habits change, and more tell
// little more.
const (
	newestTimes    = 200
	newestSessions = 200
)

// longestGuide is how long one going through a guide may take to count, in ms: a phone
// that was put away in between tells nothing.
const longestGuide = 2 * 3600 * 1000

// timing collects times by their sort, the newest first.
type timing struct {
	x       *index
	rig     string // "" for all
	without string // a job whose sessions do not count, "" for none
	all     map[string][]int64
	left    map[string]map[string]int // sort → why → how many were left out
}

// isIn reports whether what happened in a session counts; "" is outside of any.
func (t *timing) isIn(session string) bool {
	s := t.x.sessions[session]
	return t.without == "" || s == nil || s.job == nil || s.job.id != t.without
}

func (t *timing) is(rig string) bool { return t.rig == "" || t.rig == rig }

// take counts a time.
func (t *timing) take(what string, ms int64) {
	if len(t.all[what]) < newestTimes {
		t.all[what] = append(t.all[what], ms)
	}
}

// leave leaves a time out.
func (t *timing) leave(what, why string) {
	if t.left[what] == nil {
		t.left[what] = map[string]int{}
	}
	t.left[what][why]++
}

// session takes the times of a session.
func (t *timing) session(s *session) {
	waits := s.waits(t.x)
	for _, w := range slices.Backward(waits) {
		switch {
		case !t.is(w.rig):
		case !w.ended:
			t.leave("pause-"+w.why, "open")
		case w.stop > w.start:
			t.take("pause-"+w.why, w.stop-w.start)
		}
	}
	happened := s.happenings(waits)
	rigs := order.Keys(s.timelines)
	for _, rig := range slices.Backward(rigs) {
		if !t.is(rig) {
			continue
		}
		list := s.timelines[rig].stretches(t.x, rig)
		for i := len(list) - 1; i > 0; i-- {
			t.gap(happened, list[i-1], list[i])
		}
	}
}

// gap takes the time between two stretches of a session: for what was done in it, if that
// was one thing.
func (t *timing) gap(happened []happening, before, after stretch) {
	ms := after.start - before.stop
	what, done := within(happened, before, after)
	switch {
	case ms <= 0:
	case len(what) > 1:
		t.leave("gap", "several")
	case ms > longestPause:
		t.leave(cmp.Or(append(what, "gap")...), "long")
	case len(what) == 1 && (what[0] == "part" || what[0] == "drain"):
		t.take(what[0], ms)
	case len(what) == 1: // counted as what it is
	case before.cut == "" || after.cut == "":
		t.leave("gap", "no-cut")
	case before.cut != after.cut:
		t.take("row", ms)
	case done:
		t.take("piece", ms)
	default:
		t.take("again", ms)
	}
}

// happening is what was done in a session, at ms.
type happening struct {
	at        int64
	what, cut string
}

// sortsOf says of kinds what they tell that is done between two arcs.
var sortsOf = map[string]string{"part.fitted": "part", "trap.drained": "drain", "upkeep.done": "upkeep", "check.answered": "guide", "guide.opened": "guide", "check.cleared": "guide",
	"fault.seen": "fault", "fault.found": "fault", "fault.mended": "fault", "cut.done": "done"}

// happenings returns what was done in a session, in order of time.
func (s *session) happenings(waits []wait) []happening {
	var list []happening
	for _, e := range s.entries {
		if what := sortsOf[e.kind]; what != "" && e.counts(e.kind) && !e.hidden {
			list = append(list, happening{at: e.when(), what: what, cut: e.body.Text("cut")})
		}
	}
	for _, w := range waits {
		list = append(list, happening{at: w.start, what: "pause"})
	}
	order.Stable(list, func(a, b happening) int { return cmp.Compare(a.at, b.at) })
	return list
}

// within returns what was done from a stretch to the next, each sort once, and whether a
// piece of its cut was told as done.
func within(list []happening, before, after stretch) (what []string, done bool) {
	i := sort.Search(len(list), func(i int) bool { return list[i].at > before.start })
	for ; i < len(list) && list[i].at <= after.start; i++ {
		if h := list[i]; h.what == "done" {
			done = done || h.cut == before.cut
		} else if !slices.Contains(what, h.what) {
			what = append(what, h.what)
		}
	}
	return what, done
}

// guides takes how long guides took, from being opened to the last answer.
func (t *timing) guides() {
	all := t.x.guidesByLast.all()
	for _, g := range all[:min(newestSessions, len(all))] {
		opened, answers := visible(g.opened), visible(g.answers)
		if len(opened) == 0 || len(answers) < 2 || !t.is(t.x.rigOf(opened[0])) || !t.isIn(g.key.in) {
			continue
		}
		from, _ := earliest(opened)
		to, _ := latest(answers)
		switch ms := to - from; {
		case ms <= 0:
		case ms > longestGuide:
			t.leave("guide-"+g.key.guide, "long")
		default:
			t.take("guide-"+g.key.guide, ms)
		}
	}
}

// gates takes how long may-i-cut took, where an answer says so.
func (t *timing) gates() {
	var list []*entry
	for key, g := range t.x.guides {
		if key.guide == gateGuide {
			list = append(list, visible(g.answers)...)
		}
	}
	order.Sort(list, func(a, b *entry) int { return byPlace(b, a) })
	told := ""
	for _, e := range list { // several stops may be told by one tap
		ms, ok := e.body.IntIn("took", 1, longestGuide)
		if tap := e.device + string(e.wall); ok && t.is(t.x.rigOf(e)) && t.isIn(t.x.sessionOf(e)) && (e.wall == nil || tap != told) {
			told = tap
			t.take("gate", ms)
		}
	}
}
