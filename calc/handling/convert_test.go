package handling

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Every unit into every other unit of its quantity and back is the number one
// started with, and no quantity takes a unit of another.
func TestConvertRoundTrips(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	var money unit.Money
	for _, q := range unit.All {
		if q == money.Quantity() {
			continue
		}
		for _, from := range q.Units {
			for _, to := range q.Units {
				n := 1 + 99*r.Float64()
				there, err := ComputeConvert(ConvertInput{Value: fmt.Sprintf("%.9f %s", n, from.Name), To: to.Name})
				if err != nil {
					t.Errorf("%s to %s: %v", from.Name, to.Name, err)
					continue
				}
				back, err := ComputeConvert(ConvertInput{Value: fmt.Sprintf("%.17g %s", there.Number, to.Name), To: from.Name})
				if err != nil || math.Abs(back.Number-n) > 2e-9*n {
					t.Errorf("%.9f %s is %.12g %s, and that is %.12g %s, %v", n, from.Name, there.Number, to.Name, back.Number, from.Name, err)
				}
			}
			for _, other := range unit.All {
				if other == q {
					continue
				}
				if _, err := ComputeConvert(ConvertInput{Value: "3 " + from.Name, To: other.Units[0].Name}); problem.KindOf(err) != problem.Unit {
					t.Errorf("3 %s to %s = %v, want a problem of kind unit", from.Name, other.Units[0].Name, err)
				}
			}
		}
	}
}

// The mark on the rule is never further off than half a division, and reads
// back as the length it stands for.
func TestRuler(t *testing.T) {
	for mm := -400.0; mm < 4000; mm += 0.37 {
		text, off := ruler(unit.Length(mm) * unit.Millimetre)
		if limit := 0.5 / 16 * 25.4; math.Abs(float64(off))*1000 > limit+1e-9 {
			t.Errorf("ruler(%v mm) = %s, %v off", mm, text, off)
		}
		back, err := unit.Parse[unit.Length](strings.Replace(text, "−", "-", 1), "")
		if err != nil || math.Abs(float64(back+off)*1000-mm) > 1e-9 {
			t.Errorf("ruler(%v mm) = %s and %v, which reads as %v, %v", mm, text, off, back, err)
		}
	}
}

func FuzzConvert(f *testing.F) {
	for _, s := range []string{"90psi", "5'6\"", "1-1/2in", "-40F", "6,5 mm", "½in", "1e9kWh"} {
		f.Add(s, "mm")
	}
	f.Fuzz(func(t *testing.T, value, to string) {
		res, err := ComputeConvert(ConvertInput{Value: value, To: to})
		if err != nil {
			if p := problem.From(err); p.Kind == problem.Internal || p.Field == "" || p.Hint == "" {
				t.Errorf("ComputeConvert(%q, %q) fails without saying what to do: %v", value, to, err)
			}
			return
		}
		if math.IsNaN(res.Number) || math.IsInf(res.Number, 0) {
			t.Errorf("ComputeConvert(%q, %q) = %v", value, to, res.Number)
		}
	})
}
