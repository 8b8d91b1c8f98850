package fold

import (
	"cmp"

	"kerfside/calc/order"
)

// CutWork is what was done for one cut of a job, in one session or in all.
type CutWork struct {
	Cut     string   `json:"cut"`  // KEY, "" for arcs that name no cut
	Done    int64    `json:"done"` // pieces
	Ms      int64    `json:"ms"`   // arc time
	Starts  int64    `json:"starts"`
	Arcs    int      `json:"arcs"`
	Elapsed int64    `json:"elapsed"` // ms from the end of the arc before it, or the opening, to the end of its own
	Away    int64    `json:"away"`    // ms left out of that: times without an arc too long to be of the job
	From    int64    `json:"from"`    // its first arc began, 0 if it has none
	To      int64    `json:"to"`      // its last arc ended
	Waits   []Waited `json:"waits"`   // pauses within that time
}

// Waited is the time of pauses of one sort.
type Waited struct {
	Why string `json:"why"`
	N   int    `json:"n"`
	Ms  int64  `json:"ms"` // while no arc burnt
}

// add adds the work of the same cut in another session.
func (w *CutWork) add(o CutWork) {
	if o.Arcs > 0 && (w.Arcs == 0 || o.From < w.From) {
		w.From = o.From
	}
	w.Done, w.Ms, w.Starts, w.Arcs = w.Done+o.Done, w.Ms+o.Ms, w.Starts+o.Starts, w.Arcs+o.Arcs
	w.Elapsed, w.Away, w.To = w.Elapsed+o.Elapsed, w.Away+o.Away, max(w.To, o.To)
	for _, p := range o.Waits {
		w.wait(p)
	}
}

// wait adds pauses.
func (w *CutWork) wait(p Waited) {
	for i := range w.Waits {
		if w.Waits[i].Why == p.Why {
			w.Waits[i].N += p.N
			w.Waits[i].Ms += p.Ms
			return
		}
	}
	w.Waits = append(w.Waits, p)
	order.Sort(w.Waits, func(a, b Waited) int { return cmp.Compare(a.Why, b.Why) })
}

// cutWork is the work of several cuts, by KEY.
type cutWork map[string]*CutWork

func (m cutWork) of(cut string) *CutWork {
	if m[cut] == nil {
		m[cut] = &CutWork{Cut: cut, Waits: []Waited{}}
	}
	return m[cut]
}

// list returns them by KEY, arcs without a cut first.
func (m cutWork) list() []CutWork {
	all := []CutWork{}
	for _, key := range order.Keys(m) {
		all = append(all, *m[key])
	}
	return all
}

// work returns what was done in a session, by the cuts of its job. The time before an
// arc belongs to the cut of that arc: what is done then gets ready for it. Time after
// the last arc belongs to none.
func (s *session) work(x *index) cutWork {
	m := cutWork{}
	list := s.stretches(x)
	last := s.summary(x).Opened
	waits := s.waits(x)
	for i, st := range list {
		w := m.of(st.cut)
		if w.Arcs == 0 {
			w.From = st.start
		}
		w.Ms, w.Starts, w.Arcs, w.To = w.Ms+st.stop-st.start, w.Starts+st.starts, w.Arcs+st.arcs, max(w.To, st.stop)
		if i == 0 {
			last = min(last, st.start) // opened after it, by a clock that was wrong
		}
		if gap := st.start - last; gap > longestPause {
			w.Away += gap
			last = st.start
		}
		w.Elapsed += max(0, st.stop-last)
		last = max(last, st.stop)
		for len(waits) > 0 && waits[0].start < st.stop {
			w.wait(waits[0].besides(list))
			waits = waits[1:]
		}
	}
	for _, p := range waits {
		m.of("").wait(p.besides(list))
	}
	for _, e := range visible(s.entries) {
		if e.counts("cut.done") && s.job != nil && x.same.of(e.about) == s.job.id {
			m.of(e.body.Text("cut")).Done += e.pieces
		}
	}
	return m
}

// besides returns the pause without the time in which an arc burnt.
func (w wait) besides(list []stretch) Waited {
	ms, from := w.stop-w.start, w.start
	for _, st := range list {
		if a, b := max(from, st.start), min(w.stop, st.stop); a < b {
			ms -= b - a
			from = b
		}
	}
	return Waited{Why: w.why, N: 1, Ms: ms}
}
