package engine

import (
	"fmt"
	"runtime"
	"testing"

	"kerfside/calc/journal/book"
	"kerfside/calc/journal/fold"
	"kerfside/calc/journal/journaltest"
	"kerfside/calc/life"
)

// BenchmarkForecasts is what all fitted tips and electrodes of a crew are told from a
// journal that has just been folded: the lives of all parts ever fitted gathered, a model
// of each slot learnt, and the chance of each part in a torch to last half an hour of arc
// with sixty starts.
func BenchmarkForecasts(b *testing.B) {
	for _, n := range histories {
		b.Run(fmt.Sprintf("%d", n), func(b *testing.B) {
			p := newPhoneOf(b, journaltest.HistoryOfJobs(b, n))
			fitted, known := 0, 0
			b.ReportAllocs()
			b.ResetTimer()
			for b.Loop() {
				lives := p.engine.fold.NewestLives(book.MostLives, book.FittedKeys...)
				fitted, known = 0, 0
				for _, slot := range book.FittedKeys {
					fitted += forecast(lives[slot], slot)
					known += len(lives[slot])
				}
			}
			b.StopTimer()
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/1e6/float64(b.N), "ms/forecasts")
			b.ReportMetric(float64(fitted), "fitted")
			b.ReportMetric(float64(known), "lives")
			b.ReportMetric(heap(), "heap-MB")
			runtime.KeepAlive(p)
		})
	}
}

// forecast returns how many parts of a slot are fitted and were told their chance.
func forecast(lives []fold.Life, slot string) int {
	var parts []life.Part
	for _, l := range lives {
		if l.To != 0 {
			parts = append(parts, partOf(l))
		}
	}
	model, told := life.Learn(parts, life.PriorOf(slot)), 0
	for _, l := range lives {
		if l.To != 0 {
			continue
		}
		part := partOf(l)
		if model.On(part.Seen).Lasts(part.Use, life.Use{Minutes: 30, Starts: 60}).P > 0 {
			told++
		}
	}
	return told
}

func partOf(l fold.Life) life.Part {
	return life.Part{Use: life.Use{Minutes: float64(l.Ms) / 60_000, Starts: float64(l.Starts)}, Failed: l.Failed, Slot: l.Slot,
		Seen: life.Seen{Metal: l.Mostly.Metal, Surface: l.Mostly.Surface, Rig: l.Mostly.Rig, Position: l.Mostly.Position, Start: l.Mostly.Start, Air: l.Mostly.Air, Partner: l.Mostly.Partner}}
}

// BenchmarkHistory is the call that fills the fields of the calculators, from JSON to
// JSON, and the one that tells of a job.
func BenchmarkHistory(b *testing.B) {
	for _, call := range []struct{ name, in string }{{"journal-history", `{"rig":"truck-1"}`}, {"journal-job", `{"id":"job-2"}`}} {
		for _, n := range histories {
			b.Run(fmt.Sprintf("%s/%d", call.name, n), func(b *testing.B) {
				p := newPhoneOf(b, journaltest.HistoryOfJobs(b, n))
				bytes := 0
				b.ReportAllocs()
				b.ResetTimer()
				for b.Loop() {
					bytes = p.call(call.name, call.in)
				}
				b.StopTimer()
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/1e6/float64(b.N), "ms/call")
				b.ReportMetric(float64(bytes), "bytes")
				runtime.KeepAlive(p)
			})
		}
	}
}
