package fold

import (
	"cmp"
	"slices"
	"strings"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// jobPage is how many jobs a page of them holds that is asked for, and jobTop how many
// the view jobs does: that is made and stored anew when one of them changes. The newest
// of these come with all their fields, until those come to jobBytes.
const (
	jobPage  = 100
	jobTop   = 25
	jobBytes = 32 << 10
)

// Job is a job in short.
type Job struct {
	ID       string   `json:"id"`
	Same     []string `json:"same,omitempty"` // further ids that mean it
	Name     string   `json:"name"`
	Site     string   `json:"site"`
	Rig      string   `json:"rig"`
	Rows     int      `json:"rows"`     // cuts on its list
	RowsDone int      `json:"rowsDone"` // of which all pieces are done
	Pieces   int64    `json:"pieces"`   // of all cuts on its list
	Done     int64    `json:"done"`     // of these
	At       int64    `json:"at"`       // when something of it was last entered
	Open     string   `json:"open"`     // the newest of its sessions that are open, "" if none is
	Sessions int      `json:"sessions"`
	Number   string   `json:"number"` // on its papers
	Customer string   `json:"customer"`
	Quoted   int64    `json:"quoted"` // when something was quoted last, 0 if nothing was
	Price    int64    `json:"price"`  // that was quoted, in hundredths of the crew's currency
	Ended    int64    `json:"ended"`  // when its last session was closed, 0 if none was
	Billed   int64    `json:"billed"` // when it was, 0 if it was not
}

// JobItem is a job of a list, the newest with their fields.
type JobItem struct {
	Job
	*Fields
}

// Jobs are jobs, the one that was last touched first.
type Jobs struct {
	Jobs  []JobItem `json:"jobs"`
	Total int       `json:"total"`
}

// Jobs returns at most limit jobs that come after the job before; "" begins at the
// newest, limit 0 is a page.
func (f *Fold) Jobs(before string, limit int) Jobs {
	if limit <= 0 || limit > 10*jobPage {
		limit = jobPage
	}
	x := f.settled()
	all := x.jobsByLast()
	v := Jobs{Jobs: []JobItem{}, Total: len(all)}
	if i := slices.IndexFunc(all, func(j *job) bool { return j.id == x.same.of(before) }); i >= 0 {
		all = all[i+1:]
	}
	bytes := 0
	for _, j := range all[:min(limit, len(all))] {
		item := JobItem{Job: *j.short(x)}
		if bytes < jobBytes {
			fields := j.fields.view()
			for _, value := range fields.Fields {
				bytes += len(value)
			}
			item.Fields = &fields
		}
		v.Jobs = append(v.Jobs, item)
	}
	return v
}

// jobsByLast returns all jobs of which something stands, the one last touched first.
func (x *index) jobsByLast() []*job {
	var all []*job
	for _, j := range x.jobs {
		if j.id != "" && !j.isNothing() {
			all = append(all, j)
		}
	}
	order.Sort(all, func(a, b *job) int { return cmp.Or(cmp.Compare(b.short(x).At, a.short(x).At), cmp.Compare(a.id, b.id)) })
	return all
}

// short returns the job in short. What it points at is replaced, never changed.
func (j *job) short(x *index) *Job {
	if j.cached != nil {
		return j.cached
	}
	v := Job{ID: j.id, Same: x.aliases(j.id), Name: j.fields.text("name"), Site: x.same.of(j.fields.text("site")), Rig: x.same.of(j.fields.text("rig")),
		At: j.touched(x), Sessions: len(j.sessions)}
	v.Number, v.Customer = strings.TrimSpace(j.fields.text("number")), j.fields.text("customer")
	if w, ok := j.fields.winner(event.QuoteField); ok {
		quote := event.ReadBody(w.value)
		v.Quoted, v.Price = wholeIn(quote, "at", event.MaxMillis), wholeIn(quote, "price", maxCount)
	}
	if w, ok := j.fields.winner("billed"); ok {
		if at, ok := event.ReadInt(w.value); ok && 0 < at && at <= event.MaxMillis {
			v.Billed = at
		}
	}
	done := j.doneOf()
	for _, c := range j.cuts() {
		if c.removed {
			continue
		}
		count, n := c.count(), done[c.key]
		v.Rows++
		v.Pieces += count
		if v.Done += min(n, count); n >= count {
			v.RowsDone++
		}
	}
	for _, s := range j.byOpening(x) {
		of := s.summary(x)
		if of.Open {
			v.Open = s.id
		}
		v.Ended = max(v.Ended, of.Closed)
	}
	j.cached = &v
	return j.cached
}

// byOpening returns the sessions of the job, oldest first.
func (j *job) byOpening(x *index) []*session {
	var list []*session
	for s := range j.sessions {
		list = append(list, s)
	}
	order.Sort(list, func(a, b *session) int {
		return cmp.Or(cmp.Compare(a.summary(x).Opened, b.summary(x).Opened), cmp.Compare(a.id, b.id))
	})
	return list
}
