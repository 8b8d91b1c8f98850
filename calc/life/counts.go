package life

import "math"

// Counts tells how many parts a job uses up: AtMost[n] is the chance that they are
// n at the most, so that n spares are enough beside the part that is fitted. It
// ends where hardly anything is left.
type Counts struct {
	AtMost []float64
	Error  float64 // that no AtMost is off by more, as far as halved steps tell
}

// hardly is what is left where counts end.
const hardly = 1e-9

// mostParts is how many parts a count may come to.
const mostParts = 150

// Chance is the chance that n spares are enough.
func (c Counts) Chance(n int) float64 {
	switch {
	case n < 0:
		return 0
	case n >= len(c.AtMost):
		if last := len(c.AtMost) - 1; last >= 0 && c.AtMost[last] < 1-hardly {
			return c.AtMost[last] // cut off at mostParts
		}
		return 1
	}
	return c.AtMost[n]
}

// Spares is the smallest stock that is enough with that chance.
func (c Counts) Spares(level float64) int {
	for n, p := range c.AtMost {
		if p >= level {
			return n
		}
	}
	return len(c.AtMost)
}

// Expected is how many are used up on average, Σ P(N > n).
func (c Counts) Expected() float64 {
	mean := 0.0
	for _, p := range c.AtMost {
		mean += 1 - p
	}
	return mean
}

// counted adds up chances of 0, 1, 2 … parts until hardly any is left.
func counted(chance func(n int) float64) Counts {
	var c Counts
	for n, sum := 0, 0.0; n <= mostParts; n++ {
		sum += chance(n)
		c.AtMost = append(c.AtMost, min(sum, 1))
		if sum >= 1-hardly {
			break
		}
	}
	return c
}

// Poisson is the count of parts that fail by accident, whatever their age, m on
// average: P(N = n) = e^−m·mⁿ/n!. It is exact for lives of shape 1.
func Poisson(m float64) Counts {
	if m <= 0 {
		return Counts{AtMost: []float64{1}}
	}
	return counted(func(n int) float64 {
		over, _ := math.Lgamma(float64(n) + 1)
		return math.Exp(float64(n)*math.Log(m) - m - over)
	})
}

// GammaPoisson is the count over the time use of parts that fail by accident,
// where their rate is known from failures in the time over before:
//
//	P(N = k) = Γ(a+k)/(Γ(a)·k!) · (B/(B+T))^a · (T/(B+T))^k
//
// a negative binomial. With nothing known before but that the rate is above
// nothing, a is the number of failures and a half (Jeffreys), B the time over.
func GammaPoisson(a, over, use float64) Counts {
	if use <= 0 {
		return Counts{AtMost: []float64{1}}
	}
	none := -a * math.Log1p(use/over)
	more := -math.Log1p(over / use)
	before, _ := math.Lgamma(a)
	return counted(func(k int) float64 {
		up, _ := math.Lgamma(a + float64(k))
		down, _ := math.Lgamma(float64(k) + 1)
		return math.Exp(up - before - down + none + float64(k)*more)
	})
}
