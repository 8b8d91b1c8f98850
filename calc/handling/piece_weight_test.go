package handling

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"kerfside/calc/unit"
)

// somePiece draws a piece of that shape with measures that fit together.
func somePiece(r *rand.Rand, shape string) PieceInput {
	between := func(lo, hi float64) unit.Length { return unit.Length(lo + (hi-lo)*r.Float64()) }
	in := PieceInput{Shape: shape, Density: unit.Density(2000 + 7000*r.Float64()), Count: 1 + r.Intn(9),
		Length: between(0.05, 3), Width: between(0.05, 1), Height: between(0.05, 1), Diameter: between(0.1, 2),
		Sweep: unit.Angle(2*math.Pi) * unit.Angle(0.01+0.99*r.Float64()), Area: unit.Area(between(0.001, 2))}
	in.Thickness = min(in.Width, in.Height, in.Diameter) * between(0.01, 0.49)
	in.Flange = in.Height * between(0.01, 0.49)
	in.Bore = in.Diameter * between(0.01, 0.99)
	in.Radius = min(in.Width, in.Height) * between(0, 0.5)
	return in
}

func shapes() []string {
	var words []string
	for _, c := range PieceWeight.Calculator().Fields[0].Takes.Choices {
		words = append(words, c.Word)
	}
	return words
}

// Twice the size in every direction is eight times the weight, twice the
// density twice, and every weight is a positive number no heavier than the box
// around the piece.
func TestPieceScales(t *testing.T) {
	for _, shape := range shapes() {
		t.Run(shape+"/seed 5", func(t *testing.T) {
			r := rand.New(rand.NewSource(5))
			for range 300 {
				in := somePiece(r, shape)
				one := mustPiece(t, in)
				big := in
				big.Density *= 2
				big.Length, big.Width, big.Height, big.Thickness, big.Flange = 2*in.Length, 2*in.Width, 2*in.Height, 2*in.Thickness, 2*in.Flange
				big.Diameter, big.Bore, big.Radius, big.Area = 2*in.Diameter, 2*in.Bore, 2*in.Radius, 4*in.Area
				if got := mustPiece(t, big); math.Abs(float64(got.Weight/one.Weight)-16) > 1e-9 {
					t.Fatalf("%+v: twice the size and density weighs %v times as much, want 16", in, got.Weight/one.Weight)
				}
				if !(one.Weight > 0) || one.Total != one.Weight*unit.Mass(in.Count) {
					t.Fatalf("%+v weighs %v, %v in all", in, one.Weight, one.Total)
				}
				box := float64(max(in.Width, in.Height, in.Diameter, unit.Length(math.Sqrt(float64(in.Area)))))
				if shape != "plate" && shape != "triangle" && float64(one.Face) > box*box*(1+1e-9) {
					t.Fatalf("%+v: a face of %v does not go into %v square", in, one.Face, box)
				}
			}
		})
	}
}

// Whole figures that two shapes must agree on.
func TestPieceAgrees(t *testing.T) {
	mm := unit.Millimetre
	base := PieceInput{Density: 7850, Count: 1, Sweep: 360 * unit.Degree, Length: 1}
	with := func(shape string, change func(*PieceInput)) PieceInput {
		in := base
		in.Shape = shape
		change(&in)
		return in
	}
	tests := []struct {
		name string
		a, b PieceInput
	}{
		{name: "a tube whose wall is half its diameter is round bar",
			a: with("round-tube", func(in *PieceInput) { in.Diameter, in.Thickness = 50*mm, 25*mm }),
			b: with("round", func(in *PieceInput) { in.Diameter = 50 * mm })},
		{name: "a box whose wall is half its side is square bar",
			a: with("box-tube", func(in *PieceInput) { in.Width, in.Height, in.Thickness = 50*mm, 50*mm, 25*mm }),
			b: with("square", func(in *PieceInput) { in.Width = 50 * mm })},
		{name: "two flats make an angle",
			a: with("angle", func(in *PieceInput) { in.Width, in.Height, in.Thickness = 80*mm, 60*mm, 10*mm }),
			b: with("flat", func(in *PieceInput) { in.Width, in.Thickness = 130*mm, 10*mm })},
		{name: "a channel and a beam of the same measures",
			a: with("channel", func(in *PieceInput) { in.Width, in.Height, in.Thickness, in.Flange = 50*mm, 100*mm, 6*mm, 8*mm }),
			b: with("beam", func(in *PieceInput) { in.Width, in.Height, in.Thickness, in.Flange = 50*mm, 100*mm, 6*mm, 8*mm })},
		{name: "a tube is a tall ring",
			a: with("round-tube", func(in *PieceInput) { in.Diameter, in.Thickness = 100*mm, 10*mm }),
			b: with("ring", func(in *PieceInput) { in.Diameter, in.Bore, in.Thickness = 100*mm, 80*mm, 1000*mm })},
	}
	for _, test := range tests {
		a, b := mustPiece(t, test.a), mustPiece(t, test.b)
		if math.Abs(float64(a.Weight/b.Weight)-1) > 1e-12 {
			t.Errorf("%s: %v and %v", test.name, a.Weight, b.Weight)
		}
	}
}

