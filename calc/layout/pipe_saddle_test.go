package layout

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"kerfside/calc/drawing"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

const mm = unit.Millimetre

func metal(od, wall float64) Pipe {
	return Pipe{Name: "pipe", OD: unit.Length(od) * mm, Wall: unit.Length(wall) * mm}
}

// rail is a 2 in rail on a 3 in post.
func rail() SaddleInput {
	return SaddleInput{Header: metal(88.9, 5.49), Branch: metal(60.3, 3.91), Angle: 60 * unit.Degree, Fit: "square", Stations: 16, Hole: true}
}

// someSaddle draws a saddle that fits, by any of the fits.
func someSaddle(r *rand.Rand) SaddleInput {
	od := 20 + 500*r.Float64()
	in := SaddleInput{Header: metal(od, od*(0.01+0.2*r.Float64())), Stations: 4 * (2 + r.Intn(7)), Hole: true,
		Angle: unit.Angle(15+75*r.Float64()) * unit.Degree, Fit: SaddleFits[2*r.Intn(4)]}
	room := float64(in.Header.OD)
	if in.Fit == "in" {
		room = float64(in.Header.Bore())
	}
	branch := room * (0.1 + 0.9*r.Float64())
	in.Branch = Pipe{Name: "pipe", OD: unit.Length(branch), Wall: unit.Length(branch * (0.01 + 0.2*r.Float64()))}
	switch r.Intn(4) {
	case 0: // equal, or as large as goes in
		in.Branch.OD = unit.Length(room)
	case 1:
		in.Offset = unit.Length((room - branch) / 2 * (2*r.Float64() - 1))
	case 2: // flush on one side
		in.Offset = unit.Length((room - branch) / 2)
	}
	if r.Intn(3) == 0 {
		in.Angle = 90 * unit.Degree
	}
	return in
}

// TestSaddleLaws: what holds of all saddles.
func TestSaddleLaws(t *testing.T) {
	r := rand.New(rand.NewSource(33))
	compute := func(in SaddleInput) SaddleResult {
		res, err := ComputeSaddle(in)
		if err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
		return res
	}
	for range 200 {
		in := someSaddle(r)
		res := compute(in)
		what := fmt.Sprintf("%+v", in)
		for i, s := range res.Stations {
			if s.Drop < -1e-12 || s.Back < -1e-12 || math.Abs(float64(s.Drop+s.Back-res.Deepest)) > 1e-12 {
				t.Fatalf("%s: line %d: %v down, %v up, deepest %v", what, i, s.Drop, s.Back, res.Deepest)
			}
		}
		mirrored := in
		mirrored.Offset = -in.Offset
		other := compute(mirrored)
		for i := range res.Stations {
			if a, b := res.Stations[i].Drop, other.Stations[(in.Stations-i)%in.Stations].Drop; math.Abs(float64(a-b)) > 1e-7*float64(in.Header.OD) {
				t.Fatalf("%s: an offset to the other side mirrors it, but line %d drops %v and %v", what, i, a, b)
			}
		}
		// a gap moves the cut and leaves its shape
		if in.Fit != "in" {
			gap := in
			gap.Gap = 3 * mm
			wide := compute(gap)
			if math.Abs(float64(wide.ToAxis-res.ToAxis)-0.003/math.Sin(float64(in.Angle))) > 1e-12 || wide.Deepest != res.Deepest || wide.SideGap > gap.Gap {
				t.Fatalf("%s: a gap of 3 mm: base line %v and %v, deepest %v and %v", what, res.ToAxis, wide.ToAxis, res.Deepest, wide.Deepest)
			}
			// nothing of a straight cut lies deeper in the header than of a bore's or an outside's
			by := map[string]SaddleResult{}
			for _, fit := range []string{"square", "bore", "outside"} {
				one := in
				one.Fit = fit
				by[fit] = compute(one)
			}
			for i := range in.Stations {
				s := func(fit string) float64 { return float64(by[fit].ToAxis - by[fit].Stations[i].Drop) }
				if s("square") < max(s("bore"), s("outside"))-1e-9 {
					t.Fatalf("%s: line %d of a straight cut lies below that of the bore or of the outside", what, i)
				}
			}
		}
		if res.Cut < res.Girth {
			t.Fatalf("%s: the cut of %v is shorter than the girth of %v", what, res.Cut, res.Girth)
		}
		if math.Abs(float64(res.Spacing)*float64(in.Stations)-float64(res.Girth)) > 1e-12 || res.Chord >= res.Spacing {
			t.Fatalf("%s: lines %v and %v apart in a girth of %v", what, res.Spacing, res.Chord, res.Girth)
		}
	}
}

