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
