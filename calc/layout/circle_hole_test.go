package layout

import (
	"math"
	"testing"

	"kerfside/calc/drawing"
	"kerfside/calc/drawing/paper"
	"kerfside/calc/form"
	"kerfside/calc/unit"

	"pgregory.net/rapid"
)

// someHole draws a hole or a piece that a hand can cut.
func someHole(t *rapid.T) HoleInput {
	mm := func(name string, low, high float64) unit.Length {
		return unit.Length(rapid.Float64Range(low, high).Draw(t, name)) * unit.Millimetre
	}
	in := HoleInput{Width: mm("width", 30, 400), Thickness: mm("thickness", 1, 10), Kerf: mm("kerf", 0.5, 4), Setting: mm("setting", 0, 2), Disc: rapid.Bool().Draw(t, "disc")}
	in.Length, in.Corner = in.Width, in.Width/2
	switch rapid.IntRange(0, 2).Draw(t, "shape") {
	case 1:
		in.Length += mm("more", 0, 300)
	case 2:
		in.Length += mm("more", 0, 300)
		in.Corner = in.Width / 2 * unit.Length(rapid.Float64Range(0.2, 0.99).Draw(t, "corner"))
	}
	return in
}

// toEdge is how far a spot lies from the finished edge, positive inside: the signed
// distance of a rectangle with round corners.
func toEdge(in HoleInput, s Spot) unit.Length {
	x, y := math.Abs(float64(s.X)), math.Abs(float64(s.Y))
	qx, qy := x-float64(in.Length/2-in.Corner), y-float64(in.Width/2-in.Corner)
	return in.Corner - unit.Length(math.Hypot(math.Max(qx, 0), math.Max(qy, 0))+math.Min(math.Max(qx, qy), 0))
}

// TestPierce: the pierce lies in the waste, as far from the finished edge as told; the
// lead-in ends on the torch's path, runs in the waste all the way, and comes to the path
// at 45° unless it is led out from the middle.
func TestPierce(t *testing.T) {
	middles := 0
	rapid.Check(t, func(t *rapid.T) {
		in := someHole(t)
		res, err := ComputeHole(in)
		if err != nil {
			t.Fatal(err)
		}
		if !res.ByHand {
			return
		}
		side := unit.Length(1)
		if in.Disc {
			side = -1
		}
		if off := side*toEdge(in, res.Pierce) - res.Lead; math.Abs(float64(off)) > 1e-9 {
			t.Errorf("the pierce is %v from the edge, want %v", side*toEdge(in, res.Pierce), res.Lead)
		}
		if off := side*toEdge(in, res.Meets) - in.Kerf/2; math.Abs(float64(off)) > 1e-9 {
			t.Errorf("the lead-in ends %v from the edge, want half the kerf %v", side*toEdge(in, res.Meets), in.Kerf/2)
		}
		for i := range 20 {
			f := unit.Length(i) / 20
			p := Spot{res.Pierce.X + f*(res.Meets.X-res.Pierce.X), res.Pierce.Y + f*(res.Meets.Y-res.Pierce.Y)}
			if side*toEdge(in, p) < in.Kerf/2-1e-9 {
				t.Errorf("at %v of the lead-in the arc cuts into what is kept", f)
			}
		}
		slope := math.Abs(float64(res.Meets.X-res.Pierce.X) / float64(res.Meets.Y-res.Pierce.Y))
		want := 1.0
		if res.Middle {
			want, middles = 0, middles+1
		}
		if math.Abs(slope-want) > 1e-6 {
			t.Errorf("the lead-in leans %v, want %v", slope, want)
		}
	})
	if middles < 5 {
		t.Errorf("only %d holes were pierced in the middle", middles)
	}
}

