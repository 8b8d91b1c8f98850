package fold

import (
	"slices"

	"kerfside/calc/journal/event"
)

// job is a piece of work with a list of cuts, and the sessions in which they are made.
type job struct {
	id       string
	fields   register
	sets     sortedList[*entry] // job.set
	done     sortedList[*entry] // cut.done
	sessions map[*session]bool

	cached *Job // in short; nil if something changed since
}

// maxDone bounds the pieces that one entry tells of, so that a slip cannot make sums
// overflow.
const maxDone = 100_000

var jobFamily = family{kinds: []string{"job.set", "cut.done"}, add: (*index).addJob, drop: (*index).dropJob}

// addJob takes fields of a job, or pieces that were cut.
func (x *index) addJob(e *entry) {
	j := x.job(x.same.of(e.about))
	if e.kind == "job.set" {
		j.fields.set(e)
		j.sets.put(e)
		x.invalidateJob(j)
		return
	}
	e.pieces = 1
	if e.body.Get("n") != nil {
		n, ok := e.body.IntIn("n", 1, maxDone)
		if !ok {
			e.odd = true
			e.warn("odd", "this many pieces cannot be")
			return
		}
		e.pieces = n
	}
	j.done.put(e)
	x.invalidateJob(j)
}

// dropJob takes it out again.
func (x *index) dropJob(e *entry) {
	j := x.job(x.same.of(e.about))
	x.invalidateJob(j)
	if e.kind == "job.set" {
		j.fields.unset(e)
		j.sets.remove(e)
		return
	}
	j.done.remove(e)
}

// job returns the job of that id, a new one if need be.
func (x *index) job(id string) *job {
	j := x.jobs[id]
	if j == nil {
		j = &job{id: id, fields: register{}, sets: sortedList[*entry]{compare: byPlace}, done: sortedList[*entry]{compare: byPlace}, sessions: map[*session]bool{}}
		x.jobs[id] = j
	}
	return j
}

// invalidateJob drops what was computed from a job.
func (x *index) invalidateJob(j *job) { j.cached, x.stale.jobs = nil, true }

// assignJob notes to which job a session belongs. What the job says of its sessions
// changes when one comes, goes, is opened or is closed, and not with each arc.
func (x *index) assignJob(s *session) {
	v := s.summary(x)
	var j *job
	if v.Job != "" && !s.hidden() {
		j = x.job(v.Job)
	}
	if was := s.bookRow; j == s.job && (j == nil || was != nil && was.Opened == v.Opened && was.Closed == v.Closed && was.Open == v.Open) {
		return
	}
	if s.job != nil {
		delete(s.job.sessions, s)
		x.invalidateJob(s.job)
	}
	if s.job = j; j != nil {
		j.sessions[s] = true
		x.invalidateJob(j)
	}
}

// touched returns when something of the job was last entered or done.
func (j *job) touched(x *index) int64 {
	at := int64(0)
	for _, e := range visible(j.sets.all()) {
		at = max(at, e.place.O.Ms())
	}
	for _, e := range visible(j.done.all()) {
		at = max(at, e.when())
	}
	for s := range j.sessions {
		v := s.summary(x)
		at = max(at, v.Opened, v.Closed)
	}
	return at
}

// doneOf returns how many pieces of each cut were told as done.
func (j *job) doneOf() map[string]int64 {
	n := map[string]int64{}
	for _, e := range visible(j.done.all()) {
		n[e.body.Text("cut")] += e.pieces
	}
	return n
}

// isNothing reports whether nothing of the job stands.
func (j *job) isNothing() bool {
	return j.fields.empty() && len(j.sessions) == 0 && !slices.ContainsFunc(j.done.all(), func(e *entry) bool { return !e.hidden })
}

// isCut reports whether a field is a cut of a job's list.
func isCut(kind, field string) bool {
	return kind == "job.set" && len(field) > len(event.CutField) && field[:len(event.CutField)] == event.CutField
}
