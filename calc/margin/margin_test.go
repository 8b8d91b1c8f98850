package margin

import (
	"math"
	"testing"

	"kerfside/calc/unit"
)

func TestJudge(t *testing.T) {
	tests := []struct {
		name           string
		capacity, need float64
		margin         unit.Ratio
		want           Verdict
	}{
		{name: "half as much again", capacity: 150, need: 100, margin: 0.5, want: OK},
		{name: "a quarter over", capacity: 1.25, need: 1, margin: 0.25, want: OK},
		{name: "just enough", capacity: 100, need: 100, margin: 0, want: Tight},
		{name: "a sixteenth over", capacity: 1.0625, need: 1, margin: 0.0625, want: Tight},
		{name: "a little short", capacity: 99, need: 100, margin: -0.01, want: Fails},
		{name: "nothing there", capacity: 0, need: 100, margin: -1, want: Fails},
		{name: "nothing needed", capacity: 0, need: 0, margin: Most, want: OK},
		{name: "far more than needed", capacity: 1e9, need: 1, margin: Most, want: OK},
	}
	for _, test := range tests {
		m := Of(test.capacity, test.need)
		if math.Abs(float64(m-test.margin)) > 1e-12 || Judge(m) != test.want {
			t.Errorf("%s: Of(%g, %g) = %v, %s, want %v, %s", test.name, test.capacity, test.need, m, Judge(m), test.margin, test.want)
		}
	}
}

// TestSay: a margin is told as a person would, and a longer one never by less.
func TestSay(t *testing.T) {
	for _, test := range []struct {
		margin unit.Ratio
		want   string
	}{
		{0, "next to nothing to spare"}, {0.0767, "a little to spare"}, {-0.0767, "a little short"}, {0.1, "about a tenth to spare"}, {-0.657, "about two thirds short"}, {-0.345, "about a third short"},
		{0.5, "about half to spare"}, {-0.8, "about three quarters short"}, {-0.95, "far short"}, {-1, "far short"}, {-3, "far short"}, {1, "about as much again to spare"}, {2, "more than twice what is needed"}, {Most, "more than twice what is needed"},
	} {
		if got := Say(test.margin); got != test.want {
			t.Errorf("Say(%g) = %q, want %q", float64(test.margin), got, test.want)
		}
	}
}
