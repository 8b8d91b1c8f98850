package layout

import (
	"math"
	"testing"

	"kerfside/calc/drawing"
	"kerfside/calc/drawing/paper"
	"kerfside/calc/unit"

	"pgregory.net/rapid"
)

// someArc draws an arc by radius and chord.
func someArc(t *rapid.T) ArcInput {
	R := rapid.Float64Range(0.05, 500).Draw(t, "radius")
	return ArcInput{Given: "radius-chord", Radius: unit.Length(R), Chord: unit.Length(R * rapid.Float64Range(0.001, 2).Draw(t, "share")), Spaces: rapid.IntRange(2, 40).Draw(t, "spaces")}
}

func mustArc(t *rapid.T, in ArcInput) ArcResult {
	res, err := ComputeArc(in)
	if err != nil {
		t.Fatalf("%+v: %v", in, err)
	}
	return res
}

// TestArcRoundTrip: whichever two measures are given, the arc is the same.
func TestArcRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := mustArc(t, someArc(t))
		for _, given := range []string{"chord-rise", "radius-rise", "radius-angle", "arc-angle", "chord-angle"} {
			got := mustArc(t, ArcInput{Given: given, Radius: want.Radius, Chord: want.Chord, Rise: min(want.Rise, want.Chord/2), Arc: want.Arc, Angle: want.Angle, Spaces: 2})
			for name, pair := range map[string][2]float64{
				"radius": {float64(got.Radius), float64(want.Radius)}, "chord": {float64(got.Chord), float64(want.Chord)}, "rise": {float64(got.Rise), float64(want.Rise)},
				"arc": {float64(got.Arc), float64(want.Arc)}, "angle": {float64(got.Angle), float64(want.Angle)},
			} {
				if math.Abs(pair[0]-pair[1]) > 1e-6*pair[1] {
					t.Errorf("by %s: %s %v, want %v", given, name, pair[0], pair[1])
				}
			}
		}
	})
}

// TestOrdinatesLieOnTheCircle: every point is a radius from the centre; up and down make
// the rise; both ends are on the chord; no straight line between points leaves the arc by
// more than told; the arc is longer than its chord, and more spaces come closer.
func TestOrdinatesLieOnTheCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := someArc(t)
		res := mustArc(t, in)
		R := float64(res.Radius)
		cx, cy := float64(res.Chord)/2, float64(res.Rise-res.Radius)
		for i, o := range res.Points {
			if off := math.Hypot(float64(o.Along)-cx, float64(o.Up)-cy) - R; math.Abs(off) > 1e-7*R {
				t.Errorf("point %d is %v off the circle", i, off)
			}
			if off := o.Up + o.Down - res.Rise; math.Abs(float64(off)) > 1e-12*R {
				t.Errorf("point %d: up and down make %v, want the rise %v", i, o.Up+o.Down, res.Rise)
			}
			if i > 0 {
				p := res.Points[i-1]
				mid := R - math.Hypot(float64(o.Along+p.Along)/2-cx, float64(o.Up+p.Up)/2-cy)
				if mid > float64(res.Gap)+1e-7*R {
					t.Errorf("the line to point %d leaves the arc by %v, want %v at most", i, mid, res.Gap)
				}
			}
		}
		first, last := res.Points[0], res.Points[len(res.Points)-1]
		if math.Abs(float64(first.Up)) > 1e-7*R || math.Abs(float64(last.Up)) > 1e-7*R || math.Abs(float64(last.Along-res.Chord)) > 1e-12*R {
			t.Errorf("the ends are %v and %v, want on the chord of %v", first, last, res.Chord)
		}
		if res.Arc < res.Chord || res.Arc > res.Chord*math.Pi/2*(1+1e-9) {
			t.Errorf("the arc of %v is no longer than its chord %v", res.Arc, res.Chord)
		}
		in.Spaces *= 2
		if finer := mustArc(t, in); finer.Gap > res.Gap {
			t.Errorf("twice the points leave it by %v, fewer by %v", finer.Gap, res.Gap)
		}
	})
}

// TestRiseDoubt: the radius by a rise and a chord that are each off by the tape lies no
// farther away than told, and for a flat arc that is about the rise's own share.
func TestRiseDoubt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(0.2, 20).Draw(t, "chord")
		h := c * rapid.Float64Range(0.01, 0.4).Draw(t, "share")
		tape := h * rapid.Float64Range(0.001, 0.3).Draw(t, "tape")
		res := mustArc(t, ArcInput{Given: "chord-rise", Chord: unit.Length(c), Rise: unit.Length(h), Tape: unit.Length(tape), Spaces: 2})
		off := func(dc, dh float64) float64 {
			other := mustArc(t, ArcInput{Given: "chord-rise", Chord: unit.Length(c + dc*tape), Rise: unit.Length(h + dh*tape), Spaces: 2})
			return math.Abs(float64(other.Radius - res.Radius))
		}
		for _, dc := range []float64{-1, -0.3, 0, 1} {
			for _, dh := range []float64{-1, 0, 0.5, 1} {
				if 2*(h+dh*tape) <= c+dc*tape && off(dc, dh) > float64(res.RadiusOff)*(1+1e-9) {
					t.Errorf("a tape off by %v and %v moves the radius by %v, want %v at most", dc*tape, dh*tape, off(dc, dh), res.RadiusOff)
				}
			}
		}
		if share := float64(res.RadiusOff / res.Radius); h < 0.05*c && tape < 0.02*h && math.Abs(share/(tape/h)-1) > 0.15 {
			t.Errorf("the radius is off by %v of itself, want about the rise's %v", share, tape/h)
		}
	})
}

