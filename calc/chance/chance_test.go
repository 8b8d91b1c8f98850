package chance

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// TestAgainstGonum compares with gonum v0.17, a general-purpose library.
func TestAgainstGonum(t *testing.T) {
	near := func(name string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-10*math.Max(1, math.Abs(want)) {
			t.Errorf("%s = %.14g, want %.14g", name, got, want)
		}
	}
	for _, z := range []float64{-6, -1.645, 0, 0.3, 2.5} {
		near("Normal", Normal(z), distuv.UnitNormal.CDF(z))
		near("NormalLogDensity", NormalLogDensity(z, 0.2, 1.7), distuv.Normal{Mu: 0.2, Sigma: 1.7}.LogProb(z))
	}
	for _, p := range []float64{1e-6, 0.025, 0.3, 0.5, 0.95, 0.999} {
		near("NormalQuantile", NormalQuantile(p), distuv.UnitNormal.Quantile(p))
		for _, nu := range []float64{1, 2, 5.5, 22, 300} {
			near("StudentQuantile", StudentQuantile(p, nu), distuv.StudentsT{Sigma: 1, Nu: nu}.Quantile(p))
		}
	}
}

// TestPublished: t(.975, 22) as R's qt and SciPy's t.ppf print it; Φ(1.645) as
// in the usual tables.
func TestPublished(t *testing.T) {
	if got := StudentQuantile(0.975, 22); math.Abs(got-2.0738730679040147) > 1e-10 {
		t.Errorf("t(.975, 22) = %.16g, want 2.0738730679040147", got)
	}
	if got := Normal(1.6448536269514722); math.Abs(got-0.95) > 1e-15 {
		t.Errorf("Φ(1.6449) = %v, want 0.95", got)
	}
}
