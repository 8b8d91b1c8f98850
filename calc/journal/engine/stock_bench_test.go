package engine

import (
	"fmt"
	"runtime"
	"testing"

	"kerfside/calc/journal/journaltest"
)

// BenchmarkStock is the report of what the jobs ahead want of the stock on three trucks,
// and the shopping list, from JSON to JSON: the jobs that were touched last are looked at,
// a model of each slot is learnt, and each truck is told what its jobs and a usual day
// want.
func BenchmarkStock(b *testing.B) {
	for _, report := range []string{"stock", "shopping"} {
		for _, n := range histories {
			b.Run(fmt.Sprintf("%s/%d", report, n), func(b *testing.B) {
				p := newPhoneOf(b, journaltest.HistoryOfJobs(b, n))
				s := &journaltest.Script{T: b}
				for i := range 3 {
					rig := fmt.Sprintf("truck-%d", i+1)
					s.Add("rig-"+rig, 1e12, "rig.set", `{'tips':'45A:1.05mm','fitted':'45A','pressure':'5bar'}`, journaltest.About(rig))
					s.Add("job-"+rig, 1e12, "job.set", `{'name':'Gate','rig':'`+rig+`','cut.a':{'metal':'mild-steel','thickness':'6mm','length':'1m','count':'60','at':1}}`, journaltest.About("job-of-"+rig))
					for _, slot := range []string{"tip", "electrode", "diffuser", "cup"} {
						s.Add(slot+rig, 1e12, "line.set", `{'slot':'`+slot+`','rig':'`+rig+`','least':2}`, journaltest.About(slot+rig))
					}
				}
				p.fold(false, s.Events...)
				in := fmt.Sprintf(`{"report":%q,"now":%d,"rig":"truck-1"}`, report, journaltest.T0+int64(1e12))
				bytes := 0
				b.ReportAllocs()
				b.ResetTimer()
				for b.Loop() {
					bytes = p.call("journal-report", in)
				}
				b.StopTimer()
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/1e6/float64(b.N), "ms/report")
				b.ReportMetric(float64(bytes), "bytes")
				runtime.KeepAlive(p)
			})
		}
	}
}
