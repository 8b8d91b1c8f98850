package fold

import (
	"slices"
	"sort"

	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// Months are what was done in each of some times that follow each other, by rig.
type Months struct {
	Months []Month `json:"months"`
}

// Month is one of these times: from its beginning to before the next.
type Month struct {
	From int64      `json:"from"`
	To   int64      `json:"to"`
	Rigs []RigMonth `json:"rigs"` // with which something was done, by id; "" is no rig that anybody told
}

// RigMonth is what was done with a rig in such a time.
type RigMonth struct {
	Rig      string  `json:"rig"`
	Sessions int     `json:"sessions"` // opened
	Jobs     int     `json:"jobs"`     // of these sessions
	Ms       int64   `json:"ms"`       // arc time
	Starts   int64   `json:"starts"`
	Metals   []Share `json:"metals"` // arc time, as far as it is known what was cut; the largest first
	Fitted   []Share `json:"fitted"` // parts, by slot
	Failed   []Share `json:"failed"` // parts that came out worn or damaged, by slot
	Drains   int     `json:"drains"`
	Tried    int     `json:"tried"` // cuts with how they went
	Good     int     `json:"good"`  // of these
	Found    int     `json:"found"` // faults of which the cause was found
}

// mostMonths is how many times may be asked for at once.
const mostMonths = 1200

// Months returns what was done between bounds that rise, each the end of one time and the
// beginning of the next. What a stretch of arc did belongs whole to when it began. Its error is
// a problem.
func (f *Fold) Months(bounds []int64) (Months, error) {
	rise := len(bounds) <= mostMonths+1
	for i := 1; i < len(bounds); i++ {
		rise = rise && bounds[i-1] < bounds[i]
	}
	if !rise {
		return Months{}, problem.New(problem.Malformed, "bounds", "these bounds do not rise, or are too many", "Update the app.")
	}
	m := &months{x: f.settled(), bounds: bounds, rigs: make([]map[string]*rigMonth, max(1, len(bounds))-1)}
	m.sessions()
	m.arcs()
	m.parts()
	m.faults()
	v := Months{Months: []Month{}}
	for i, rigs := range m.rigs {
		one := Month{From: bounds[i], To: bounds[i+1], Rigs: []RigMonth{}}
		for _, id := range order.Keys(rigs) {
			r := rigs[id]
			r.Rig, r.Jobs, r.Metals, r.Fitted, r.Failed = id, len(r.jobs), r.metals.list(), r.fitted.list(), r.failed.list()
			one.Rigs = append(one.Rigs, r.RigMonth)
		}
		v.Months = append(v.Months, one)
	}
	return v, nil
}

// months adds up what was done in each time.
type months struct {
	x      *index
	bounds []int64
	rigs   []map[string]*rigMonth
}

type rigMonth struct {
	RigMonth
	jobs                   map[string]bool
	metals, fitted, failed shares
}

// at returns the time that ms falls into, -1 if it falls into none.
func (m *months) at(ms int64) int {
	i := sort.Search(len(m.bounds), func(i int) bool { return m.bounds[i] > ms }) - 1
	if i >= len(m.rigs) {
		return -1
	}
	return i
}

// of returns what a rig did in the time that ms falls into, nil if it falls into none.
func (m *months) of(rig string, ms int64) *rigMonth {
	i := m.at(ms)
	if i < 0 {
		return nil
	}
	if m.rigs[i] == nil {
		m.rigs[i] = map[string]*rigMonth{}
	}
	r := m.rigs[i][rig]
	if r == nil {
		r = &rigMonth{jobs: map[string]bool{}, metals: shares{}, fitted: shares{}, failed: shares{}}
		m.rigs[i][rig] = r
	}
	return r
}

// sessions adds sessions, their jobs and the cuts that were tried, in sessions or not.
func (m *months) sessions() {
	for _, s := range m.x.book.all() {
		if r := m.of(s.bookRow.Rig, s.bookRow.Opened); r != nil {
			r.Sessions++
			if s.job != nil {
				r.jobs[s.job.id] = true
			}
		}
		if s.sums.cuts == 0 {
			continue
		}
		for _, e := range s.entries {
			m.tried(e)
		}
	}
	for _, e := range m.x.outside.all() {
		m.tried(e)
	}
}

// tried adds a cut that was tried.
func (m *months) tried(e *entry) {
	if !e.counts("cut.tried") || e.hidden {
		return
	}
	if r := m.of(m.x.rigOf(e), e.when()); r != nil {
		r.Tried++
		if e.body.Text("verdict") == "good" {
			r.Good++
		}
	}
}

// arcs adds arc time, by what was cut, and drained traps.
func (m *months) arcs() {
	look := newLooker(m.x)
	for _, id := range order.Keys(m.x.rigs) {
		for _, e := range visible(m.x.rigs[id].drains.all()) {
			if r := m.of(id, e.when()); r != nil {
				r.Drains++
			}
		}
		of := look.rig(id)
		for i := range m.rigs {
			for k := startingAt(of.union, m.bounds[i]); k < len(of.union) && of.union[k].start < m.bounds[i+1]; k++ {
				s, r := of.union[k], m.of(id, of.union[k].start)
				r.Ms, r.Starts = r.Ms+s.stop-s.start, r.Starts+s.starts
				r.metals.add(look.cut(of, k).metal, s.stop-s.start)
			}
		}
	}
}

// parts adds parts that were fitted and that failed, as their lives have it.
func (m *months) parts() {
	for _, p := range gatherLives(m.x).all {
		for _, f := range p.fits {
			if r := m.of(f.rig, f.from); r != nil {
				r.fitted.add(f.slot, 1)
			}
			if f.out == nil || !slices.Contains(failures, f.out.body.Text("why")) {
				continue
			}
			if r := m.of(f.rig, f.to); r != nil {
				r.failed.add(f.slot, 1)
			}
		}
	}
}

// faults adds those of which the cause was found, when it was told last.
func (m *months) faults() {
	for _, f := range m.x.faults {
		e := f.finding()
		if e == nil {
			continue
		}
		if r := m.of(f.rig(m.x), e.when()); r != nil {
			r.Found++
		}
	}
}