// TestEllipseIsOne: points fulfil its equation and that of the string, its length is that
// of many straight pieces, and the torch's path lies half a kerf away all round.
func TestEllipseIsOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0.05, 5).Draw(t, "a")
		in := EllipseInput{Long: unit.Length(2 * a), Short: unit.Length(2 * a * rapid.Float64Range(0.2, 1).Draw(t, "ratio")), Spaces: rapid.IntRange(2, 60).Draw(t, "spaces"), Kerf: unit.Length(rapid.Float64Range(0.0005, 0.003).Draw(t, "kerf")), Hole: rapid.Bool().Draw(t, "hole")}
		b := float64(in.Short) / 2
		res, err := ComputeEllipse(in)
		if err != nil {
			if in.Hole && b*b/a <= float64(in.Kerf)/2 {
				return
			}
			t.Fatal(err)
		}
		pin := float64(res.Pins) / 2
		for i, o := range res.Points {
			x, y := float64(o.Along)-a, float64(o.Up)
			if off := x*x/(a*a) + y*y/(b*b) - 1; math.Abs(off) > 1e-9 {
				t.Errorf("point %d is %v off the ellipse's equation", i, off)
			}
			if loop := math.Hypot(x-pin, y) + math.Hypot(x+pin, y) + 2*pin; math.Abs(loop-float64(res.Loop)) > 1e-7*a {
				t.Errorf("point %d: the string is %v long, want %v", i, loop, res.Loop)
			}
		}
		const n = 4000
		long, px, py := 0.0, a, 0.0
		for i := 1; i <= n; i++ {
			s, c := math.Sincos(2 * math.Pi * float64(i) / n)
			long += math.Hypot(a*c-px, b*s-py)
			px, py = a*c, b*s
		}
		if math.Abs(long-float64(res.Around)) > 1e-5*long {
			t.Errorf("it is %v round by straight pieces, want %v", long, res.Around)
		}
		// The nearest point of the ellipse to each of the path's, by a fine walk round it.
		path := in.outline(0.5)
		for i := 0; i < len(path); i += 45 {
			nearest := math.Inf(1)
			for j := range n {
				s, c := math.Sincos(2 * math.Pi * float64(j) / n)
				nearest = min(nearest, math.Hypot(a*c-path[i].X/1000, b*s-path[i].Y/1000))
			}
			half := float64(in.Kerf) / 2 // the walk may step past the nearest point by half a step
			if nearest < half*(1-1e-9) || nearest > math.Hypot(half, math.Pi*a/n)*(1+1e-6) {
				t.Errorf("the torch's path is %v from the line at %d, want %v", nearest, i, in.Kerf/2)
			}
		}
		if res.PathOff < 0 || res.PathOff > in.Kerf {
			t.Errorf("a trammel is off by %v, with a kerf of %v", res.PathOff, in.Kerf)
		}
	})
}

// TestEllipseLength: against the integral as printed, E(k = 0.1) = 1.566861942, and as
// worked elsewhere, E(m = 0.1) and E(m = 0.5).
func TestEllipseLength(t *testing.T) {
	for m, want := range map[float64]float64{0.01: 1.566861942, 0.1: 1.5307576369, 0.5: 1.3506438810} {
		res, err := ComputeEllipse(EllipseInput{Long: 2, Short: unit.Length(2 * math.Sqrt(1-m)), Spaces: 2, Kerf: unit.Millimetre})
		if err != nil || math.Abs(float64(res.Around)/4-want) > 1e-9 {
			t.Errorf("m = %v: E is %v (%v), want %v", m, res.Around/4, err, want)
		}
	}
}

