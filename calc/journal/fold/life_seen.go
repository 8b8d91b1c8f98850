package fold

import (
	"sort"
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

// looker finds what arcs cut. Each stretch, each cut and each session is read once, and
// only those that are asked for.
type looker struct {
	x        *index
	cuts     map[*job]map[string]*work
	sessions map[*session]*work
	rigs     map[string]*rigLook
}

// rigLook is what was found of a rig.
type rigLook struct {
	union, arcs []span
	works       []*work  // of each stretch; nil until it is asked for
	drains      []*entry // in order
	every       int64
	t           *timeline
}

func newLooker(x *index) *looker {
	return &looker{x: x, cuts: map[*job]map[string]*work{}, sessions: map[*session]*work{}, rigs: map[string]*rigLook{}}
}

var nothingKnown = &work{}

// rig returns what there is to find of a rig.
func (l *looker) rig(id string) *rigLook {
	v := l.rigs[id]
	if v == nil {
		r := l.x.rig(id)
		v = &rigLook{union: r.timeline.union(), arcs: r.timeline.arcs.all(), drains: visible(r.drains.all()), every: r.every(), t: r.timeline}
		v.works = make([]*work, len(v.union))
		l.rigs[id] = v
	}
	return v
}

// cut returns what the stretch k of a rig cut. Of arcs that overlap the first of which
// that is known counts.
func (l *looker) cut(v *rigLook, k int) *work {
	if v.works[k] == nil {
		v.works[k] = nothingKnown
		for i := startingAt(v.arcs, v.union[k].start); i < len(v.arcs) && (k+1 == len(v.union) || v.arcs[i].start < v.union[k+1].start); i++ {
			if w := l.work(l.x.arcs[v.arcs[i].id]); w != nothingKnown {
				v.works[k] = w
				break
			}
		}
	}
	return v.works[k]
}

// isOverdue reports whether the trap should have been drained before the stretch k.
func (v *rigLook) isOverdue(k int) bool {
	from, at := int64(always), v.union[k].start
	if i := sort.Search(len(v.drains), func(i int) bool { return v.drains[i].when() > at }); i > 0 {
		from = v.drains[i-1].when()
	}
	ms, _ := v.t.between(from, at)
	return ms > v.every
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
