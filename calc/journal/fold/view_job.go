package fold

import (
	"cmp"
	"encoding/json"

	"kerfside/calc/problem"
)

// JobView is a job with its cuts, its sessions and what was done.
type JobView struct {
	Job
	Fields
	Cuts     []JobCut     `json:"cuts"`
	Loose    CutWork      `json:"loose"` // arcs of its sessions that name no cut
	Work     []JobSession `json:"work"`  // its sessions, oldest first
	Waiting  *Waiting     `json:"waiting"`
	Ms       int64        `json:"ms"` // arc time of all
	Starts   int64        `json:"starts"`
	Warnings []Warning    `json:"check"`
	*JobRecord
}

// JobCut is a cut of the list with what was done of it.
type JobCut struct {
	CutWork
	Row     json.RawMessage `json:"row"` // as it was typed; null if only work for it is here
	By      string          `json:"by"`  // the event that set it or took it off
	At      int64           `json:"at"`  // its place on the list
	Count   int64           `json:"count"`
	Left    int64           `json:"left"`    // pieces
	Removed bool            `json:"removed"` // taken off the list: it is here for what was done
}

// JobSession is a session of the job.
type JobSession struct {
	ID      string          `json:"id"`
	Title   string          `json:"title"`
	Rig     string          `json:"rig"`
	Open    bool            `json:"open"`
	Opened  int64           `json:"opened"`
	Closed  int64           `json:"closed"`
	Ms      int64           `json:"ms"`
	Starts  int64           `json:"starts"`
	Planned json.RawMessage `json:"planned"` // what was planned at its start, or null
	Cuts    []CutWork       `json:"cuts"`
}

// Waiting is a pause of an open session that nothing has ended yet.
type Waiting struct {
	ID  string `json:"id"`
	Why string `json:"why"`
	At  int64  `json:"at"`
}

// Job returns the view of a job. Its error is a problem.
func (f *Fold) Job(id string) (JobView, error) {
	x := f.settled()
	j := x.jobs[x.same.of(id)]
	if j == nil || id == "" || j.isNothing() {
		return JobView{}, problem.New(problem.NotFound, "id", "there is no such job on this phone", "It may come with the next sync.")
	}
	return j.view(x), nil
}

func (j *job) view(x *index) JobView {
	v := JobView{Job: *j.short(x), Fields: j.fields.view(), Cuts: []JobCut{}, Work: []JobSession{}, Warnings: []Warning{}, JobRecord: j.record(x)}
	all := cutWork{}
	for _, s := range j.byOpening(x) {
		of := s.summary(x)
		one := JobSession{ID: s.id, Title: of.Title, Rig: of.Rig, Open: of.Open, Opened: of.Opened, Closed: of.Closed, Ms: of.Ms, Starts: of.Starts, Cuts: s.work(x).list()}
		one.Planned = json.RawMessage("null")
		if w, ok := s.fields.winner("planned"); ok {
			one.Planned = w.value
		}
		for _, w := range one.Cuts {
			all.of(w.Cut).add(w)
		}
		v.Ms, v.Starts = v.Ms+of.Ms, v.Starts+of.Starts
		v.Work = append(v.Work, one)
		if of.Open {
			v.Waiting = cmp.Or(s.waiting(x), v.Waiting)
		}
	}
	for _, w := range all {
		w.Done = 0 // pieces may be told outside of its sessions too
	}
	for cut, n := range j.doneOf() {
		all.of(cut).Done = n
	}
	v.Loose = *all.of("")
	delete(all, "")
	for _, c := range j.cuts() {
		work := *all.of(c.key)
		delete(all, c.key)
		if c.removed && work.Done == 0 && work.Arcs == 0 {
			continue
		}
		cut := JobCut{CutWork: work, Row: c.row, By: c.by, At: c.at, Count: c.count(), Removed: c.removed}
		if cut.Left = max(0, cut.Count-cut.Done); c.removed {
			cut.Left = 0
		}
		if cut.Done > cut.Count && !c.removed {
			v.Warnings = append(v.Warnings, Warning{What: "more-done", ID: c.by, Msg: "more pieces are done than the list has"})
		}
		v.Cuts = append(v.Cuts, cut)
	}
	for _, work := range all.list() { // their cut has not come yet
		v.Cuts = append(v.Cuts, JobCut{CutWork: work, Row: json.RawMessage("null")})
	}
	return v
}
