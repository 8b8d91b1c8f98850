package handling

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Worked by hand, mm: a circle of 100 is 314.159 round (Machinery's Handbook, table of
// circles, from memory); a triangle of 3, 4 and 5; the sides of a slot and its two half
// circles; a box tube of 50 by 30 with a wall of 3 has corners of 6, each shorter than
// its square corner by 12 − 3π.
func TestCutLengths(t *testing.T) {
	mm := unit.Millimetre
	for _, test := range []struct {
		name    string
		in      CutInput
		want    float64 // mm
		pierces int
	}{
		{name: "a straight cut is its length", in: CutInput{Shape: "straight", Length: 400 * mm, Diameter: 9 * mm}, want: 400},
		{name: "a rectangle of 300 by 200", in: CutInput{Shape: "rectangle", Length: 300 * mm, Width: 200 * mm}, want: 1000},
		{name: "the hole of that size", in: CutInput{Shape: "window", Length: 300 * mm, Width: 200 * mm}, want: 1000, pierces: 1},
		{name: "a gusset of 300 by 400", in: CutInput{Shape: "triangle", Length: 300 * mm, Width: 400 * mm}, want: 1200},
		{name: "a disc of 100", in: CutInput{Shape: "disc", Diameter: 100 * mm}, want: 314.159},
		{name: "a hole of 100", in: CutInput{Shape: "round-hole", Diameter: 100 * mm}, want: 314.159, pierces: 1},
		{name: "a pipe of 100, cut off", in: CutInput{Shape: "round-tube", Diameter: 100 * mm}, want: 314.159, pierces: 1},
		{name: "a slot of 100 by 20", in: CutInput{Shape: "slot", Length: 100 * mm, Width: 20 * mm}, want: 222.832, pierces: 1},
		{name: "a flange of 200 with a bore of 100", in: CutInput{Shape: "ring", Diameter: 200 * mm, Bore: 100 * mm, Sweep: 360 * unit.Degree}, want: 942.478, pierces: 1},
		{name: "a quarter of that flange, from an edge", in: CutInput{Shape: "ring", Diameter: 200 * mm, Bore: 100 * mm, Sweep: 90 * unit.Degree}, want: 335.619},
		{name: "a box tube of 50 by 30", in: CutInput{Shape: "box-tube", Width: 50 * mm, Height: 30 * mm, Wall: 3 * mm}, want: 149.699, pierces: 1},
	} {
		got, err := ComputeCut(test.in)
		if err != nil || math.Abs(float64(got.Length)*1000-test.want) > 0.001 || got.Pierces != test.pierces {
			t.Errorf("%s: %v mm and %d pierces, %v; want %v and %d", test.name, float64(got.Length)*1000, got.Pierces, err, test.want, test.pierces)
		}
	}
}

// Walked along in small steps, an outline is as long as the sum says: the closed form is
// held against its own drawing.
func TestCutLengthIsWalked(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 1))
	const steps = 20000
	walk := func(at func(part float64) (x, y float64)) (length float64) {
		x, y := at(0)
		for i := range steps {
			nx, ny := at(float64(i+1) / steps)
			length += math.Hypot(nx-x, ny-y)
			x, y = nx, ny
		}
		return length
	}
	arc := func(radius, from, to float64) float64 {
		return walk(func(part float64) (float64, float64) {
			sin, cos := math.Sincos(from + (to-from)*part)
			return radius * cos, radius * sin
		})
	}
	for range 50 {
		D := 0.05 + r.Float64()
		d, sweep := D*(0.1+0.8*r.Float64()), (0.1+0.8*r.Float64())*2*math.Pi
		b := D * (0.1 + 0.9*r.Float64())
		wall := b / 4 * r.Float64()
		for _, test := range []struct {
			in   CutInput
			want float64
		}{
			{in: CutInput{Shape: "ring", Diameter: unit.Length(D), Bore: unit.Length(d), Sweep: unit.Angle(sweep)}, want: arc(D/2, 0, sweep) + arc(d/2, 0, sweep) + (D - d)},
			{in: CutInput{Shape: "ring", Diameter: unit.Length(D), Bore: unit.Length(d), Sweep: 360 * unit.Degree}, want: arc(D/2, 0, 2*math.Pi) + arc(d/2, 0, 2*math.Pi)},
			{in: CutInput{Shape: "slot", Length: unit.Length(D), Width: unit.Length(b)}, want: 2*(D-b) + 2*arc(b/2, 0, math.Pi)},
			{in: CutInput{Shape: "box-tube", Width: unit.Length(b), Height: unit.Length(D), Wall: unit.Length(wall)}, want: 2*(b-4*wall) + 2*(D-4*wall) + 4*arc(2*wall, 0, math.Pi/2)},
		} {
			got, err := ComputeCut(test.in)
			if err != nil || math.Abs(float64(got.Length)/test.want-1) > 1e-7 {
				t.Errorf("%+v is %v long, %v; walked it is %v", test.in, got.Length, err, test.want)
			}
		}
	}
}

func TestCutRefused(t *testing.T) {
	for _, test := range []struct {
		in    CutInput
		field string
	}{
		{in: CutInput{Shape: "ring", Diameter: 0.1, Bore: 0.1, Sweep: 360 * unit.Degree}, field: "bore"},
		{in: CutInput{Shape: "slot", Length: 0.1, Width: 0.2}, field: "width"},
		{in: CutInput{Shape: "box-tube", Width: 0.05, Height: 0.02, Wall: 0.006}, field: "thickness"},
		{in: CutInput{Shape: "star"}, field: "shape"},
	} {
		_, err := ComputeCut(test.in)
		if p := problem.From(err); p == nil || p.Field != test.field || p.Hint == "" {
			t.Errorf("%+v: %v, want a problem with %s that says what to do", test.in, err, test.field)
		}
	}
}

// TestCutShapesAreRead: every shape that can be chosen is reckoned from the fields that
// it asks for, in a row of a list as in a form.
func TestCutShapesAreRead(t *testing.T) {
	cuts := form.List(form.EachRow{Name: "Cut"}, CutShapeFields()...)
	c := form.Calculator{Name: "cuts", Fields: []form.Field{{Key: "cuts", Label: "Cuts", Takes: cuts}}}
	for _, choice := range CutShapeFields()[0].Takes.Choices {
		r := form.NewReader(&c, map[string]any{"cuts": "shape=" + choice.Word + " length=300mm width=200mm height=100mm diameter=150mm bore=50mm"})
		for _, row := range r.Rows("cuts") {
			if got := ReadCut(row, 3*unit.Millimetre); r.Err() != nil || !(got.Length > 0) {
				t.Errorf("%s: %+v, %v", choice.Word, got, r.Err())
			}
		}
		r = form.NewReader(&c, map[string]any{"cuts": "shape=" + choice.Word + " diameter=0"})
		for _, row := range r.Rows("cuts") {
			if got := ReadCut(row, 0); r.Err() == nil || got != (CutResult{}) {
				t.Errorf("%s without its measures: %+v", choice.Word, got)
			}
		}
	}
	r := form.NewReader(&c, map[string]any{"cuts": "length=1m; shape=ring diameter=50mm bore=60mm"})
	for _, row := range r.Rows("cuts") {
		ReadCut(row, 0)
	}
	if p := problem.From(r.Err()); p == nil || p.Field != "cuts.2.bore" || p.Msg != "Cut 2: the bore is as large as the outside" {
		t.Errorf("a ring without metal is told as %v", p)
	}
}
