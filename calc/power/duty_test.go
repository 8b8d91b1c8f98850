package power

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/unit"
)

func randomPlate(r *rand.Rand) Plate {
	var p Plate
	i, d := unit.Current(10+30*r.Float64()), unit.Ratio(0.3+0.7*r.Float64())
	for range 1 + r.IntN(3) {
		p = append(p, DutyPoint{i, d})
		i *= 1.05 + unit.Current(r.Float64())
		d *= unit.Ratio(0.4 + 0.6*r.Float64())
	}
	r.Shuffle(len(p), func(a, b int) { p[a], p[b] = p[b], p[a] })
	return p
}

// TestDutyLaws: through every pair of the plate, never rising with current,
// never above one, and Largest finds the current back.
func TestDutyLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 14))
	for n := range 300 {
		t.Run(fmt.Sprintf("seed 13,14 plate %d", n), func(t *testing.T) {
			p, err := randomPlate(random).Check()
			if err != nil {
				t.Fatal(err)
			}
			for _, q := range p {
				if d, err := p.Duty(q.Current); err != nil || math.Abs(float64(d-q.Duty)) > 1e-12 {
					t.Errorf("Duty(%v) = %v, %v, the plate says %v", q.Current, d, err, q.Duty)
				}
			}
			last := unit.Ratio(1)
			top := p[len(p)-1].Current
			for i := unit.Current(5); i <= top; i += 0.37 {
				d, err := p.Duty(i)
				if err != nil || d > last*(1+1e-12) || !(d > 0 && d <= 1) {
					t.Fatalf("Duty(%v) = %v, %v after %v", i, d, err, last)
				}
				if d < 1 && d < last {
					if back := p.Largest(d, 1); math.Abs(float64(back/i)-1) > 1e-9 {
						t.Errorf("Largest(%v) = %v, want %v", d, back, i)
					}
				}
				last = d
			}
			if _, err := p.Duty(top * 1.01); err == nil {
				t.Error("a current above the plate is not refused")
			}
		})
	}
}

// TestHeatOfTheDay: hotter never allows more, and today's continuous current
// may burn for ten minutes today.
func TestHeatOfTheDay(t *testing.T) {
	plate := Plate{{28, 1}, {40, 0.5}}
	last := DutyResult{Duty: 1, Continuous: 400}
	for c := -20.0; c <= 60; c += 2.5 {
		in := DutyInput{Plate: plate, Want: 40, Air: unit.Celsius(c), Limit: unit.Celsius(90)}
		res, err := ComputeDuty(in)
		if err != nil || res.Duty > last.Duty || res.Continuous > last.Continuous*(1+1e-9) {
			t.Errorf("at %g °C: %+v, %v after %+v", c, res, err, last)
		}
		in.Want = res.Continuous
		if again, err := ComputeDuty(in); err != nil || math.Abs(float64(again.Duty-1)) > 1e-9 {
			t.Errorf("at %g °C the continuous current gives %+v, %v", c, again, err)
		}
		last = res
	}
}

// TestRhythm: minutes of the ten that a duty cycle counts in (IEC 60974-1), worked by hand.
func TestRhythm(t *testing.T) {
	tests := []struct {
		duty     unit.Ratio
		on, rest unit.Duration
	}{
		{duty: 0.5, on: 300, rest: 300},
		{duty: 0.35, on: 180, rest: 420}, // three and a half, rounded down
		{duty: 0.7, on: 420, rest: 180},  // no minute lost to 6.9999…
		{duty: 1, on: 600, rest: 0},      // no rest
		{duty: 0.18, on: 90, rest: 510},  // in half minutes
		{duty: 0.03, on: 18, rest: 582},  // less than any of them
		{duty: 0.2, on: 120, rest: 480},  // where halves end
		{duty: 0.199, on: 90, rest: 510}, // just under
		{duty: 0.999, on: 540, rest: 60}, // never more than the plate
		{duty: 0.0499, on: 29.94, rest: 570.06},
	}
	for _, tt := range tests {
		on, rest := Rhythm(tt.duty)
		if math.Abs(float64(on-tt.on)) > 1e-9 || math.Abs(float64(rest-tt.rest)) > 1e-9 {
			t.Errorf("Rhythm(%g) = %g, %g s, want %g, %g", tt.duty, on, rest, tt.on, tt.rest)
		}
	}
}
