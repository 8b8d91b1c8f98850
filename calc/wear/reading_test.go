package wear

import (
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// A bore that reads under new by more than a gauge's error is refused with
// both figures and with what to do; up to there it is taken, in all sizes.
func TestCheckReading(t *testing.T) {
	for _, test := range []struct {
		fresh, read float64 // mm
		taken       bool
	}{
		{0.95, 0.80, false}, {0.95, 0.92, false}, {0.95, 0.93, true}, {0.95, 0.95, true}, {0.95, 1.3, true},
		{1, 0.97, true}, {1, 0.969, false}, {3, 2.91, true}, {3, 2.90, false},
	} {
		err := CheckReading(unit.Length(test.fresh)*unit.Millimetre, unit.Length(test.read)*unit.Millimetre)
		if test.taken {
			if err != nil {
				t.Errorf("%g mm read of a %g mm bore: %v, want taken", test.read, test.fresh, err)
			}
			continue
		}
		p := problem.From(err)
		if p == nil || p.Kind != problem.Conflict || p.Field != "" {
			t.Errorf("%g mm read of a %g mm bore: %v, want a conflict of no field", test.read, test.fresh, err)
			continue
		}
		for _, figure := range []float64{test.fresh, test.read} {
			for _, name := range []string{"mm", "in"} {
				if said := unit.In(unit.Length(figure)*unit.Millimetre, name); !strings.Contains(p.Msg, said) {
					t.Errorf("%q does not say %s", p.Msg, said)
				}
			}
		}
	}
}
