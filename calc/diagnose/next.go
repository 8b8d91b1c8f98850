package diagnose

import (
	"cmp"
	"math"

	"kerfside/calc/order"
)

// RepairOrder returns the order of trying repairs with the smallest expected
// cost for a single fault: by chance over cost, largest first; ties by index.
// Source: Kadane and Simon 1977; Heckerman, Breese and Rommelse 1995.
func RepairOrder(chance, cost []float64) []int {
	best := make([]int, len(chance))
	for i := range best {
		best[i] = i
	}
	order.Stable(best, func(a, b int) int { return cmp.Compare(chance[b]*cost[a], chance[a]*cost[b]) })
	return best
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
	sum := 0.0
	for _, x := range p {
		sum += x
	}
	scaled := make([]float64, len(p))
	for i, x := range p {
		scaled[i] = ratio(x, sum)
	}
	return scaled
}

// Worth is what a check is expected to save.
type Worth struct {
	Finding int
	Bits    float64 // expected information about the first cause to mend
	Value   float64 // minutes saved: repairs before less repairs after, less the check
}

// Weigh returns the worth of a check that costs so many minutes:
//
//	value = ECR(now) − [minutes + Σ_outcome P(outcome)·ECR(outcome)]
//
// Information alone is no reason to check: a check that tells much can still
// cost more than it saves.
func (p Posterior) Weigh(finding int, minutes float64, cost []float64) Worth {
	now := normal(p.Cause)
	yes, ifYes, ifNo := p.Split(finding)
	ifYes, ifNo = normal(ifYes), normal(ifNo)
	after := yes*best(ifYes, cost) + (1-yes)*best(ifNo, cost)
	return Worth{
		Finding: finding,
		Bits:    Entropy(now) - yes*Entropy(ifYes) - (1-yes)*Entropy(ifNo),
		Value:   best(now, cost) - after - minutes,
	}
}

func best(chance, cost []float64) float64 { return RepairCost(RepairOrder(chance, cost), chance, cost) }
