package fold

import (
	"strconv"
	"strings"

	"kerfside/calc/journal/event"
)

// work is what an arc cut, as far as it is known: by the cut that it names, else by what
// its session was planned for. "" is not known.
type work struct {
	metal, surface, position string
	struck                   string // "edge" or "pierce"
}

// seen is a stretch of a rig's arcs with what it cut.
type seen struct {
	span
	*work
	overdue bool // the trap should have been drained before it
}

// looker finds what arcs cut. Each cut and session is read once.
type looker struct {
	x        *index
	cuts     map[*job]map[string]*work
	sessions map[*session]*work
	rigs     map[string][]seen
}

func newLooker(x *index) *looker {
	return &looker{x: x, cuts: map[*job]map[string]*work{}, sessions: map[*session]*work{}, rigs: map[string][]seen{}}
}

var nothingKnown = &work{}

// rig returns the stretches of a rig, in their order.
func (l *looker) rig(id string) []seen {
	if list, ok := l.rigs[id]; ok {
		return list
	}
	r := l.x.rig(id)
	union, arcs, drains, every := r.timeline.union(), r.timeline.arcs.all(), visible(r.drains.all()), r.every()
	list := make([]seen, 0, len(union))
	i, since := 0, int64(0)
	for k, u := range union {
		s := seen{span: u, work: nothingKnown}
		for ; i < len(arcs) && (k+1 == len(union) || arcs[i].start < union[k+1].start); i++ {
			if s.work == nothingKnown {
				s.work = l.work(l.x.arcs[arcs[i].id])
			}
		}
		for len(drains) > 0 && drains[0].when() <= u.start {
			drains, since = drains[1:], 0
		}
		s.overdue = since > every
		since += u.stop - u.start
		list = append(list, s)
	}
	l.rigs[id] = list
	return list
}

// work returns what an arc cut.
func (l *looker) work(a *arc) *work {
	if a.in == "" {
		return nothingKnown
	}
	s := l.x.session(a.in)
	if s.job != nil {
		if key := a.start.body.Text("cut"); key != "" {
			if w := l.cutsOf(s.job)[key]; w != nil {
				return w
			}
		}
	}
	w := l.sessions[s]
	if w == nil {
		w = nothingKnown
		planned := work{metal: s.fields.text("plan_metal"), surface: s.fields.text("plan_surface"), position: s.fields.text("plan_position"), struck: s.fields.text("plan_start")}
		if planned != (work{}) {
			w = &planned
		}
		l.sessions[s] = w
	}
	return w
}

// cutsOf returns what the cuts of a job are of, by KEY.
func (l *looker) cutsOf(j *job) map[string]*work {
	if m, ok := l.cuts[j]; ok {
		return m
	}
	m := map[string]*work{}
	for _, c := range j.cuts() {
		b := event.ReadBody(c.row)
		w := &work{metal: b.Text("metal"), surface: b.Text("surface"), position: b.Text("position"), struck: "edge"}
		if n, err := strconv.Atoi(strings.TrimSpace(b.Text("pierces"))); err == nil && n > 0 {
			w.struck = "pierce"
		} else if n, ok := b.Int("pierces"); ok && n > 0 {
			w.struck = "pierce"
		}
		m[c.key] = w
	}
	l.cuts[j] = m
	return m
}
