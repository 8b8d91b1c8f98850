// Package chance holds the few distributions that the sums need, over gonum's
// special functions. gonum's own distributions would bring matrices and random
// numbers with them and make the phone's WebAssembly half as large again; the
// tests hold these against them.
package chance

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Normal returns the standard normal distribution function Φ(z).
func Normal(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// NormalQuantile returns z with Φ(z) = p, ±Inf at p = 1 and 0.
func NormalQuantile(p float64) float64 { return mathext.NormalQuantile(p) }

// NormalLogDensity returns ln φ((x−mean)/sigma) − ln sigma.
func NormalLogDensity(x, mean, sigma float64) float64 {
	z := (x - mean) / sigma
	return -0.5*z*z - math.Log(sigma) - 0.5*math.Log(2*math.Pi)
}

// StudentQuantile returns t with P(T ≤ t) = p for Student's distribution with
// nu > 0 degrees of freedom, by the inverse of the regularised incomplete beta:
// 2·min(p, 1−p) = I_x(nu/2, 1/2) at x = nu/(nu+t²) (Abramowitz & Stegun 26.7.1).
func StudentQuantile(p, nu float64) float64 {
	switch {
	case p == 0.5:
		return 0
	case p > 0.5:
		return -StudentQuantile(1-p, nu)
	}
	x := mathext.InvRegIncBeta(nu/2, 0.5, 2*p)
	return -math.Sqrt(nu * (1 - x) / x)
}
