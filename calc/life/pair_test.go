package life

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// TestPairRuleByHand: lives that are always the same leave nothing to chance. A tip
// lasts 100 min. Beside an electrode of 160 min both go every time, for that is past
// half when the tip is through; beside one of 250 min every second tip takes the
// electrode along (at 200 min), and beside one of 900 min the fifth does (at 500).
func TestPairRuleByHand(t *testing.T) {
	for _, test := range []struct {
		electrode, job   float64
		pair             bool
		tips, electrodes int
	}{
		{electrode: 160, job: 950, pair: true, tips: 9, electrodes: 9}, {electrode: 250, job: 950, pair: true, tips: 9, electrodes: 4}, {electrode: 900, job: 950, pair: true, tips: 9, electrodes: 1}, {electrode: 2000, job: 950, pair: true, tips: 9, electrodes: 0},
		{electrode: 160, job: 950, pair: false, tips: 9, electrodes: 5}, {electrode: 250, job: 950, pair: false, tips: 9, electrodes: 3}, {electrode: 900, job: 950, pair: false, tips: 9, electrodes: 1},
		{electrode: 70, job: 95, pair: true, tips: 1, electrodes: 1}, {electrode: 70, job: 95, pair: false, tips: 0, electrodes: 1}, // an electrode takes the tip along
		{electrode: 160, job: 99, pair: true, tips: 0, electrodes: 0},
	} {
		t.Run(fmt.Sprint(test), func(t *testing.T) {
			job := Use{Minutes: test.job}
			sides := [2]side{
				{laws: Laws{{Shape: 1e5, Scale: 100, Weight: 1}}, job: job},
				{laws: Laws{{Shape: 1e5, Scale: test.electrode, Weight: 1}}, job: job},
			}
			past := float64(pastHalf)
			if !test.pair {
				past = never
			}
			p := simulate(sides, past, allRuns)
			if p.mean != [2]float64{float64(test.tips), float64(test.electrodes)} {
				t.Errorf("used up on average %v, want %d and %d", p.mean, test.tips, test.electrodes)
			}
			if p.chance(test.tips, test.electrodes) != 1 || test.tips > 0 && p.chance(test.tips-1, test.electrodes) != 0 || test.electrodes > 0 && p.chance(test.tips, test.electrodes-1) != 0 {
				t.Errorf("not always %d and %d", test.tips, test.electrodes)
			}
		})
	}
}

// drawnSides draws two known laws, ages and a job.
func drawnSides(random *rand.Rand) [2]side {
	var sides [2]side
	job := Use{Minutes: 20 + 200*random.Float64(), Starts: 300 * random.Float64()}
	for s := range sides {
		scale := 40 + 160*random.Float64()
		sides[s] = side{
			laws: Laws{{Shape: 0.8 + 3*random.Float64(), Scale: scale, PerStart: random.Float64() / 2, Weight: 1}},
			age:  Use{Minutes: scale * random.Float64() / 2, Starts: 40 * random.Float64()},
			job:  job,
		}
	}
	return sides
}

// TestWithoutPairRule: where tip and electrode do not know of each other, the
// simulation meets the product of the two exact renewal counts, as closely as it says
// that it does.
func TestWithoutPairRule(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 1))
	compared, out, worst := 0, 0, 0.0
	for range 24 {
		sides := drawnSides(random)
		m := simulate(sides, never, allRuns)
		var counts [2]Counts
		for s := range sides {
			l := sides[s].laws[0]
			counts[s] = l.Counts(sides[s].age.Equivalent(l.PerStart), sides[s].job.Equivalent(l.PerStart), 1e-7)
			if got, want := m.mean[s], counts[s].Expected(); math.Abs(got-want) > 0.01*want+0.01 {
				t.Errorf("%+v: %.4f used up on average, exactly %.4f", sides[s], got, want)
			}
		}
		for _, stock := range [][2]int{{0, 0}, {1, 1}, {2, 1}, {3, 2}, {5, 4}} {
			exact := counts[0].Chance(stock[0]) * counts[1].Chance(stock[1])
			off := m.off(stock[0], stock[1])
			miss := math.Abs(m.chance(stock[0], stock[1]) - exact)
			worst = max(worst, miss)
			compared++
			if miss > off+1e-4 {
				out++
			}
			if miss > 2.5*off+2e-3 {
				t.Errorf("%+v: %v enough with %.4f ± %.4f, exactly %.4f", sides, stock, m.chance(stock[0], stock[1]), off, exact)
			}
		}
	}
	t.Logf("tally: %d chances of spares beside exact renewal counts, %.1f %% further off than told, at most %.2f %%", compared, 100*float64(out)/float64(compared), 100*worst)
	if float64(out) > 0.12*float64(compared) {
		t.Errorf("%d of %d are further off than told", out, compared)
	}
}

