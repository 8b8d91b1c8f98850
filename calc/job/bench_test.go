package job

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"
)

// warmUp is how many plans are made before those that are timed: as WebAssembly begins, its
// code is not yet the engine's best.
const warmUp = 20

// BenchmarkJobPlan plans forty rows in two metals and four thicknesses, with doubt and
// remedies, from thirty tips and thirty electrodes of the crew's in groups, as a phone does when a row is
// entered. It tells the first plan of all, before anything was made once, and the later ones.
func BenchmarkJobPlan(b *testing.B) {
	var rows []string
	for i := range 40 {
		rows = append(rows, fmt.Sprintf(`{"metal": "%s", "thickness": "%s", "length": "%dmm", "count": "%d"}`, []string{"mild-steel", "stainless"}[i%2], []string{"3mm", "5mm", "6mm", "10mm"}[i%4], 200+50*(i%9), 1+i%3))
	}
	lives := func(each float64) string {
		var rows []string
		for i := range 30 {
			rows = append(rows, fmt.Sprintf(`{"minutes": "%.0fmin", "starts": "%d", "failed": %v, "metal": "%s", "surface": "%s", "start": "%s"}`, each*(0.4+float64(i*7%30)/25), 20+i*11%90, i%3 > 0,
				[]string{"mild-steel", "stainless"}[i%2], []string{"clean", "rusty", "painted"}[i%3], []string{"edge", "pierce"}[i/2%2]))
		}
		return strings.Join(rows, ", ")
	}
	list := func(rows string) string { return strconv.Quote("[" + rows + "]") } // a text, as the phone sends it
	input := []byte(fmt.Sprintf(`{"cuts": %s, "window": "6h", "tip_minutes": "25min", "tip_starts": "40", "tip_lives": %s, "electrode_minutes": "60min", "electrode_lives": %s, %s}`, list(strings.Join(rows, ", ")), list(lives(70)), list(lives(120)), good))
	plan := func() {
		if _, err := JobPlan.Calculator().Calculate(input); err != nil {
			b.Fatal(err)
		}
	}
	milliseconds := func(since time.Time) float64 { return float64(time.Since(since).Microseconds()) / 1000 }
	started := time.Now()
	plan()
	first := milliseconds(started)
	for range warmUp {
		plan()
	}
	started = time.Now()
	for b.Loop() {
		plan()
	}
	b.ReportMetric(milliseconds(started)/float64(b.N), "ms/job")
	b.ReportMetric(first, "ms/first")
}
