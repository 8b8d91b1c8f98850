package engine

import (
	"fmt"
	"runtime"
	"testing"
	"time"

	"kerfside/calc/journal/fold"
	"kerfside/calc/journal/journaltest"
)

// BenchmarkBook is each view that reports of the Book are made of. "first-ms" is the first
// time after the journal was folded, when nothing of what sessions keep for it has been made.
func BenchmarkBook(b *testing.B) {
	quarters := []int64{t0}
	for range 20 {
		quarters = append(quarters, quarters[len(quarters)-1]+90*24*60*minute)
	}
	find := func(filter fold.DayFilter) func(*fold.Fold) error {
		return func(f *fold.Fold) error {
			f.FindDays(filter, fold.DayMark{}, 0)
			return nil
		}
	}
	for _, view := range []struct {
		name string
		make func(*fold.Fold) error
	}{
		{"upkeep", func(f *fold.Fold) error { f.Upkeep(t0); return nil }},
		{"line", func(f *fold.Fold) error { _, err := f.Line("line-tip"); return err }},
		{"job", func(f *fold.Fold) error { _, err := f.Job("job-2"); return err }},
		{"numbers", func(f *fold.Fold) error { f.Numbers(); return nil }},
		{"find-often", find(fold.DayFilter{Find: "zinc flap"})},
		{"find-nothing", find(fold.DayFilter{Find: "walrus"})},
		{"find-metal", find(fold.DayFilter{Metal: "copper", Rig: "truck-1"})},
		{"months", func(f *fold.Fold) error { _, err := f.Months(quarters); return err }},
		{"parts", func(f *fold.Fold) error { f.PartsPage("", 0, "tip", ""); return nil }},
	} {
		for _, n := range histories {
			b.Run(fmt.Sprintf("%s/%d", view.name, n), func(b *testing.B) {
				p := newPhoneOf(b, journaltest.HistoryOfJobs(b, n))
				once := func() {
					if err := view.make(p.engine.fold); err != nil {
						b.Fatal(err)
					}
				}
				runtime.GC()
				start := time.Now()
				once()
				first := time.Since(start)
				b.ReportAllocs()
				b.ResetTimer()
				for b.Loop() {
					once()
				}
				b.StopTimer()
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/1e6/float64(b.N), "ms/view")
				b.ReportMetric(float64(first.Nanoseconds())/1e6, "first-ms")
				runtime.KeepAlive(p)
			})
		}
	}
}
