package book

import (
	"strconv"
	"strings"

	"kerfside/calc/journal/fold"
	"kerfside/calc/unit"
)

// jobsShown is how many jobs one screen of them has.
const jobsShown = 50

// jobs reports the jobs, the one last touched first.
func (b *book) jobs() (Report, error) {
	r := Report{Title: "Jobs", Actions: []Action{{Label: "New job", Act: "new-job"}}}
	list := b.fold.Jobs(b.Query["before"], jobsShown+1).Jobs
	if len(list) == 0 {
		r.Says = []string{"No job yet. List its cuts: time, parts and price follow."}
		return r, nil
	}
	s := Section{Actions: []Action{{Label: "All jobs as a table", Href: "/book/jobs-list"}}}
	for _, j := range list[:min(jobsShown, len(list))] {
		row := Row{Title: capital(jobName(j.Name)), Href: "/job/" + j.ID, Says: []string{b.jobState(j)}}
		var about []string
		for _, text := range []string{j.Number, j.Customer, b.day(j.At)} {
			if text != "" {
				about = append(about, text)
			}
		}
		row.Says = append(row.Says, strings.Join(about, " · "))
		s.Rows = append(s.Rows, row)
	}
	if len(list) > jobsShown {
		s.Actions = append(s.Actions, Action{Label: "Older jobs", Href: "/jobs?before=" + list[jobsShown-1].ID})
	}
	r.Sections = []Section{s}
	return r, nil
}

// newJob answers "New job": the phone makes its id.
func (b *book) newJob(Act) (Done, error) { return Done{Href: "/job/" + NewThing}, nil }

// jobState says how far a job is, and what is left to do with it.
func (b *book) jobState(j fold.JobItem) string {
	cuts := unit.Count(j.Pieces, "cut", "cuts")
	left := strconv.FormatInt(j.Pieces-j.Done, 10) + " of " + strconv.FormatInt(j.Pieces, 10) + " left"
	said := "All " + cuts + " done"
	switch {
	case j.Open != "":
		return "Under way: " + left
	case j.Billed > 0:
		return "Billed " + b.day(j.Billed)
	case j.Done == 0 && j.Quoted > 0:
		return "Quoted " + b.quotedOf(j) + ", " + cuts + " planned"
	case j.Done == 0:
		return cuts + " planned"
	case j.Done < j.Pieces:
		said = left
	}
	return said + ", not billed"
}

// quotedOf is what was quoted for a job of a list, "" if nothing was.
func (b *book) quotedOf(j fold.JobItem) string {
	if j.Quoted == 0 {
		return ""
	}
	if j.Fields != nil { // in the currency of its day
		if q, ok := quotedFor(fold.JobView{Fields: *j.Fields}); ok {
			return inCurrency(q.currency, q.price)
		}
	}
	return b.money(j.Price)
}

// jobsList reports the jobs as a table.
func (b *book) jobsList() (Report, error) {
	t := Table{Columns: []Column{{Key: "number", Title: "Number"}, {Key: "job", Title: "Job"}, {Key: "customer", Title: "Customer", Private: true}, {Key: "state", Title: "State"},
		{Key: "cuts", Title: "Cuts", Number: true}, {Key: "quoted", Title: "Quoted", Number: true}, {Key: "ended", Title: "Ended", Number: true}, {Key: "billed", Title: "Billed", Number: true}}}
	day := func(at int64) Cell {
		if at == 0 {
			return Cell{}
		}
		return Cell{Text: b.day(at), Value: float64(at), Plain: b.stamp(at)}
	}
	for _, j := range b.fold.Jobs("", mostRows).Jobs {
		price := Cell{Text: b.quotedOf(j)}
		if j.Quoted > 0 {
			price.Value, price.Plain = float64(j.Price), inCurrency("", j.Price)
		}
		href := "/job/" + j.ID
		t.Rows = append(t.Rows, []Cell{{Text: j.Number, Href: href}, {Text: capital(jobName(j.Name)), Href: href}, {Text: j.Customer}, {Text: b.jobState(j)},
			{Text: strconv.FormatInt(j.Pieces, 10), Value: float64(j.Pieces)}, price, day(j.Ended), day(j.Billed)})
	}
	return Report{Title: "All jobs", Sections: []Section{{Table: &t}}}, nil
}
