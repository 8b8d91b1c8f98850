package life

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// drawnHistory draws parts of any sort: from thousandths of a minute to years, with no
// starts or a million, ties, none failed or all, in groups or not, up to so many.
func drawnHistory(random *rand.Rand, most int) []Part {
	low := -3 + 9*random.Float64()
	high := low + (6-low)*math.Pow(random.Float64(), 4) // often much alike, which takes the shape as far as it goes
	rate := math.Pow(10, 6*random.Float64())
	step := math.Pow(10, low+2*random.Float64()-2) // a coarse one makes ties
	started, failed, grouped := random.IntN(4), random.IntN(4), random.IntN(16)-8
	level := func() string {
		if random.IntN(8) < grouped {
			return []string{"a", "b", "c", "clean", "rusty", "dry", "mild-steel"}[random.IntN(7)]
		}
		return ""
	}
	parts := make([]Part, int(math.Pow(float64(most+1), random.Float64()))-random.IntN(2))
	for i := range parts {
		p := Part{
			Use:    Use{Minutes: max(math.Round(math.Pow(10, low+(high-low)*random.Float64())/step), 1) * step},
			Failed: random.IntN(3) < failed,
			Seen:   Seen{Metal: level(), Surface: level(), Rig: level(), Position: level(), Start: level(), Air: level(), Partner: level()},
		}
		switch started {
		case 0:
			p.Starts = math.Floor(math.Pow(10, 6*random.Float64()))
		case 1:
			p.Starts = min(math.Ceil(p.Minutes*rate), 1e6)
		case 2:
			if p.Starts = math.Floor(p.Minutes * random.Float64()); random.IntN(9) == 0 {
				p.Minutes = 0
			}
		}
		parts[i] = p
	}
	return parts
}

func drawnUse(random *rand.Rand) Use {
	u := Use{Minutes: math.Pow(10, -3+9*random.Float64())}
	if random.IntN(2) == 0 {
		u.Starts = math.Floor(math.Pow(10, 6*random.Float64()))
	}
	return u
}

// TestAnyLives: whatever the history, a chance is a chance, more use never has a better
// one, what is drawn is a life, and the laws weigh 1.
func TestAnyLives(t *testing.T) {
	for seed := range uint64(60) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) { anyLives(t, rand.New(rand.NewPCG(15, 100+seed)), 300) })
	}
}

func anyLives(t *testing.T, random *rand.Rand, most int) {
	prior := priors[random.IntN(len(priors))]
	parts := drawnHistory(random, most)
	m := Learn(parts, prior)
	if at, in := m.PerStart(), m.PerStartRange(); !(0 < in.Low && in.Low <= at && at <= in.High) || math.IsInf(in.High, 1) {
		t.Errorf("a start counts as %v, %+v", at, in)
	}
	for _, e := range m.Effects() {
		if !(0 < e.Range.Low && e.Range.Low <= e.Ratio && e.Ratio <= e.Range.High) || math.IsInf(e.Range.High, 1) {
			t.Errorf("effect %+v", e)
		}
	}
	if len(parts) > 0 {
		m = m.On(parts[random.IntN(len(parts))].Seen)
	}
	ages := []Use{{}, drawnUse(random), {Minutes: 1e6, Starts: 1e6}}
	if len(parts) > 0 {
		ages = append(ages, parts[random.IntN(len(parts))].Use)
	}
	for _, age := range ages {
		more := drawnUse(random)
		last := Chance{P: 1, Low: 1, High: 1}
		for _, times := range []float64{0, 1e-6, 0.01, 0.3, 0.9, 1, 1.1, 3, 100, 1e6} {
			c := m.Lasts(age, Use{Minutes: more.Minutes * times, Starts: more.Starts * times})
			if !(0 <= c.Low && c.Low <= c.P && c.P <= c.High && c.High <= 1) {
				t.Fatalf("age %+v lasts %v times %+v with %+v", age, times, more, c)
			}
			if c.P > last.P+1e-12 || c.Low > last.Low+1e-7 || c.High > last.High+1e-7 {
				t.Errorf("age %+v lasts %v times %+v with %+v, less of it with %+v", age, times, more, c, last)
			}
			last = c
		}
		f := m.Fitted(age)
		sum := 0.0
		for _, l := range f.Laws() {
			if sum += l.Weight; !(l.Weight >= 0 && l.Shape > 0 && l.Scale > 0 && l.PerStart > 0) || math.IsInf(l.Shape+l.Scale+l.PerStart, 1) {
				t.Fatalf("age %+v: law %+v", age, l)
			}
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("age %+v: laws weigh %v", age, sum)
		}
		for _, u := range []float64{1e-9, 0.2, 0.5, 0.8, 1 - 1e-9} {
			lasts := 0.0
			for _, v := range []float64{1e-9, 0.2, 0.5, 0.8, 1 - 1e-9} {
				left := f.Draw(u, v)
				if !(left.Minutes >= lasts && left.PerStart > 0) || math.IsInf(left.Minutes, 1) {
					t.Errorf("age %+v: drawn %+v at %v, %v after %v", age, left, u, v, lasts)
				}
				lasts = left.Minutes
			}
		}
	}
}
