package life

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/unit"
)

// TestLawsKeepTheChances: the laws that stand for a posterior give the chances of the
// posterior itself, with and without history, for parts new and old.
func TestLawsKeepTheChances(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 3))
	for range 40 {
		slot := []string{"tip", "electrode", "cup"}[random.IntN(3)]
		var parts []Part
		for range random.IntN(12) {
			parts = append(parts, Part{Use: Use{Minutes: 20 + 150*random.Float64(), Starts: 200 * random.Float64()}, Failed: random.IntN(3) > 0})
		}
		m := Learn(parts, PriorOf(slot))
		f := m.Fitted(Use{Minutes: 60 * random.Float64()})
		laws := f.Laws()
		weights := 0.0
		for _, l := range laws {
			weights += l.Weight
		}
		wantNear(t, "weights", weights, 1, 1e-12)
		for _, more := range []Use{{Minutes: 5}, {Minutes: 40, Starts: 60}, {Minutes: 200}} {
			got := 0.0
			for _, l := range laws {
				got += l.Weight * (1 - l.fails(f.age.Equivalent(l.PerStart), more.Equivalent(l.PerStart)))
			}
			if want := m.Lasts(f.age, more).P; math.Abs(got-want) > 0.001 {
				t.Errorf("%s of %d parts, %v more: lasts with %.5f, by its laws %.5f", slot, len(parts), more, want, got)
			}
		}
	}
}

// TestReaches: laws reach a share where that share of them is gone; of one law it is the
// Weibull quantile.
func TestReaches(t *testing.T) {
	l := Law{Shape: 1.7, Scale: 80, PerStart: 0.5, Weight: 1}
	for _, p := range []float64{0.025, 0.5, 0.975} {
		want := 80 * math.Pow(-math.Log1p(-p), 1/1.7) / 3
		wantNear(t, fmt.Sprint("share ", p), Laws{l}.Reaches(p, Use{Minutes: 1, Starts: 4}), want, 1e-9)
	}
	laws := Learn(nil, PriorOf("tip")).Fitted(Use{}).Laws()
	for _, p := range []float64{0.1, 0.5, 0.9} {
		use := Use{Minutes: laws.Reaches(p, Use{Minutes: 1})}
		if got := 1 - Learn(nil, PriorOf("tip")).Lasts(Use{}, use).P; math.Abs(got-p) > 0.005 {
			t.Errorf("%v minutes are reached by %v, want %v", use.Minutes, got, p)
		}
	}
}

func drawnNeed(random *rand.Rand) NeedInput {
	job := Use{Minutes: 5 + 150*random.Float64(), Starts: math.Round(200 * random.Float64())}
	wearing := func(slot string) Wearing {
		var parts []Part
		for range random.IntN(12) {
			parts = append(parts, Part{Use: Use{Minutes: 20 + 150*random.Float64(), Starts: 200 * random.Float64()}, Failed: random.IntN(3) > 0})
		}
		return Wearing{Model: Learn(parts, PriorOf(slot)), Age: Use{Minutes: 60 * random.Float64(), Starts: 50 * random.Float64()}, Job: job, Stock: random.IntN(4), Price: unit.Money(random.IntN(3) * random.IntN(9))}
	}
	in := NeedInput{Tip: wearing("tip"), Electrode: wearing("electrode"), Level: unit.Ratio([]float64{0.8, 0.9, 0.95, 0.99}[random.IntN(4)]), Pair: random.IntN(2) == 0}
	for range random.IntN(3) {
		in.Others = append(in.Others, Other{Counts: GammaPoisson(0.5+float64(random.IntN(4)), 500+500*random.Float64(), job.Minutes), Stock: random.IntN(3), Price: unit.Money(random.IntN(20))})
	}
	return in
}

