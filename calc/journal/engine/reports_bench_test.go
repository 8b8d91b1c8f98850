package engine

import (
	"fmt"
	"testing"

	"kerfside/calc/journal/book"
	"kerfside/calc/journal/journaltest"
)

// BenchmarkReports makes each report of the Book from JSON to JSON, of a journal that has
// just been folded. The slowest of them has a budget: cmd/dev/budget.go.
func BenchmarkReports(b *testing.B) {
	for _, n := range histories {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := newPhoneOf(b, journaltest.HistoryOfJobs(b, n))
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