// A polygon of many sides comes to the disc and to the part of a ring that it
// follows, in area and in where it balances.
func TestPolygonFollowsTheRing(t *testing.T) {
	const sides = 4000
	for _, degrees := range []float64{10, 90, 180, 270, 359} {
		sweep := degrees * math.Pi / 180
		var corners []Point
		for i := range sides + 1 {
			a := -sweep/2 + sweep*float64(i)/sides
			corners = append(corners, Point{unit.Length(0.5 * math.Cos(a)), unit.Length(0.5 * math.Sin(a))})
		}
		for i := range sides + 1 {
			a := sweep/2 - sweep*float64(i)/sides
			corners = append(corners, Point{unit.Length(0.3 * math.Cos(a)), unit.Length(0.3 * math.Sin(a))})
		}
		want := ring(PieceInput{Shape: "ring", Diameter: 1, Bore: 0.6, Sweep: unit.Angle(sweep), Thickness: 1})
		area, at := shoelace(corners)
		if math.Abs(float64(area/want.face)-1) > 1e-6 || math.Abs(float64(at.X-want.balance.Along)) > 1e-6 || math.Abs(float64(at.Y)) > 1e-9 {
			t.Errorf("%v° of ring: %v balancing at %v, want %v at %v", degrees, area, at, want.face, want.balance.Along)
		}
	}
}

// Moved and turned, a star-shaped outline keeps its area and takes its balance
// along; a swap of two far corners is noticed.
func TestPolygonMoves(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	for i := range 200 {
		n := 5 + r.Intn(8)
		var a, b []Point
		turn, dx, dy := 2*math.Pi*r.Float64(), unit.Length(9*r.Float64()), unit.Length(-9*r.Float64())
		move := func(p Point) Point {
			c, s := unit.Length(math.Cos(turn)), unit.Length(math.Sin(turn))
			return Point{c*p.X - s*p.Y + dx, s*p.X + c*p.Y + dy}
		}
		for k := range n {
			at, far := 2*math.Pi*float64(k)/float64(n), 0.2+0.3*r.Float64()
			p := Point{unit.Length(far * math.Cos(at)), unit.Length(far * math.Sin(at))}
			a, b = append(a, p), append([]Point{move(p)}, b...)
		}
		areaA, atA, errA := polygon(a)
		areaB, atB, errB := polygon(b)
		want := move(atA)
		if errA != nil || errB != nil || math.Abs(float64(areaA/areaB)-1) > 1e-9 || math.Hypot(float64(want.X-atB.X), float64(want.Y-atB.Y)) > 1e-9 {
			t.Errorf("case %d: %v at %v (%v) moved is %v at %v (%v), want %v", i, areaA, atA, errA, areaB, atB, errB, want)
		}
		a[0], a[n/2] = a[n/2], a[0]
		if _, _, err := polygon(a); err == nil {
			t.Errorf("case %d: corners in the wrong order are not noticed: %v", i, a)
		}
	}
}

func mustPiece(t *testing.T, in PieceInput) PieceResult {
	t.Helper()
	res, err := ComputePiece(in)
	if err != nil {
		t.Fatal(fmt.Sprintf("%+v", in), err)
	}
	return res
}