// TestSaddleLimits: what is known of some saddles without any sum.
func TestSaddleLimits(t *testing.T) {
	for _, degrees := range []float64{15, 30, 45, 60, 75, 90} {
		in := SaddleInput{Header: metal(100, 5), Branch: metal(100, 5), Angle: unit.Angle(degrees) * unit.Degree, Fit: "outside", Stations: 16, Hole: true}
		res, err := ComputeSaddle(in)
		if err != nil {
			t.Fatal(err)
		}
		// two equal pipes meet in two plane ellipses
		half := degrees * math.Pi / 360
		if long, short := 50/math.Tan(half), 50*math.Tan(half); math.Abs(float64(res.ToAxis)*1000-long) > 1e-7 || math.Abs(float64(res.Stations[8].Back)*1000-short) > 1e-5 {
			t.Errorf("equal pipes at %v°: %v and %v, want %v and %v mm", degrees, res.ToAxis, res.Stations[8].Back, long, short)
		}
		for i := range 17 { // on one plane from the acute side to the kink, on the other one behind it
			p := stationAngle(i, 16)
			drop, _ := res.line(p)
			s := 1000 * (float64(res.ToAxis) - drop)
			want := 50 * math.Cos(p) / math.Tan(half)
			if math.Cos(p) < 0 {
				want = -50 * math.Cos(p) * math.Tan(half)
			}
			if math.Abs(s-want) > 1e-5 {
				t.Errorf("equal pipes at %v°, line %d: %v, want %v mm", degrees, i, s, want)
			}
		}
		// the skins meet at the angle itself, and at what is left of 180°
		if a, b := float64(res.Sides[0].Dihedral/unit.Degree), float64(res.Sides[2].Dihedral/unit.Degree); math.Abs(a-degrees) > 1e-6 || math.Abs(b-180+degrees) > 1e-6 {
			t.Errorf("at %v° the skins meet at %v and %v", degrees, a, b)
		}
	}
	// a thin branch on a thick header is a mitre: an ellipse's slant all round
	in := SaddleInput{Header: metal(1e6, 5), Branch: metal(50, 1), Angle: 40 * unit.Degree, Fit: "outside", Stations: 16}
	res, err := ComputeSaddle(in)
	if err != nil {
		t.Fatal(err)
	}
	if want := 50 / math.Tan(40*math.Pi/180); math.Abs(float64(res.Deepest)*1000-want) > 0.01 {
		t.Errorf("on what is nearly a plate the cut is %v deep, want %v mm", res.Deepest, want)
	}
}

// TestKinksAreKept: where two equal pipes meet, the line has a corner at the sides, and
// the point of it is one of the line's.
func TestKinksAreKept(t *testing.T) {
	in := SaddleInput{Header: metal(60.3, 4), Branch: metal(60.3, 4), Angle: 90 * unit.Degree, Fit: "outside", Stations: 16}
	res, err := ComputeSaddle(in)
	if err != nil {
		t.Fatal(err)
	}
	line := res.outline(0.0603/2, 1)
	lowest := 0
	for i, p := range line {
		if p.Y < line[lowest].Y-1e-9 {
			lowest = i
		}
	}
	at, before, after := line[lowest], line[lowest-1], line[lowest+1]
	if math.Abs(at.X-math.Pi*60.3/4) > 1e-9 || math.Abs(at.Y+60.3/2) > 1e-5 {
		t.Errorf("the corner is at %v", at)
	}
	if down, up := (at.Y-before.Y)/(at.X-before.X), (after.Y-at.Y)/(after.X-at.X); down > -0.9 || up < 0.9 {
		t.Errorf("the corner is smoothed: slopes %v and %v", down, up)
	}
}

// TestOutlineIsClose: between its points the line is off by no more than what a drawing
// may be.
func TestOutlineIsClose(t *testing.T) {
	r := rand.New(rand.NewSource(34))
	for range 60 {
		in := someSaddle(r)
		res, err := ComputeSaddle(in)
		if err != nil {
			t.Fatal(err)
		}
		ro := float64(in.Branch.OD) / 2
		line := res.outline(ro, 1)
		if len(line) > 1500 {
			t.Errorf("%+v: %d points", in, len(line))
		}
		at := 0
		for i := range 5000 {
			p := stationAngle(i, 5000)
			for line[at+1].X < 1000*ro*p {
				at++
			}
			drop, _ := res.line(p)
			if far := offChord(drawing.Point{X: 1000 * ro * p, Y: -1000 * drop}, line[at], line[at+1]); far > 2*drawing.Off {
				t.Fatalf("%+v: at %v rad the line is off by %v mm", in, p, far)
			}
		}
	}
}

func TestSaddleRefuses(t *testing.T) {
	for _, bad := range []struct {
		field  string
		kind   problem.Kind
		change func(*SaddleInput)
	}{
		{field: "branch_size", kind: problem.Conflict, change: func(in *SaddleInput) { in.Branch = metal(89, 4) }},
		{field: "offset", kind: problem.Range, change: func(in *SaddleInput) { in.Offset = 15 * mm }},
		{field: "offset", kind: problem.Range, change: func(in *SaddleInput) { in.Offset = -15 * mm }},
		{field: "offset", kind: problem.Range, change: func(in *SaddleInput) { in.Fit, in.Offset = "in", 10*mm }},
		{field: "fit", kind: problem.Refused, change: func(in *SaddleInput) { in.Fit, in.Branch = "in", metal(80, 4) }},
		{field: "fit", kind: problem.Refused, change: func(in *SaddleInput) { in.Fit, in.Past = "in", 20*mm }},
		{field: "gap", kind: problem.Range, change: func(in *SaddleInput) { in.Fit, in.Gap = "in", 15*mm }},
	} {
		in := rail()
		bad.change(&in)
		_, err := ComputeSaddle(in)
		if p := problem.From(err); err == nil || p.Field != bad.field || p.Kind != bad.kind || p.Hint == "" {
			t.Errorf("%+v: %v, want %s %s", in, err, bad.field, bad.kind)
		}
	}
	in := rail()
	in.Offset = (in.Header.OD - in.Branch.OD) / 2 // flush
	if _, err := ComputeSaddle(in); err != nil {
		t.Errorf("flush with the side: %v", err)
	}
}
