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
		{"half as much again", 150, 100, 0.5, OK},
		{"a quarter over", 1.25, 1, 0.25, OK},
		{"just enough", 100, 100, 0, Tight},
		{"a sixteenth over", 1.0625, 1, 0.0625, Tight},
		{"a little short", 99, 100, -0.01, Fails},
		{"nothing there", 0, 100, -1, Fails},
		{"nothing needed", 0, 0, Most, OK},
		{"far more than needed", 1e9, 1, Most, OK},
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
