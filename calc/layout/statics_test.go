package layout

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestSharesBalance: what is told for two supports, or three that are not in line, is in
// equilibrium; and a point in the middle of drawn supports is always carried.
func TestSharesBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 6).Draw(t, "supports")
		inLine := rapid.Bool().Draw(t, "in line")
		supports := make([]at, n)
		weights := make([]float64, n)
		g, sum := at{}, 0.0
		for i := range supports {
			supports[i].x = rapid.Float64Range(-3, 3).Draw(t, "x")
			if !inLine {
				supports[i].y = rapid.Float64Range(-1, 1).Draw(t, "y")
			}
			weights[i] = rapid.Float64Range(0.01, 1).Draw(t, "weight")
			sum += weights[i]
		}
		for i, p := range supports {
			g.x += weights[i] / sum * p.x
			g.y += weights[i] / sum * p.y
		}
		carry, ok := shares(supports, g)
		if !ok {
			t.Fatalf("a point amid %v is not carried", supports)
		}
		total, mx := 0.0, 0.0
		for i, c := range carry {
			if c.low < 0 || c.high > 1+1e-9 || c.low > c.high {
				t.Errorf("support %d may carry %v to %v", i, c.low, c.high)
			}
			// The way in which the point was made is one of the ways.
			if w := weights[i] / sum; w < c.low-1e-6 || w > c.high+1e-6 {
				t.Errorf("support %d carries %v in one way, told %v to %v", i, w, c.low, c.high)
			}
			total += c.low
			mx += c.low * supports[i].x
		}
		if n == 2 && math.Hypot(supports[0].x-supports[1].x, supports[0].y-supports[1].y) > 1e-6 && (math.Abs(total-1) > 1e-9 || math.Abs(mx-g.x) > 1e-8) {
			t.Errorf("two supports carry %v with a moment of %v, want 1 and %v", total, mx, g.x)
		}
	})
}

// TestShares: a tripod, a table of four legs, three in line, and one that lies outside.
func TestShares(t *testing.T) {
	square := []at{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}
	for _, c := range []struct {
		name     string
		supports []at
		g        at
		want     []span
		held     bool
	}{
		{name: "two", supports: []at{{0, 0}, {4, 0}}, g: at{1, 0}, want: []span{{0.75, 0.75}, {0.25, 0.25}}, held: true},
		{name: "a tripod in its middle", supports: []at{{0, 0}, {3, 0}, {0, 3}}, g: at{1, 1}, want: []span{{1. / 3, 1. / 3}, {1. / 3, 1. / 3}, {1. / 3, 1. / 3}}, held: true},
		{name: "a table: any two across may carry all", supports: square, g: at{0, 0}, want: []span{{0, 0.5}, {0, 0.5}, {0, 0.5}, {0, 0.5}}, held: true},
		{name: "three in line, the middle one below", supports: []at{{0, 0}, {1, 0}, {2, 0}}, g: at{1, 0}, want: []span{{0, 0.5}, {0, 1}, {0, 0.5}}, held: true},
		{name: "three in line: the first alone on its side", supports: []at{{0, 0}, {2, 0}, {4, 0}}, g: at{1, 0}, want: []span{{0.5, 0.75}, {0, 0.5}, {0, 0.25}}, held: true},
		{name: "over the end", supports: []at{{0, 0}, {1, 0}}, g: at{1.5, 0}},
		{name: "beside the line", supports: []at{{0, 0}, {1, 0}}, g: at{0.5, 0.1}},
		{name: "off the table", supports: square, g: at{0, 1.2}},
		{name: "nothing", g: at{0, 0}},
	} {
		got, held := shares(c.supports, c.g)
		if held != c.held {
			t.Errorf("%s: held is %v, want %v", c.name, held, c.held)
		}
		for i, want := range c.want {
			if math.Abs(got[i].low-want.low) > 1e-9 || math.Abs(got[i].high-want.high) > 1e-9 {
				t.Errorf("%s: support %d may carry %v, want %v", c.name, i, got[i], want)
			}
		}
	}
}

// TestClearance: how far a point lies from tipping, in line and over a face.
func TestClearance(t *testing.T) {
	square := []at{{-1, -1}, {1, 1}, {1, -1}, {-1, 1}, {0, 0}}
	for _, c := range []struct {
		supports []at
		g        at
		want     float64
	}{
		{supports: []at{{1, 0}, {0, 0}, {3, 0}}, g: at{2.5, 0}, want: 0.5},
		{supports: []at{{1, 0}, {3, 0}}, g: at{3.25, 0}, want: -0.25},
		{supports: []at{{1, 0}}, g: at{1.5, 0}, want: -0.5},
		{supports: square, g: at{0.25, 0.5}, want: 0.5},
		{supports: square, g: at{0, 1.5}, want: -0.5},
	} {
		if got := clearance(c.supports, c.g); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("clearance(%v, %v) = %v, want %v", c.supports, c.g, got, c.want)
		}
	}
}
