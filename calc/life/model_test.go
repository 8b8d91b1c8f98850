package life

import (
	"math"
	"testing"
)

func near(got, want, share float64) bool { return math.Abs(got-want) <= share*math.Abs(want) }

// minutes makes parts of minutes alone; those below nothing were pulled early.
func minutes(lives ...float64) []Part {
	var parts []Part
	for _, t := range lives {
		parts = append(parts, Part{Use: Use{Minutes: math.Abs(t)}, Failed: t > 0})
	}
	return parts
}

// fixed is a prior of one shape and no starts.
func fixed(shape, scale, low float64) Prior {
	return Prior{Slot: "tip", Scale: scale, Low: low, Shape: shape}
}

// The update a + failures, B + Σt^b is NIST/SEMATECH e-Handbook 8.4.6; the figures
// for shape 2 were worked with R's qgamma.
func TestFixedShape(t *testing.T) {
	for _, test := range []struct {
		name                string
		parts               []Part
		a, rate             float64
		b10, b50, b90, to60 float64
	}{
		{name: "nothing yet", a: 1.1126681723, rate: 8026.2085439, b10: 28.23406956, b50: 83.29559884, b90: 235.67692284, to60: 0.6621264006},
		{name: "none failed", parts: minutes(-60, -120, -40, -95), a: 1.1126681723, rate: 36651.20854, b10: 60.33404047, b50: 177.99630413, b90: 503.62350253, to60: 0.9010000950},
		{name: "one failed", parts: minutes(60, -120, -40, -95), a: 2.1126681723, rate: 36651.20854, b10: 43.29169676, b50: 119.29886652, b90: 268.97586098, to60: 0.8204161707},
	} {
		m := Learn(test.parts, fixed(2, 100, 50))
		c := m.cells[0]
		if !near(c.a, test.a, 1e-9) || !near(c.a*c.mid*c.mid, test.rate, 1e-9) {
			t.Errorf("%s: a = %.10f, B = %.7f, want %v, %v", test.name, c.a, c.a*c.mid*c.mid, test.a, test.rate)
		}
		for p, want := range map[float64]float64{0.1: test.b10, 0.5: test.b50, 0.9: test.b90} {
			if got := m.Lasts(Use{}, Use{Minutes: want}).P; !near(got, 1-p, 1e-9) {
				t.Errorf("%s: lasts %v min with %.10f, want %v", test.name, want, got, 1-p)
			}
		}
		if got := m.Lasts(Use{}, Use{Minutes: 60}).P; !near(got, test.to60, 1e-9) {
			t.Errorf("%s: lasts 60 min with %.10f, want %v", test.name, got, test.to60)
		}
	}
}

// A part that has lasted lasts on with R(age + more)/R(age).
func TestLastsOn(t *testing.T) {
	m := Learn(minutes(60, -120, -40, -95), fixed(2, 100, 50))
	r := func(t float64) float64 { return m.Lasts(Use{}, Use{Minutes: t}).P }
	if got, want := m.Lasts(Use{Minutes: 45}, Use{Minutes: 30}).P, r(75)/r(45); !near(got, want, 1e-12) {
		t.Errorf("lasts on with %v, want %v", got, want)
	}
}

// As many draws last as the chance says, new or used.
func TestDrawAgreesWithLasts(t *testing.T) {
	m := Learn(minutes(60, -120, 40, -95), PriorOf("tip"))
	more := Use{Minutes: 25, Starts: 40}
	for _, age := range []Use{{}, {Minutes: 30, Starts: 50}} {
		f, lasting := m.Fitted(age), 0
		const us, vs = 5000, 50
		for i := range us {
			for j := range vs {
				left := f.Draw((float64(i)+0.5)/us, (float64(j)+0.5)/vs)
				if left.Minutes >= left.Spent(more) {
					lasting++
				}
			}
		}
		if got, want := float64(lasting)/(us*vs), m.Lasts(age, more).P; math.Abs(got-want) > 2e-3 {
			t.Errorf("from %+v: %v of the draws last, the chance is %v", age, got, want)
		}
	}
}

// The range holds the chance.
func TestRangeHoldsTheChance(t *testing.T) {
	m := Learn(minutes(60, -120, 40, -95), PriorOf("tip"))
	for _, more := range []Use{{}, {Minutes: 1}, {Minutes: 60}, {Minutes: 60, Starts: 200}, {Minutes: 1000}} {
		if c := m.Lasts(Use{Minutes: 20}, more); c.Low > c.P+1e-9 || c.High < c.P-1e-9 {
			t.Errorf("%+v: %+v", more, c)
		}
	}
}

// The fitted part counts once.
func TestOthers(t *testing.T) {
	parts := minutes(60, -60, -60, 40)
	if got := Others(parts, Use{Minutes: 60}); len(got) != 3 || !got[0].Failed || len(parts) != 4 || parts[3].Minutes != 40 {
		t.Errorf("%+v of %+v", got, parts)
	}
	if got := Others(parts, Use{Minutes: 40}); len(got) != 4 {
		t.Errorf("a part that has failed is none that is fitted: %+v", got)
	}
}