// asPlayed is one job told as it would be on paper: tip and electrode are looked at
// minute by minute of the job's clock, each with its own wear, in another order of
// sums and with other random numbers than play has.
func asPlayed(sides [2]side, pair bool, random *rand.Rand) (used [2]int) {
	life := func(s int, age float64) float64 { // of the part, from new
		l := sides[s].laws[0]
		for {
			if t := l.Scale * math.Pow(random.ExpFloat64(), 1/l.Shape); t > age { // drawn anew until it is older than it is
				return t
			}
		}
	}
	var worn, lasts, pace [2]float64
	for s := range sides {
		l := sides[s].laws[0]
		worn[s] = sides[s].age.Equivalent(l.PerStart)
		lasts[s] = life(s, worn[s])
		pace[s] = sides[s].job.Equivalent(l.PerStart)
	}
	left := 1.0
	for {
		s, step := 0, (lasts[0]-worn[0])/pace[0]
		if e := (lasts[1] - worn[1]) / pace[1]; e < step {
			s, step = 1, e
		}
		if step >= left {
			return used
		}
		left -= step
		for i := range worn {
			worn[i] += step * pace[i]
		}
		change := func(i int) { used[i]++; worn[i], lasts[i] = 0, life(i, 0) }
		if o := 1 - s; pair && worn[o]/lasts[o] > 0.5 {
			change(o)
		}
		change(s)
	}
}

// TestPairRuleAgainstAnother plays random jobs by the pair rule in another simulation
// too, with twenty thousand runs.
func TestPairRuleAgainstAnother(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 2))
	const others = 20000
	compared, out := 0, 0
	for range 8 {
		sides := drawnSides(random)
		m := simulate(sides, pastHalf, allRuns)
		var all [others][2]int
		for i := range all {
			all[i] = asPlayed(sides, true, random)
		}
		for _, stock := range [][2]int{{0, 0}, {1, 1}, {2, 1}, {3, 2}, {5, 4}} {
			n := 0
			for _, used := range all {
				if used[0] <= stock[0] && used[1] <= stock[1] {
					n++
				}
			}
			theirs := float64(n) / others
			error := 2 * math.Sqrt(theirs*(1-theirs)/others)
			ours, off := m.chance(stock[0], stock[1]), m.off(stock[0], stock[1])
			compared++
			if math.Abs(ours-theirs) > math.Hypot(error, off)+1e-4 {
				out++
			}
			if math.Abs(ours-theirs) > 2.5*math.Hypot(error, off)+2e-3 {
				t.Errorf("%+v: %v enough with %.4f ± %.4f, played otherwise %.4f ± %.4f", sides, stock, ours, off, theirs, error)
			}
		}
	}
	t.Logf("tally: %d chances of the pair rule beside another simulation", compared)
	if out > compared/8 {
		t.Errorf("%d of %d differ by more than both are off", out, compared)
	}
}

// TestRenewalsAgainstPlayed plays parts one after the other, the first of them with an
// age, over random shapes, ages and horizons, beside the counts by convolution.
func TestRenewalsAgainstPlayed(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 5))
	const others = 20000
	compared, out := 0, 0
	for range 12 {
		sides := drawnSides(random)
		var exact [2]Counts
		for s := range sides {
			l := sides[s].laws[0]
			exact[s] = l.Counts(sides[s].age.Equivalent(l.PerStart), sides[s].job.Equivalent(l.PerStart), 1e-6)
		}
		var seen [2][mostParts + 1]int
		for range others {
			for s, n := range asPlayed(sides, false, random) {
				seen[s][min(n, mostParts)]++
			}
		}
		for s := range sides {
			sum := 0
			for n := range 5 {
				sum += seen[s][n]
				played := float64(sum) / others
				off := math.Abs(exact[s].Chance(n) - played)
				compared++
				if error := 2 * math.Sqrt(played*(1-played)/others); off > error+1e-4 {
					if out++; off > 2*error+1e-3 {
						t.Errorf("%+v: P(N ≤ %d) = %.4f, played %.4f", sides[s], n, exact[s].Chance(n), played)
					}
				}
			}
		}
	}
	t.Logf("tally: %d renewal counts beside played ones", compared)
	if out > compared/8 {
		t.Errorf("%d of %d differ by more than twice their error", out, compared)
	}
}

// TestPairTheSameEverywhere: the runs are played in whole numbers and in sums that every
// machine rounds alike, so that a phone and the server carry the same parts. These
// figures were played on one machine; the test runs as WebAssembly too.
func TestPairTheSameEverywhere(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 6))
	for i, want := range []string{
		"[4.29833984375 2.477294921875] 0 43 270 1690 6453",
		"[1.810546875 2.0611572265625] 180 1682 2539 5356 7892",
		"[3.3826904296875 1.838134765625] 0 1 436 4484 8156",
		"[0.5277099609375 0.6043701171875] 2936 7716 7971 8189 8192",
		"[0.8372802734375 0.97314453125] 689 6749 7460 8183 8192",
		"[1.9169921875 1.8818359375] 1 1278 1951 6804 8187",
	} {
		p := simulate(drawnSides(random), pastHalf, allRuns)
		said := fmt.Sprint(p.mean)
		for _, stock := range [][2]int{{0, 0}, {1, 1}, {2, 1}, {3, 2}, {5, 4}} {
			sum := 0
			for r := range rounds {
				sum += p.enough(r, stock[0], stock[1])
			}
			said += fmt.Sprint(" ", sum)
		}
		if said != want {
			t.Errorf("job %d: used up on average and enough %s, want %s", i, said, want)
		}
	}
}
