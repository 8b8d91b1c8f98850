package diagnose

import (
	"math"
	"slices"
)

// RepairOrder returns the order of trying repairs with the smallest expected
// cost for a single fault: by chance over cost, largest first; ties by index.
// Source: Kadane and Simon 1977; Heckerman, Breese and Rommelse 1995.
func RepairOrder(chance, cost []float64) []int {
	best := make([]int, len(chance))
	for i := range best {
		best[i] = i
	}
	arrange(best, chance, cost)
	return best
}

// arrange puts repairs into their best order by insertion. The orders before and
// after a check differ in few places, so that takes hardly more than one look at
// each.
func arrange(order []int, chance, cost []float64) {
	for k := 1; k < len(order); k++ {
		repair := order[k]
		at := k
		for ; at > 0; at-- {
			before := order[at-1]
			now, was := chance[repair]*cost[before], chance[before]*cost[repair]
			if now < was || (now == was && repair > before) {
				break
			}
			order[at] = before
		}
		order[at] = repair
	}
}

// RepairCost returns the expected cost of trying repairs in that order until
// the fault is mended:
//
//	ECR = Σ_k cost_k·(1 − Σ_{j<k} p_j)
//
// with the chances of a single fault, which sum to 1.
func RepairCost(order []int, chance, cost []float64) float64 {
	total, left := 0.0, 1.0
	for _, i := range order {
		total += cost[i] * left
		left -= chance[i]
	}
	return total
}

// Entropy returns −Σ p·log2 p in bits.
func Entropy(p []float64) float64 {
	h := 0.0
	for _, x := range p {
		if x > 0 {
			h -= x * math.Log2(x)
		}
	}
	return h
}

// normal scales chances to sum to 1, which turns the chances of several faults
// into those of the one to mend first.
func normal(p []float64) []float64 {
	whole := sum(p)
	scaled := make([]float64, len(p))
	for i, x := range p {
		scaled[i] = ratio(x, whole)
	}
	return scaled
}

func sum(p []float64) float64 {
	total := 0.0
	for _, x := range p {
		total += x
	}
	return total
}

// Worth is what a check is expected to save.
type Worth struct {
	Finding int
	Bits    float64 // expected information about the first cause to mend
	Value   float64 // minutes saved: repairs before less repairs after, less the check
}

// scales weigh checks by what is known now.
type scales struct {
	known  *Posterior
	faults float64   // how many causes are expected to be present
	cost   []float64 // minutes of mending each cause
	order  []int     // of mending, as things stand
	bits   float64
	ecr    float64
}

func (p *Posterior) scales(cost []float64) scales {
	now := normal(p.Cause)
	order := RepairOrder(now, cost)
	return scales{known: p, faults: sum(p.Cause), cost: cost, order: order, bits: Entropy(now), ecr: RepairCost(order, now, cost)}
}

// Weigh returns the worth of a check that costs so many minutes:
//
//	value = ECR(now) − [minutes + Σ_outcome share·ECR(outcome)]
//	share = P(outcome)·Σ_c P(c | outcome) / Σ_c P(c)
//
// The share of an outcome is its chance for the one cause to mend first. With a
// single fault it is P(outcome). With several, only the shares let the outcomes
// average to what is known now, so that a check never tells less than nothing
// and a free one never costs.
//
// Information alone is no reason to check: a check that tells much can still
// cost more than it saves.
func (s scales) Weigh(finding int, minutes float64) Worth {
	yes, ifYes, ifNo := s.known.Split(finding)
	w := Worth{Finding: finding, Bits: s.bits, Value: s.ecr - minutes}
	order := slices.Clone(s.order)
	share := ratio(yes*sum(ifYes), s.faults)
	for _, outcome := range []struct {
		share  float64
		causes []float64
	}{{share, normal(ifYes)}, {1 - share, normal(ifNo)}} {
		arrange(order, outcome.causes, s.cost)
		w.Bits -= outcome.share * Entropy(outcome.causes)
		w.Value -= outcome.share * RepairCost(order, outcome.causes, s.cost)
	}
	return w
}
