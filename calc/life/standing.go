package life

import "math"

// mostStanding is the most spares of a kind that a lowest count comes to.
const mostStanding = 20

// Standing tells, for each kind of SparesSlots by itself, the fewest spares with which a
// day of so much use is done at that level, whatever is in the torch: the one that is
// fitted is taken to fail as the day begins. n new parts do not do it with
//
//	P(L₁ + … + L_n < use) ≤ F(use)ⁿ     ≈ Φ((use − n·E) / (σ·√n))
//
// of which the smaller is taken, averaged over what the lives may follow: the first is a
// bound, good where a life is longer than the day, the second where the day takes many. A
// kind that fails by accident is counted as for a job. It is one at least.
func (l *SparesLessons) Standing(use Use, level float64) []int {
	var counts []int
	for i, k := range keptParts {
		if i < len(l.models) {
			counts = append(counts, standing(l.models[i].Fitted(Use{}).Laws(), use, level))
			continue
		}
		counts = append(counts, max(1, byAccident(l.parts[i], PriorOf(k.slot), use).Spares(level)))
	}
	return counts
}

// unseen is a chance that no level which is asked for can see.
const unseen = 1e-7

func standing(laws Laws, use Use, level float64) int {
	var short [mostStanding]float64 // chance that so many are too few
	for _, l := range laws {
		t, mean := use.Equivalent(l.PerStart), l.Mean()
		sigma := math.Sqrt(max(l.Scale*l.Scale*math.Gamma(1+2/l.Shape)-mean*mean, 0))
		one, bound := l.fails(0, t), 1.0
		for n := 1; n < mostStanding; n++ {
			bound *= one
			miss := bound
			if n > 1 && sigma > 0 {
				miss = min(miss, math.Erfc((float64(n)*mean-t)/(sigma*math.Sqrt(2*float64(n))))/2)
			}
			if miss < unseen {
				break // and more of them miss by less still
			}
			short[n] += l.Weight * miss
		}
	}
	for n := 1; n < mostStanding; n++ {
		if short[n] <= 1-level {
			return n
		}
	}
	return mostStanding
}
