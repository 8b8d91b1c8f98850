package handling

import (
	"math"
	"testing"

	"kerfside/calc/unit"
)

// TestContours holds what is drawn to what is weighed: the shoelace sum over
// the drawn lines gives the area and the balance point of the closed forms.
// Circles are drawn with 48 corners, which lose 0.3 % of the area; a box tube
// is drawn with sharp corners.
func TestContours(t *testing.T) {
	const mm = unit.Millimetre
	tests := []PieceInput{
		{Shape: "plate", Length: 300 * mm, Width: 200 * mm, Thickness: 6 * mm},
		{Shape: "triangle", Length: 300 * mm, Width: 200 * mm, Thickness: 6 * mm},
		{Shape: "disc", Diameter: 250 * mm, Thickness: 6 * mm},
		{Shape: "ring", Diameter: 250 * mm, Bore: 180 * mm, Sweep: 360 * unit.Degree, Thickness: 6 * mm},
		{Shape: "ring", Diameter: 250 * mm, Bore: 180 * mm, Sweep: 90 * unit.Degree, Thickness: 6 * mm},
		{Shape: "ring", Diameter: 250 * mm, Bore: 180 * mm, Sweep: 250 * unit.Degree, Thickness: 6 * mm},
		{Shape: "outline", Corners: []Point{{0, 0}, {300 * mm, 0}, {300 * mm, 80 * mm}, {90 * mm, 80 * mm}, {90 * mm, 240 * mm}, {0, 240 * mm}}, Thickness: 6 * mm},
		{Shape: "flat", Length: 500 * mm, Width: 40 * mm, Thickness: 6 * mm},
		{Shape: "round", Length: 500 * mm, Diameter: 40 * mm},
		{Shape: "square", Length: 500 * mm, Width: 40 * mm},
		{Shape: "hex", Length: 500 * mm, Width: 40 * mm},
		{Shape: "octagon", Length: 500 * mm, Width: 40 * mm},
		{Shape: "round-tube", Length: 500 * mm, Diameter: 60 * mm, Thickness: 4 * mm},
		{Shape: "box-tube", Length: 500 * mm, Width: 60 * mm, Height: 40 * mm, Thickness: 3 * mm},
		{Shape: "angle", Length: 500 * mm, Width: 60 * mm, Height: 40 * mm, Thickness: 5 * mm},
		{Shape: "channel", Length: 500 * mm, Width: 50 * mm, Height: 100 * mm, Thickness: 6 * mm, Flange: 8 * mm},
		{Shape: "beam", Length: 500 * mm, Width: 55 * mm, Height: 100 * mm, Thickness: 4 * mm, Flange: 6 * mm},
	}
	for _, in := range tests {
		t.Run(in.Shape, func(t *testing.T) {
			in.Count, in.Density = 1, 7850
			res, err := ComputePiece(in)
			if err != nil {
				t.Fatal(err)
			}
			c := in.contours()
			area, sum := shoelace(c[0])
			if len(c) == 2 {
				inner, hole := shoelace(c[1])
				sum = Point{balanced(sum.X, area, hole.X, inner), balanced(sum.Y, area, hole.Y, inner)}
				area -= inner
			}
			if off := math.Abs(float64(area/res.Face) - 1); off > 0.004 {
				t.Errorf("drawn area = %v, weighed %v", area, res.Face)
			}
			low, high := extent(c)
			size := float64(max(high.X-low.X, high.Y-low.Y))
			at := in.at(c, res.Balance, res.IsBar)
			if math.Hypot(float64(at.X-sum.X), float64(at.Y-sum.Y)) > 0.003*size {
				t.Errorf("drawn balance point = %v, lines give %v", at, sum)
			}
		})
	}
	if c := (PieceInput{Shape: "outline", Area: 1}).contours(); c != nil {
		t.Errorf("an outline known by its area alone is drawn as %v", c)
	}
}

// balanced takes a hole out of a mean.
func balanced(whole unit.Length, area unit.Area, hole unit.Length, inner unit.Area) unit.Length {
	return unit.Length((float64(whole)*float64(area) - float64(hole)*float64(inner)) / float64(area-inner))
}
