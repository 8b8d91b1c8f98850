package life

import (
	"math/rand/v2"
	"testing"
)

// BenchmarkPartLife tells the life of one part from two hundred, in groups and with
// starts: what a phone computes as somebody looks at a part.
func BenchmarkPartLife(b *testing.B) {
	random := rand.New(rand.NewPCG(15, 41))
	var parts []Part
	levels := []string{"", "a", "b"}
	for range 200 {
		parts = append(parts, Part{Use: Use{Minutes: 20 + 100*random.Float64(), Starts: float64(random.IntN(200))}, Failed: random.IntN(3) > 0,
			Seen: Seen{Metal: levels[random.IntN(3)], Surface: levels[random.IntN(3)], Rig: levels[random.IntN(3)]}})
	}
	for b.Loop() {
		if _, err := ComputePartLife(PartLifeInput{Slot: "tip", Lives: parts, Age: Use{Minutes: 20, Starts: 30}, Job: Use{Minutes: 20, Starts: 30}}); err != nil {
			b.Fatal(err)
		}
	}
}
