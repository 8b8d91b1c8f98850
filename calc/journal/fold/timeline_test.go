package fold

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestTimelineIsThatOfItsArcs: a timeline that arcs came to and went from, asked in
// between, is that of the arcs that are left, put in at once; and each ms is burnt
// once that any of them burnt.
func TestTimelineIsThatOfItsArcs(t *testing.T) {
	laws(t, func(t *rapid.T) {
		kept := newTimeline()
		var left []span
		for i := range rapid.IntRange(0, 40).Draw(t, "changes") {
			if len(left) > 0 && rapid.IntRange(0, 2).Draw(t, "goes") == 0 {
				j := rapid.IntRange(0, len(left)-1).Draw(t, "which")
				kept.remove(left[j])
				left = slices.Delete(left, j, j+1)
			} else {
				from := rapid.Int64Range(0, 60).Draw(t, "from")
				s := span{start: from, stop: from + rapid.Int64Range(0, 9).Draw(t, "long"), starts: rapid.Int64Range(0, 3).Draw(t, "starts"), id: fmt.Sprint(i)}
				kept.put(s)
				left = append(left, s)
			}
			if rapid.Bool().Draw(t, "asked") {
				kept.union()
			}
		}
		fresh := newTimeline()
		for _, s := range left {
			fresh.put(s)
		}
		if got, want := kept.union(), fresh.union(); !slices.Equal(got, want) || !slices.Equal(kept.ms, fresh.ms) || !slices.Equal(kept.starts, fresh.starts) {
			t.Fatalf("%v of %v, want %v", got, left, want)
		}
		burnt := map[int64]bool{}
		end := int64(0)
		for _, s := range left {
			end = max(end, s.stop)
			for ms := s.start; ms < s.stop; ms++ {
				burnt[ms] = true
			}
		}
		if ms, _ := kept.total(); ms != int64(len(burnt)) || kept.end() != end {
			t.Fatalf("%d ms up to %d of %v, want %d up to %d", ms, kept.end(), left, len(burnt), end)
		}
	})
}
