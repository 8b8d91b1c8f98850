package engine

import (
	"fmt"
	"testing"

	"kerfside/calc/journal/book"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/journaltest"
)

// BenchmarkReports makes each report of the Book from JSON to JSON, of a journal that has
// just been folded. The slowest of them has a budget: cmd/dev/budget.go.
func BenchmarkReports(b *testing.B) {
	for _, n := range histories {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := newPhoneOf(b, journaltest.HistoryOfJobs(b, n))
			p.fold(false, stockAndJobs(b)...)
			for _, name := range book.Names() {
				id := ""
				switch name { // what a report is of
				case "part":
					id = p.engine.fold.Now().Rigs[0].Parts[0].Part
				case "quote", "sheet", "cuts":
					id = "job-2"
				case "line":
					id = p.engine.fold.Stocks().Lines[0].ID
				}
				in := fmt.Sprintf(`{"report":%q,"id":%q,"now":%d,"zone":[{"from":0,"minutes":60}],"units":"metric"}`, name, id, later+journaltest.T0)
				b.Run(name, func(b *testing.B) {
					for b.Loop() {
						if _, err := p.engine.Reply("journal-report", []byte(in)); err != nil {
							b.Fatal(err)
						}
					}
					b.ReportMetric(float64(b.Elapsed().Nanoseconds())/1e6/float64(b.N), "ms/report")
				})
			}
		})
	}
}

// stockAndJobs are stock lines on three trucks and a job ahead of each, an hour of arc,
// so that the reports of stock have something to reckon.
func stockAndJobs(b *testing.B) []event.Event {
	s := &journaltest.Script{T: b}
	for i := range 3 {
		rig := fmt.Sprintf("truck-%d", i+1)
		s.Add("rig-"+rig, later, "rig.set", `{'tips':'45A:1.05mm','fitted':'45A','pressure':'5bar'}`, journaltest.About(rig)).
			Add("job-"+rig, later, "job.set", `{'name':'Gate','rig':'`+rig+`','cut.a':{'metal':'mild-steel','thickness':'6mm','length':'1m','count':'60','at':1}}`, journaltest.About("job-of-"+rig))
		for _, slot := range []string{"tip", "electrode", "diffuser", "cup"} {
			s.Add(slot+rig, later, "line.set", `{'slot':'`+slot+`','rig':'`+rig+`','least':2}`, journaltest.About(slot+rig))
		}
	}
	return s.Events
}