// TestOval: its arcs touch where they meet and pass through the ends of both axes; its
// length is that of its points; a circle is one; and it leaves the ellipse by no more
// than told, seen from the ellipse and from the oval.
func TestOval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0.05, 5).Draw(t, "a")
		in := EllipseInput{Long: unit.Length(2 * a), Short: unit.Length(2 * a * rapid.Float64Range(0.3, 1).Draw(t, "ratio")), Kerf: unit.Millimetre}
		b := float64(in.Short) / 2
		res, err := ComputeOval(in)
		if err != nil {
			t.Fatal(err)
		}
		r, R, ex, sy := float64(res.EndRadius), float64(res.SideRadius), float64(res.EndCentre), float64(res.SideCentre)
		for name, off := range map[string]float64{
			"the end":                       ex + r - a,
			"the side":                      R - sy - b,
			"the join, by the end's arc":    math.Hypot(float64(res.Join.X)-ex, float64(res.Join.Y)) - r,
			"the join, by the side's arc":   math.Hypot(float64(res.Join.X), float64(res.Join.Y)+sy) - R,
			"the centres, which must touch": math.Hypot(ex, sy) - (R - r),
		} {
			if math.Abs(off) > 1e-9*a {
				t.Errorf("%s is off by %v", name, off)
			}
		}
		points := res.outline(in, 0)
		long, worst := 0.0, 0.0
		for i, p := range points {
			if i > 0 {
				long += math.Hypot(p.X-points[i-1].X, p.Y-points[i-1].Y)
			}
			x, y := p.X/1000, p.Y/1000
			worst = max(worst, math.Abs(x*x/(a*a)+y*y/(b*b)-1)/(2*math.Hypot(x/(a*a), y/(b*b))))
		}
		if want := inMM(res.Around); math.Abs(long-want) > 0.003*want {
			t.Errorf("its points are %v mm round, want %v", long, want)
		}
		if off := float64(res.Off); worst > off*1.1+1e-5 || worst < off*0.85-1e-5 {
			t.Errorf("its points leave the ellipse by %v, want about %v", worst, off)
		}
	})
	circle, err := ComputeOval(EllipseInput{Long: 1, Short: 1, Kerf: unit.Millimetre})
	if err != nil || math.Abs(float64(circle.EndRadius)-0.5) > 1e-12 || math.Abs(float64(circle.SideRadius)-0.5) > 1e-12 || circle.Off > 1e-12 || math.Abs(float64(circle.Around)-math.Pi) > 1e-12 {
		t.Errorf("an oval as wide as long is %+v (%v), want a circle", circle, err)
	}
}

// TestRadiusInDoubt: a radius by its rise is told no finer than it is off.
func TestRadiusInDoubt(t *testing.T) {
	for _, test := range []struct{ input, want string }{
		{input: `{"curve": "chord-rise", "chord": "2m", "rise": "50mm", "tape": "1mm"}`, want: "10000 mm"},
		{input: `{"curve": "chord-rise", "chord": "2m", "rise": "50mm", "tape": "0.2mm"}`, want: "10030 mm"},
		{input: `{"curve": "chord-rise", "chord": "500mm", "rise": "120mm", "tape": "0mm"}`, want: "320 mm"},
		{input: `{"curve": "chord-rise", "chord": "48in", "rise": "6in", "tape": "1/32in", "units": "us"}`, want: "51 in"},
	} {
		a, err := ArcOffsets.Calculator().Calculate([]byte(test.input))
		if err != nil {
			t.Fatal(err)
		}
		if _, text, _ := a.Told("radius"); text != test.want {
			t.Errorf("%s: the radius is %q, want %q", test.input, text, test.want)
		}
	}
}

// TestCurveTemplates: what is offered goes on both papers, as wide as the curve; what is
// too large is not offered.
func TestCurveTemplates(t *testing.T) {
	for _, test := range []struct {
		input string
		wide  float64 // of the finished edge, mm; 0 where none is offered
	}{
		{input: `{"radius": "3m", "chord": "1m"}`, wide: 1000},
		{input: `{"curve": "ellipse", "long": "400mm", "short": "300mm"}`, wide: 400},
		{input: `{"curve": "oval", "long": "400mm", "short": "300mm", "kept_side": "outside"}`, wide: 400},
		{input: `{"curve": "ellipse", "long": "2m", "short": "1m"}`},
	} {
		a, err := ArcOffsets.Calculator().Calculate([]byte(test.input))
		if err != nil {
			t.Fatal(err)
		}
		all := a.Templates()
		if (len(all) == 1) != (test.wide > 0) {
			t.Errorf("%s: %d templates, for an edge of %v mm", test.input, len(all), test.wide)
			continue
		}
		for _, one := range all {
			only := drawing.Drawing{}
			for _, l := range one.Lines {
				if l.Use == drawing.Cut {
					only.Lines = append(only.Lines, l)
				}
			}
			if low, high := only.Box(); math.Abs(high.X-low.X-test.wide) > 0.05 {
				t.Errorf("%s: the finished edge is %v mm wide, want %v", test.input, high.X-low.X, test.wide)
			}
			for _, size := range []string{"a4", "letter"} {
				if _, err := paper.PDF(all, paper.Sheet{Size: size}); err != nil {
					t.Errorf("%s on %s: %v", test.input, size, err)
				}
			}
		}
	}
}