func mustNeed(t *testing.T, in NeedInput) Need {
	t.Helper()
	n, err := ComputeNeed(in)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// TestNeedLaws holds what has to be so for any job: a full set at least, at that
// level, for less nowhere; a larger job, a higher level or less on hand never want
// less; and what is bought makes of the stock on hand one that is enough.
func TestNeedLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 4))
	for i := range 15 {
		in := drawnNeed(random)
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			n := mustNeed(t, in)
			m, sides := market{in: in}, [2]side{
				{laws: in.Tip.Model.Fitted(in.Tip.Age).Laws(), age: in.Tip.Age, job: in.Tip.Job},
				{laws: in.Electrode.Model.Fitted(in.Electrode.Age).Laws(), age: in.Electrode.Age, job: in.Electrode.Job}}
			if m.pair = countApart(sides); in.Pair || max(sides[0].lives(), sides[1].lives()) > few {
				past := float64(pastHalf)
				if !in.Pair {
					past = never
				}
				m.pair = simulate(sides, past, allRuns)
			}
			for _, c := range n.Carry.All() {
				if c < 1 {
					t.Errorf("carry %+v is no full set", n.Carry)
				}
			}
			if n.Enough-n.Off < float64(in.Level) || n.Enough != m.chance(n.Carry) {
				t.Errorf("carry %+v is enough with %v ± %v, %v asked for", n.Carry, n.Enough, n.Off, in.Level)
			}
			// Every stock up to a bit more than that, and none that reaches the level costs less.
			top := n.Carry
			for tips := 1; tips <= top.Tips+4; tips++ {
				for electrodes := 1; electrodes <= top.Electrodes+4; electrodes++ {
					s := Stock{Tips: tips, Electrodes: electrodes, Others: top.Others}
					if m.price(s) < m.price(top)-1e-9 && m.reaches(s) {
						t.Errorf("carry %+v, but %+v is enough too and costs less", top, s)
					}
				}
			}
			with := Stock{Tips: in.Tip.Stock + n.Buy.Tips, Electrodes: in.Electrode.Stock + n.Buy.Electrodes}
			have := Stock{Tips: in.Tip.Stock, Electrodes: in.Electrode.Stock}
			for k, o := range in.Others {
				with.Others = append(with.Others, o.Stock+n.Buy.Others[k])
				have.Others = append(have.Others, o.Stock)
			}
			if !m.reaches(with) {
				t.Errorf("with %+v bought to %+v the chance is %v only", n.Buy, have, m.chance(with))
			}
			if n.WithStock != m.chance(have) {
				t.Errorf("chance with %+v is %v, want %v", have, n.WithStock, m.chance(have))
			}
			for k, b := range n.Buy.All() {
				if b < 0 || b > 0 && m.reaches(have) && have.All()[k] >= 1 {
					t.Errorf("buy %+v to %+v, which is enough with %v", n.Buy, have, m.chance(have))
				}
			}
			more := in
			more.Tip.Job.Minutes *= 1.3
			more.Electrode.Job.Minutes *= 1.3
			if with := mustNeed(t, more); with.WithStock > n.WithStock+n.Off+with.Off || with.Tips < n.Tips {
				t.Errorf("a longer job: %v after %v with the stock on hand, %v after %v tips", with.WithStock, n.WithStock, with.Tips, n.Tips)
			}
			fresh := in
			fresh.Pair = false
			if without := mustNeed(t, fresh); in.Pair && (without.Tips > n.Tips+0.01 || without.Electrodes > n.Electrodes+0.01) {
				t.Errorf("without the pair rule %v tips and %v electrodes, with it %v and %v", without.Tips, without.Electrodes, n.Tips, n.Electrodes)
			}
		})
	}
}

// TestNeedRefuses what it cannot tell.
func TestNeedRefuses(t *testing.T) {
	in := NeedInput{Tip: Wearing{Model: Learn(nil, PriorOf("tip")), Job: Use{Minutes: 1e5}}, Electrode: Wearing{Model: Learn(nil, PriorOf("electrode")), Job: Use{Minutes: 1e5}}, Level: 0.95}
	if _, err := ComputeNeed(in); err == nil {
		t.Error("a thousand tips are reckoned")
	}
	in.Tip.Job, in.Electrode.Job = Use{Minutes: 10}, Use{Minutes: 10}
	for _, level := range []unit.Ratio{0, 1, -1, unit.Ratio(math.NaN())} {
		in.Level = level
		if _, err := ComputeNeed(in); err == nil {
			t.Errorf("level %v is reckoned", level)
		}
	}
}

// BenchmarkNeed is what a plan of a job asks.
func BenchmarkNeed(b *testing.B) {
	wearing := func(slot string) Wearing {
		return Wearing{Model: Learn(nil, PriorOf(slot)), Age: Use{Minutes: 20, Starts: 40}, Job: Use{Minutes: 60, Starts: 100}, Stock: 2}
	}
	in := NeedInput{Tip: wearing("tip"), Electrode: wearing("electrode"), Level: 0.95, Pair: true}
	for b.Loop() {
		if _, err := ComputeNeed(in); err != nil {
			b.Fatal(err)
		}
	}
}