// TestHoleScalesAndKeeps: a disc's arm is a kerf longer than its hole's, the outline is
// what its points add up to, and a pin that passes a hole is thinner than it.
func TestHoleScalesAndKeeps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := someHole(t)
		in.Disc = false
		hole, err := ComputeHole(in)
		if err != nil {
			t.Fatal(err)
		}
		if !hole.ByHand {
			return
		}
		disc := in
		disc.Disc = true
		piece, err := ComputeHole(disc)
		if err != nil {
			t.Fatal(err)
		}
		if off := piece.Arm - hole.Arm - in.Kerf; math.Abs(float64(off)) > 1e-12 {
			t.Errorf("the disc's arm is %v longer, want the kerf %v", piece.Arm-hole.Arm, in.Kerf)
		}
		points := roundedRectangle(in, drawing.Point{}, 0)
		long := 0.0
		for i := 1; i < len(points); i++ {
			long += math.Hypot(points[i].X-points[i-1].X, points[i].Y-points[i-1].Y)
		}
		if want := inMM(hole.Cut - hole.Run); math.Abs(long-want) > 0.002*want {
			t.Errorf("the outline's points are %v mm long, want %v", long, want)
		}
		if hole.Passes+2*hole.Wander+hole.SizeOff-in.Width > 1e-12 || piece.Passes != 0 {
			t.Errorf("a pin of %v passes %v, one of %v a disc", hole.Passes, in.Width, piece.Passes)
		}
		worse := in
		worse.Setting, worse.Wander = in.Setting+unit.Millimetre, 2*hole.Wander
		less, err := ComputeHole(worse)
		if err != nil {
			t.Fatal(err)
		}
		if less.Passes >= hole.Passes || less.SizeOff <= hole.SizeOff {
			t.Errorf("a worse hand passes %v for %v, off by %v for %v", less.Passes, hole.Passes, less.SizeOff, hole.SizeOff)
		}
	})
}

// TestSmallestHole: thicker plate, a wider kerf and no guide never make it smaller, and a
// hole of just that size is cut by hand.
func TestSmallestHole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := someHole(t)
		res, err := ComputeHole(in)
		if err != nil {
			t.Fatal(err)
		}
		for name, change := range map[string]func(*HoleInput){
			"thicker": func(in *HoleInput) { in.Thickness *= 1.5 }, "wider": func(in *HoleInput) { in.Kerf *= 1.5 }, "free": func(in *HoleInput) { in.Free = true },
		} {
			other := in
			change(&other)
			got, err := ComputeHole(other)
			if err != nil {
				continue // a corner that the wider kerf cannot turn
			}
			if got.Smallest < res.Smallest {
				t.Errorf("%s: the smallest hole falls from %v to %v", name, res.Smallest, got.Smallest)
			}
		}
		in.Length, in.Width, in.Corner = res.Smallest, res.Smallest, res.Smallest/2
		if just, err := ComputeHole(in); err != nil || !just.ByHand {
			t.Errorf("a hole of %v is not cut by hand: %v", res.Smallest, err)
		}
	})
}

// TestPatternCloses: stepping with the right chord comes back to hole 1, with one that is
// set short it misses by what is told; chords agree with the coordinates; the pattern
// keeps its shape wherever it lies.
func TestPatternCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := PatternInput{Holes: rapid.IntRange(2, 60).Draw(t, "holes"), Circle: unit.Length(rapid.Float64Range(0.2, 5).Draw(t, "circle")),
			First: unit.Angle(rapid.Float64Range(-7, 7).Draw(t, "first")), Centre: Spot{unit.Length(rapid.Float64Range(0, 3).Draw(t, "x")), 0.2},
			Diameter: unit.Millimetre, Setting: unit.Length(rapid.Float64Range(0, 0.002).Draw(t, "setting"))}
		p, err := ComputePattern(in)
		if err != nil {
			t.Fatal(err)
		}
		apart := func(i, j int) float64 {
			a, b := p.Spots[i%in.Holes], p.Spots[j%in.Holes]
			return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))
		}
		for i := range in.Holes {
			if off := apart(i, i+1) - float64(p.Chord); math.Abs(off) > 1e-9 {
				t.Errorf("hole %d to the next is %v, want %v", i+1, apart(i, i+1), p.Chord)
			}
			if off := apart(i, i+p.Steps) - float64(p.Check); math.Abs(off) > 1e-9 {
				t.Errorf("hole %d over %d is %v, want %v", i+1, p.Steps, apart(i, i+p.Steps), p.Check)
			}
			if off := apart(0, i) - float64(p.Spots[i].FromFirst); math.Abs(off) > 1e-9 {
				t.Errorf("hole %d is %v from hole 1, want %v", i+1, apart(0, i), p.Spots[i].FromFirst)
			}
		}
		if in.Holes == 2 {
			return
		}
		// Step round with dividers that are set short, as a hand does.
		turned := 0.0
		for range in.Holes {
			turned += 2 * math.Asin((float64(p.Chord-in.Setting))/float64(in.Circle))
		}
		if miss := (2*math.Pi - turned) * float64(in.Circle) / 2; math.Abs(miss-float64(p.Closing)) > 1e-9 {
			t.Errorf("%d steps miss by %v, want %v", in.Holes, miss, p.Closing)
		}
		if p.Closing < unit.Length(in.Holes)*in.Setting*(1-1e-9)-1e-12 {
			t.Errorf("%d steps %v short miss by %v only", in.Holes, in.Setting, p.Closing)
		}
	})
}

