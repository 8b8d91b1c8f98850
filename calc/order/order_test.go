package order

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"testing"
)

// TestAgainstSlices compares with the standard library's own generic sorts.
func TestAgainstSlices(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 100 {
		s := make([][2]int, random.IntN(60))
		for i := range s {
			s[i] = [2]int{random.IntN(8), i}
		}
		byFirst := func(a, b [2]int) int { return cmp.Compare(a[0], b[0]) }
		whole := func(a, b [2]int) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(b[1], a[1])) }
		want, got := slices.Clone(s), slices.Clone(s)
		slices.SortStableFunc(want, byFirst)
		Stable(got, byFirst)
		if !slices.Equal(got, want) {
			t.Fatalf("Stable(%v) = %v, want %v", s, got, want)
		}
		slices.SortFunc(want, whole)
		before := slices.Clone(s)
		if got := Sorted(s, whole); !slices.Equal(got, want) || !slices.Equal(s, before) {
			t.Fatalf("Sorted(%v) = %v, want %v and s as it was", s, got, want)
		}
	}
}
