package exchange

import (
	"testing"

	"kerfside/calc/journal/event"
)

// TestMarksStayFew: years of marks stay small, the newest are all there, and
// none is invented.
func TestMarksStayFew(t *testing.T) {
	var marks []Mark
	for n := int64(100); n <= 200_000; n += 100 {
		marks = Remember(marks, Mark{n, event.Chain{byte(n / 100)}})
	}
	if len(marks) > 150 {
		t.Errorf("%d marks", len(marks))
	}
	for i := range 32 {
		if m := marks[len(marks)-1-i]; m.N != 200_000-int64(i)*100 {
			t.Errorf("mark %d from the end is at %d", i, m.N)
		}
	}
	for i, m := range marks {
		if m.H != (event.Chain{byte(m.N / 100)}) || i > 0 && (m.N <= marks[i-1].N || m.N-marks[i-1].N > 2100) {
			t.Errorf("mark %d: %+v after %+v", i, m, marks[max(0, i-1)])
		}
	}
	if got := UpTo(marks, 5000); got[len(got)-1].N > 5000 {
		t.Errorf("up to 5000: %+v", got[len(got)-1])
	}
}
