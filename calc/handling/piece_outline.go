package handling

import (
	"math"
	"slices"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// contour is a closed line through corners; a piece is what lies between its
// contours.
type contour []Point

// round is how many corners stand for a whole circle in a drawing.
const round = 48

// corners are the lines round faces and sections with straight sides, two
// letters a corner: how far across, how far up. See measure.
func corners(shape string) string {
	switch shape {
	case "plate":
		return "00 L0 Lb 0b"
	case "triangle":
		return "00 L0 0b"
	case "flat":
		return "00 b0 bt 0t"
	case "square":
		return "00 b0 bb 0b"
	case "box-tube": // drawn with sharp corners
		return "00 b0 bh 0h / tt Bt BT tT"
	case "angle":
		return "00 b0 bt tt th 0h"
	case "channel":
		return "00 b0 bf tf tH bH bh 0h"
	case "beam":
		return "00 b0 bf rf rH bH bh 0h 0H lH lf 0f"
	}
	return ""
}

// measure is what a letter of corners stands for.
func (in PieceInput) measure(letter byte) unit.Length {
	switch letter {
	case 'L':
		return in.Length
	case 'b':
		return in.Width
	case 'h':
		return in.Height
	case 't':
		return in.Thickness
	case 'f':
		return in.Flange
	case 'B':
		return in.Width - in.Thickness
	case 'T':
		return in.Height - in.Thickness
	case 'H':
		return in.Height - in.Flange
	case 'l':
		return (in.Width - in.Thickness) / 2
	case 'r':
		return (in.Width + in.Thickness) / 2
	}
	return 0
}

// contours are the lines round the face of a plate or the section of a bar, from
// the same origin as its Balance; nil for an outline known by its area alone.
func (in PieceInput) contours() []contour {
	switch in.Shape {
	case "disc", "round":
		return []contour{arc(in.Diameter/2, 360*unit.Degree)}
	case "round-tube":
		return []contour{arc(in.Diameter/2, 360*unit.Degree), arc(in.Diameter/2-in.Thickness, 360*unit.Degree)}
	case "ring":
		outer, inner := arc(in.Diameter/2, in.Sweep), arc(in.Bore/2, in.Sweep)
		if in.Sweep == 360*unit.Degree {
			return []contour{outer, inner}
		}
		slices.Reverse(inner)
		return []contour{append(outer, inner...)}
	case "hex":
		return []contour{regular(6, in.Width)}
	case "octagon":
		return []contour{regular(8, in.Width)}
	case "outline":
		if in.Corners == nil {
			return nil
		}
		return []contour{in.Corners}
	}
	lines := []contour{nil}
	for _, corner := range strings.Fields(corners(in.Shape)) {
		if corner == "/" {
			lines = append(lines, nil)
			continue
		}
		last := &lines[len(lines)-1]
		*last = append(*last, Point{in.measure(corner[0]), in.measure(corner[1])})
	}
	return lines
}

// arc runs over so much of a circle round 0:0, its middle on the line across.
func arc(r unit.Length, sweep unit.Angle) contour {
	whole := sweep == 360*unit.Degree
	n := max(2, int(math.Round(round*float64(sweep/(360*unit.Degree)))))
	line := make(contour, 0, n+1)
	for i := range n + 1 {
		if whole && i == n {
			break // the first corner again
		}
		sin, cos := math.Sincos(float64(sweep) * (float64(i)/float64(n) - 0.5))
		line = append(line, Point{r * unit.Length(cos), r * unit.Length(sin)})
	}
	return line
}

// regular is a polygon of n sides round 0:0 with a flat side below, by its
// width across the flats.
func regular(n int, across unit.Length) contour {
	r := float64(across) / 2 / math.Cos(math.Pi/float64(n))
	line := make(contour, n)
	for i := range line {
		sin, cos := math.Sincos(2*math.Pi*(float64(i)+0.5)/float64(n) + math.Pi/2)
		line[i] = Point{unit.Length(r * cos), unit.Length(r * sin)}
	}
	return line
}

// at is where the contours balance, in their own measures: for a bar in its
// section, where the shape is even round its middle if Balance does not say.
func (in PieceInput) at(c []contour, b Balance, isBar bool) Point {
	if !isBar {
		return Point{b.Along, b.Across}
	}
	low, high := extent(c)
	at := Point{(low.X + high.X) / 2, (low.Y + high.Y) / 2}
	if b.Across > 0 {
		at.X = b.Across
	}
	if b.Up > 0 {
		at.Y = b.Up
	}
	return at
}

func extent(c []contour) (low, high Point) {
	low, high = c[0][0], c[0][0]
	for _, line := range c {
		for _, p := range line {
			low, high = Point{min(low.X, p.X), min(low.Y, p.Y)}, Point{max(high.X, p.X), max(high.Y, p.Y)}
		}
	}
	return low, high
}

// drawPiece shows the piece with the point at which it balances.
func drawPiece(a *form.Answer, in PieceInput, res PieceResult) {
	c := in.contours()
	if c == nil {
		return
	}
	low, high := extent(c)
	mm := func(p Point) form.Point { return form.Point{1000 * float64(p.X-low.X), 1000 * float64(p.Y-low.Y)} }
	lines := make([][]form.Point, len(c))
	for i, line := range c {
		for _, p := range line {
			lines[i] = append(lines[i], mm(p))
		}
	}
	params := map[string]any{"contours": lines, "at": mm(in.at(c, res.Balance, res.IsBar)), "across": a.MM(high.X-low.X, unit.Marking), "up": a.MM(high.Y-low.Y, unit.Marking)}
	if res.IsBar {
		params["length"], params["middle"] = a.MM(in.Length, unit.Marking), a.MM(res.Balance.Along, unit.Marking)
	}
	a.Draw("piece", params)
}
