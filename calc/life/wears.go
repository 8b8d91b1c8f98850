package life

import (
	"cmp"
	"math"

	"kerfside/calc/chance"
	"kerfside/calc/order"
)

// Effect is how long parts of one group last beside those of another.
type Effect struct {
	Factor, Level   string
	Base            string // what it is held against; "" for all other levels
	Parts, Failures int    // of the group

	Ratio float64 // of the lives, all other factors alike
	Range Interval
	Sure  bool // the range is clear of 1, however many effects were looked at
}

// Effects returns what parts differ by, what shortens lives for sure first, then what
// lengthens them for sure, then what cannot be told. With m effects each is sure where
// its interval of 1 − 0.05/m is clear of no effect (Bonferroni), so that of crews
// whose parts are all alike at most 1 in 20 is told anything at all.
func (m *Model) Effects() []Effect {
	var list []Effect
	var contrasts [][]float64
	for k, g := range m.design.groups {
		contrast, base, ok := m.design.contrast(k)
		if !ok {
			continue
		}
		list = append(list, Effect{Factor: factors[g.factor].key, Level: g.level, Base: base, Parts: g.parts, Failures: g.failures})
		contrasts = append(contrasts, contrast)
	}
	for i, contrast := range contrasts {
		e := &list[i]
		e.Ratio = math.Exp(m.effect(contrast, 0.5))
		e.Range = Interval{Low: math.Exp(m.effect(contrast, 0.025)), High: math.Exp(m.effect(contrast, 0.975))}
		tail := 0.025 / float64(len(list))
		e.Sure = m.effect(contrast, tail) > 0 || m.effect(contrast, 1-tail) < 0
	}
	order.Stable(list, func(a, b Effect) int {
		return cmp.Or(a.rank()-b.rank(), cmp.Compare(a.Ratio, b.Ratio))
	})
	return list
}

func (e Effect) rank() int {
	switch {
	case e.Sure && e.Ratio < 1:
		return 0
	case e.Sure:
		return 1
	}
	return 2
}

// contrast returns what group k is weighed against, if that is not told already by
// another group: the base of its factor, or else the mean of the others.
func (d design) contrast(k int) (weights []float64, base string, ok bool) {
	g := d.groups[k]
	var others []int
	for j, other := range d.groups {
		if other.factor == g.factor && j != k {
			others = append(others, j)
		}
	}
	if b := d.find(g.factor, factors[g.factor].base); b >= 0 {
		if b == k {
			return nil, "", false
		}
		others, base = []int{b}, d.groups[b].level
	} else if len(others) == 1 {
		if others[0] < k {
			return nil, "", false // the mirror of that
		}
		base = d.groups[others[0]].level
	}
	weights = make([]float64, len(d.groups))
	weights[k] = 1
	for _, j := range others {
		weights[j] = -1 / float64(len(others))
	}
	return weights, base, true
}

// effect returns the logarithm of the ratio that is below with chance p: in each cell
// it is normal, with the mean and variance of the contrast of its groups.
func (m *Model) effect(contrast []float64, p float64) float64 {
	means, sigmas := make([]float64, len(m.peaks)), make([]float64, len(m.peaks))
	sum := make([]float64, 1+len(contrast))
	low, high := math.Inf(1), math.Inf(-1)
	for i, peak := range m.peaks {
		clear(sum)
		for k, x := range contrast {
			means[i] += x * peak.mode[k+1] / peak.shape
			sum[k+1] = x
		}
		sigmas[i] = math.Sqrt(peak.root.variance(sum)) / peak.shape
		low, high = min(low, means[i]-9*sigmas[i]), max(high, means[i]+9*sigmas[i])
	}
	return root(func(x float64) float64 {
		below := 0.0
		for i, peak := range m.peaks {
			below += math.Exp(peak.logW) * chance.Normal((x-means[i])/sigmas[i])
		}
		return below - p
	}, low, high)
}
