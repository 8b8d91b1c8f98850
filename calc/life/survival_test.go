//go:build !js

// Native only: it runs another program, which a phone cannot.

package life

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"kerfside/calc/outside"
)

// TestLifeAgainstSurvival fits random lives by R's survreg as well: shapes from 0.4
// to 8, times from thousandths to millions, ties, and parts pulled early at one time or
// at many. With the shape given it compares what groups add, which R holds by a ridge
// where a prior does here. Where no fit exists R prints one with a warning, so only
// what Fit gives is compared.
func TestLifeAgainstSurvival(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 31))
	var lines []string
	var fits []*Weibull
	var modes [][]float64
	for len(lines) < 300 {
		drawn := drawLives(random)
		if w, err := Fit(drawn); err == nil && w.Failures >= 3 && w.Shape < 30 {
			lines = append(lines, ask("free", 0, 0, drawn, nil))
			fits, modes = append(fits, w), append(modes, nil)
		}
	}
	for range 60 {
		drawn := drawLives(random)
		shape, spread := 0.5+3*random.Float64(), 0.1+random.Float64()
		groups := make([]int, len(drawn))
		parts := make([]Part, len(drawn))
		failures := 0
		for i, l := range drawn {
			groups[i] = i % 3
			parts[i] = Part{Use: Use{Minutes: l.T}, Failed: l.Failed, Seen: Seen{Metal: string(rune('a' + i%3))}}
			if l.Failed {
				failures++
			}
		}
		if failures == 0 || len(parts) < 3 {
			continue
		}
		prior := Prior{Scale: drawn[0].T, Shape: shape, Groups: spread}
		l := newLearner(parts, prior)
		r, c := l.row(math.Log(shape), gamma{a: 1e-13, mid: prior.Scale}), l.column(0, make([]float64, len(l.parts))) // R knows no prior of the scale
		p := l.at(&r, &c, make([]float64, 1+len(l.design.groups)))
		mode := []float64{p.mode[0]/shape + math.Log(prior.Scale)}
		for _, g := range p.mode[1:] {
			mode = append(mode, g/shape)
		}
		lines = append(lines, ask("groups", shape, spread, drawn, groups))
		fits, modes = append(fits, nil), append(modes, mode)
	}
	compared := 0
	for i, want := range outside.R(t, outside.Survival, "life.R", lines) {
		got, share := modes[i], []float64{1e-6, 1e-6, 1e-6, 1e-6}
		if w := fits[i]; w != nil {
			k := func(p float64) float64 { return math.Log(-math.Log1p(-p)) / w.Shape }
			se := func(p float64) float64 { return math.Sqrt(w.VarScale + k(p)*k(p)*w.VarShape + 2*k(p)*w.Cov) }
			got = []float64{w.LogL, w.Shape, w.Scale, math.Sqrt(w.VarScale), math.Sqrt(w.VarShape), w.Cov, math.Log(w.Quantile(0.1)), math.Log(w.Quantile(0.5)), se(0.1), se(0.5)}
			share = []float64{1e-8, 1e-8, 1e-8, 1e-6, 1e-6, 1e-5, 1e-8, 1e-8, 1e-6, 1e-6}
		}
		if len(want) != len(got) {
			t.Fatalf("%d figures for %d", len(want), len(got))
		}
		for j := range got {
			if math.Abs(got[j]-want[j]) > share[j]*max(math.Abs(want[j]), 0.01) {
				t.Errorf("%s: figure %d = %.12g, R %.12g", lines[i], j, got[j], want[j])
			}
			compared++
		}
	}
	t.Logf("tally: %d comparisons with R's survival", compared)
}

func drawLives(random *rand.Rand) []Life {
	n := 3 + random.IntN(60)
	shape, scale := math.Exp(-0.9+3*random.Float64()), math.Pow(10, -3+9*random.Float64())
	step := scale / math.Pow(10, 4*random.Float64()) // the unit of the records: a coarse one makes ties
	end := scale * (0.3 + 2*random.Float64())
	list := make([]Life, n)
	for i := range list {
		life := scale * math.Pow(-math.Log(random.Float64()), 1/shape)
		pulled := end
		if i%2 == 0 {
			pulled *= random.Float64()
		}
		list[i] = Life{T: max(math.Round(min(life, pulled)/step), 0.5) * step, Failed: life <= pulled}
	}
	return list
}

func ask(kind string, shape, spread float64, lives []Life, groups []int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %.17g %.17g", kind, shape, spread)
	for i, l := range lives {
		failed, group := 0, 0
		if l.Failed {
			failed = 1
		}
		if groups != nil {
			group = groups[i]
		}
		fmt.Fprintf(&b, " %.17g:%d:%d", l.T, failed, group)
	}
	return b.String()
}