// TestHoleTemplates: what is offered goes on paper of both sizes, and is drawn at its
// size; what is too large for paper is not offered.
func TestHoleTemplates(t *testing.T) {
	for _, test := range []struct {
		input     string
		key       string
		wide      float64 // of the finished edges together, mm
		templates int
	}{
		{input: `{"diameter": "200mm", "thickness": "6mm"}`, key: "hole", wide: 200, templates: 1},
		{input: `{"cutout": "opening", "length": "400mm", "width": "200mm", "corner": "20mm", "thickness": "6mm"}`, key: "hole", wide: 400, templates: 1},
		{input: `{"diameter": "20mm", "thickness": "6mm", "pattern": "circle", "holes": 6, "circle": "250mm", "centre_x": "300mm"}`, key: "holes", wide: 270, templates: 1},
		{input: `{"diameter": "3m", "thickness": "6mm"}`, key: "hole", wide: 0, templates: 0},
	} {
		a, err := CircleHole.Calculator().Calculate([]byte(test.input))
		if err != nil {
			t.Fatal(err)
		}
		if len(a.Templates()) != test.templates {
			t.Errorf("%s: %d templates, want %d", test.input, len(a.Templates()), test.templates)
			continue
		}
		if test.templates == 0 {
			continue
		}
		one, err := a.Template(test.key)
		if err != nil {
			t.Fatal(err)
		}
		only := drawing.Drawing{}
		for _, l := range one.Lines {
			if l.Use == drawing.Cut {
				only.Lines = append(only.Lines, l)
			}
		}
		for _, c := range one.Circles {
			if c.Use == drawing.Cut {
				only.Circles = append(only.Circles, c)
			}
		}
		if low, high := only.Box(); math.Abs(high.X-low.X-test.wide) > 0.05 {
			t.Errorf("%s: the finished edge is %v mm wide, want %v", test.input, high.X-low.X, test.wide)
		}
		for _, size := range []string{"a4", "letter"} {
			if _, err := paper.PDF([]drawing.Template{one}, paper.Sheet{Size: size}); err != nil {
				t.Errorf("%s on %s: %v", test.input, size, err)
			}
		}
	}
}

// TestHoleDrawingsAreReadable: what holes and arcs draw holds at most six texts, and says
// in words what it shows.
func TestHoleDrawingsAreReadable(t *testing.T) {
	for _, test := range []struct {
		of    *form.Declaration
		input string
	}{
		{of: &CircleHole, input: `{"diameter": "60mm", "thickness": "6mm"}`},
		{of: &CircleHole, input: `{"cutout": "opening", "length": "300mm", "width": "200mm", "corner": "20mm", "thickness": "6mm"}`},
		{of: &CircleHole, input: `{"diameter": "20mm", "thickness": "6mm", "pattern": "circle", "holes": 40, "circle": "1m"}`},
		{of: &ArcOffsets, input: `{"radius": "3m", "chord": "1m", "spaces": 40}`},
		{of: &ArcOffsets, input: `{"curve": "ellipse", "long": "500mm", "short": "300mm"}`},
		{of: &ArcOffsets, input: `{"curve": "oval", "long": "500mm", "short": "300mm"}`},
	} {
		a, err := test.of.Calculator().Calculate([]byte(test.input))
		if err != nil {
			t.Fatal(err)
		}
		if len(a.Pictures()) == 0 {
			t.Errorf("%s %s draws nothing", test.of.Name, test.input)
		}
		for _, p := range a.Pictures() {
			count := 0
			for _, list := range []string{"texts", "measures"} {
				rows, _ := p.Params[list].([][]any)
				count += len(rows)
			}
			if count == 0 || count > 6 || p.Params["says"] == "" {
				t.Errorf("%s %s: %d texts in the drawing, says %q", test.of.Name, test.input, count, p.Params["says"])
			}
		}
	}
}
