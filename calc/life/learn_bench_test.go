package life

import (
	"math/rand/v2"
	"testing"
)

// grouped draws a history of so many parts in groups, with starts.
func grouped(n int) (parts []Part) {
	random := rand.New(rand.NewPCG(15, 41))
	levels := []string{"", "a", "b"}
	for range n {
		parts = append(parts, Part{Use: Use{Minutes: 20 + 100*random.Float64(), Starts: float64(random.IntN(200))}, Failed: random.IntN(3) > 0,
			Seen: Seen{Metal: levels[random.IntN(3)], Surface: levels[random.IntN(3)], Start: levels[random.IntN(3)]}})
	}
	return parts
}

// BenchmarkLearn makes a model of thirty parts, as a plan of a job does for each slot.
func BenchmarkLearn(b *testing.B) {
	parts := grouped(30)
	for b.Loop() {
		Learn(parts, PriorOf("tip"))
	}
}
