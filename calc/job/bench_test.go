package job

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// BenchmarkJobPlan plans forty rows in two metals and four thicknesses, with doubt and
// remedies, as a phone does when a row is entered.
func BenchmarkJobPlan(b *testing.B) {
	var rows []string
	for i := range 40 {
		rows = append(rows, fmt.Sprintf(`{"metal": "%s", "thickness": "%s", "length": "%dmm", "count": "%d"}`, []string{"mild-steel", "stainless"}[i%2], []string{"3mm", "5mm", "6mm", "10mm"}[i%4], 200+50*(i%9), 1+i%3))
	}
	input := []byte(fmt.Sprintf(`{"cuts": [%s], "window": "6h", %s}`, strings.Join(rows, ", "), good))
	started := time.Now()
	for b.Loop() {
		if _, err := JobPlan.Calculator().Calculate(input); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(time.Since(started).Microseconds())/1000/float64(b.N), "ms/job")
}
