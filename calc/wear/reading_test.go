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
		{fresh: 0.95, read: 0.80}, {fresh: 0.95, read: 0.92}, {fresh: 0.95, read: 0.93, taken: true}, {fresh: 0.95, read: 0.95, taken: true}, {fresh: 0.95, read: 1.3, taken: true},
		{fresh: 1, read: 0.97, taken: true}, {fresh: 1, read: 0.969}, {fresh: 3, read: 2.91, taken: true}, {fresh: 3, read: 2.90},
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
