package layout

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"kerfside/calc/drawing"
	"kerfside/calc/unit"
)

// someBracket draws a strip with legs that its bends leave something of.
func someBracket(r *rand.Rand) BracketInput {
	between := func(lo, hi float64) unit.Length { return unit.Length(lo+(hi-lo)*r.Float64()) * unit.Millimetre }
	in := BracketInput{Thickness: between(0.5, 12), First: between(200, 400), Legs: []string{"outside", "straight"}[r.IntN(2)], Rule: bendRules[r.IntN(len(bendRules))].word}
	for range 1 + r.IntN(5) {
		in.Bends = append(in.Bends, Bend{Turn: unit.Angle(5+170*r.Float64()) * unit.Degree, Radius: between(3.5, 40), Down: r.IntN(2) == 0, Leg: between(200, 400)})
	}
	return in
}

func mustBracket(t *testing.T, in BracketInput) BracketResult {
	t.Helper()
	res, err := ComputeBracket(in)
	if err != nil {
		t.Fatalf("%+v: %v", in, err)
	}
	return res
}

func along(points []drawing.Point) (long float64) {
	for i := 1; i < len(points); i++ {
		long += math.Hypot(points[i].X-points[i-1].X, points[i].Y-points[i-1].Y)
	}
	return long
}

// TestBracketKeepsItsMiddle walks along both faces of the drawn strip: with K at one half
// the flat length is their mean, whatever way the bends go.
func TestBracketKeepsItsMiddle(t *testing.T) {
	r := rand.New(rand.NewPCG(18, 1))
	for range 300 {
		in := someBracket(r)
		in.Rule, in.K = "own", 0.5
		res := mustBracket(t, in)
		outline, _ := bentOutline(in, res)
		half := len(outline) / 2
		mean := (along(outline[:half]) + along(outline[half:])) / 2
		if got := inMM(res.Flat); math.Abs(got-mean) > 0.001*mean {
			t.Fatalf("%+v: %v mm flat, but its middle is %v mm long", in, got, mean)
		}
	}
}

// TestBracketOverAll: legs measured over the outside are the size of what is bent.
func TestBracketOverAll(t *testing.T) {
	mm := unit.Millimetre
	corner := func(down bool, leg unit.Length) Bend {
		return Bend{Turn: 90 * unit.Degree, Radius: 8 * mm, Down: down, Leg: leg}
	}
	tests := []struct {
		name       string
		bends      []Bend
		wide, tall float64
	}{
		{name: "an angle", bends: []Bend{corner(false, 120*mm)}, wide: 100, tall: 120},
		{name: "a channel", bends: []Bend{corner(false, 120*mm), corner(false, 90*mm)}, wide: 100, tall: 120},
		{name: "a Z", bends: []Bend{corner(false, 120*mm), corner(true, 90*mm)}, wide: 100 + 90 - 5, tall: 120},
		{name: "a hairpin", bends: []Bend{{Turn: 180 * unit.Degree, Radius: 8 * mm, Leg: 90 * mm}}, wide: 100, tall: 2*8 + 2*5},
	}
	for _, test := range tests {
		in := BracketInput{Thickness: 5 * mm, First: 100 * mm, Bends: test.bends, Legs: "outside", Rule: "soft-steel"}
		outline, _ := bentOutline(in, mustBracket(t, in))
		d := drawing.Drawing{Areas: []drawing.Area{{Use: drawing.Solid, Points: outline}}}
		low, high := d.Box()
		if wide, tall := high.X-low.X, high.Y-low.Y; math.Abs(wide-test.wide) > 0.05 || math.Abs(tall-test.tall) > 0.05 {
			t.Errorf("%s is %v by %v mm, want %v by %v", test.name, wide, tall, test.wide, test.tall)
		}
	}
}

// TestBracketLaws: from the other end it is as long, its lines mirrored; a larger K makes
// it longer; a bend of nothing takes nothing; all rules lie within Give of the flat length.
func TestBracketLaws(t *testing.T) {
	r := rand.New(rand.NewPCG(18, 2))
	for range 500 {
		in := someBracket(r)
		res := mustBracket(t, in)
		back := in
		back.Bends = slices.Clone(in.Bends)
		slices.Reverse(back.Bends)
		legs := []unit.Length{in.First}
		for _, b := range in.Bends {
			legs = append(legs, b.Leg)
		}
		slices.Reverse(legs)
		back.First = legs[0]
		for i := range back.Bends {
			back.Bends[i].Leg = legs[i+1]
		}
		other := mustBracket(t, back)
		if math.Abs(float64(other.Flat-res.Flat)) > 1e-9 {
			t.Fatalf("%+v: %v from one end, %v from the other", in, res.Flat, other.Flat)
		}
		for i, b := range res.Bends {
			if far := other.Bends[len(res.Bends)-1-i].Middle; math.Abs(float64(res.Flat-far-b.Middle)) > 1e-9 {
				t.Fatalf("%+v: bend %d is at %v, from the other end at %v of %v", in, i+1, b.Middle, far, res.Flat)
			}
		}
		for _, rule := range bendRules {
			by := in
			by.Rule = rule.word
			if k, ok := rule.kFactor(0.3); !ok || k <= 0 {
				t.Fatalf("%s: K %v", rule.word, k)
			}
			if slices.ContainsFunc(in.Bends, func(b Bend) bool { _, ok := rule.kFactor(float64(b.Radius / in.Thickness)); return !ok }) {
				continue
			}
			if off := math.Abs(float64(mustBracket(t, by).Flat - res.Flat)); off > float64(res.Give)+1e-9 {
				t.Fatalf("%+v: %s differs by %v, more than the give %v", in, rule.word, off, res.Give)
			}
		}
		low, high := in, in
		low.Rule, low.K, high.Rule, high.K = "own", 0.3, "own", 0.5
		if mustBracket(t, low).Flat >= mustBracket(t, high).Flat {
			t.Fatalf("%+v: a larger K makes it no longer", in)
		}
		straight := in
		straight.Bends = slices.Clone(in.Bends)
		sum := in.First
		for i := range straight.Bends {
			straight.Bends[i].Turn = 1e-9
			sum += straight.Bends[i].Leg
		}
		if got := mustBracket(t, straight).Flat; math.Abs(float64(got-sum)) > 1e-9 {
			t.Fatalf("%+v: unbent it is %v long, its legs %v", in, got, sum)
		}
	}
}

// TestDINMeetsOneHalf: the form of DIN 6935 rises to one half about where it is cut off
// there, at five thicknesses.
func TestDINMeetsOneHalf(t *testing.T) {
	din := bendRules[len(bendRules)-1]
	last := 0.0
	for ratio := leastDIN; ratio < 8; ratio *= 1.01 {
		k, ok := din.kFactor(ratio)
		if !ok || k < last || k > 0.5 {
			t.Fatalf("K is %v at %v times the thickness, after %v", k, ratio, last)
		}
		last = k
	}
	if below, _ := din.kFactor(4.9); below >= 0.5 {
		t.Errorf("K is %v below five thicknesses", below)
	}
	if above, _ := din.kFactor(5.02); above < 0.4999 {
		t.Errorf("K is %v above five thicknesses", above)
	}
}
