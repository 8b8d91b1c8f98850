package layout

import (
	"math"

	"gonum.org/v1/gonum/mathext"

	"kerfside/calc/drawing"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// EllipseInput is an ellipse, or an oval of four arcs in its place.
type EllipseInput struct {
	Long, Short unit.Length // over all, Short ≤ Long
	Spaces      int         // between the points to mark, on half the curve
	Kerf        unit.Length
	Hole        bool // the plate around is kept
}

// EllipseResult is how an ellipse is set out.
type EllipseResult struct {
	HalfLong, HalfShort unit.Length
	Pins                unit.Length // apart, for a string
	Loop                unit.Length // of the string round both pins and the pencil
	Around              unit.Length
	Area                unit.Area
	Points              []Ordinate  // of the upper half, from the left end
	PathOff             unit.Length // by which a trammel set half a kerf over misses the torch's true path
}

// ComputeEllipse sets out an ellipse of half axes a ≥ b:
//
//	points    along a·(1 − cos t), up b·sin t, at equal steps of t: close together where it bends most
//	string    pins at √(a² − b²) from the middle, a loop of 2a + 2·√(a² − b²)
//	around    4a·E(m), m = 1 − b²/a², E the complete elliptic integral of the second kind
//	torch     beside the line by k/2 along its normal (b·cos t, a·sin t)
//
// The torch's path is no ellipse. PathOff is how far from it one lies whose half axes are
// k/2 more or less. Where the plate around is kept, the ends must be rounder than the
// arc: b²/a > k/2. Plane geometry; E(m) by gonum.
func ComputeEllipse(in EllipseInput) (EllipseResult, error) {
	a, b := float64(in.Long)/2, float64(in.Short)/2
	if err := in.check(b * b / a); err != nil {
		return EllipseResult{}, err
	}
	focus := math.Sqrt(a*a - b*b)
	res := EllipseResult{HalfLong: in.Long / 2, HalfShort: in.Short / 2, Pins: unit.Length(2 * focus), Loop: unit.Length(2*a + 2*focus),
		Around: unit.Length(4 * a * mathext.EllipticE(math.Pi/2, 1-b*b/(a*a))), Area: unit.Area(math.Pi * a * b)}
	for i := range in.Spaces + 1 {
		s, c := math.Sincos(math.Pi * float64(i) / float64(in.Spaces))
		res.Points = append(res.Points, Ordinate{Along: unit.Length(a * (1 - c)), Up: unit.Length(b * max(0, s))})
	}
	beside := in.beside(0.5)
	A, B := a+beside, b+beside
	for i := range 181 {
		x, y := ellipsePoint(a, b, beside, math.Pi/2*float64(i)/180)
		// How far it is from that ellipse, by the slope of its equation there: the two lie close.
		off := (x*x/(A*A) + y*y/(B*B) - 1) / (2 * math.Hypot(x/(A*A), y/(B*B)))
		res.PathOff = max(res.PathOff, unit.Length(math.Abs(off)))
	}
	return res, nil
}

// check refuses axes that are swapped, and ends that bend tighter than the arc can.
func (in EllipseInput) check(tightest float64) error {
	if in.Short > in.Long {
		return problem.New(problem.Conflict, "short", "the short axis is longer than the long one", "Swap the two.")
	}
	if in.Hole && tightest <= float64(in.Kerf)/2 {
		return problem.New(problem.Refused, "short", "its ends bend tighter than the arc can: half the kerf is wider", "Make it rounder, or a slot with round ends.")
	}
	return nil
}

// beside is how far out from the finished edge so many kerfs lie, into the waste.
func (in EllipseInput) beside(kerfs float64) float64 {
	if in.Hole {
		kerfs = -kerfs
	}
	return kerfs * float64(in.Kerf)
}

// ellipsePoint is a point so far out from an ellipse, along its normal.
func ellipsePoint(a, b, out, t float64) (x, y float64) {
	s, c := math.Sincos(t)
	long := math.Hypot(b*c, a*s)
	return a*c + out*b*c/long, b*s + out*a*s/long
}

// outline returns the whole curve so many kerfs into the waste, closed, in millimetres
// around the middle.
func (in EllipseInput) outline(kerfs float64) []drawing.Point {
	const n = 360
	points := make([]drawing.Point, n+1)
	for i := range points {
		x, y := ellipsePoint(float64(in.Long)/2, float64(in.Short)/2, in.beside(kerfs), 2*math.Pi*float64(i)/n)
		points[i] = drawing.Point{X: 1000 * x, Y: 1000 * y}
	}
	return points
}

// OvalResult is four arcs in place of an ellipse.
type OvalResult struct {
	EndRadius, SideRadius unit.Length
	EndCentre             unit.Length // from the middle, along the long axis
	SideCentre            unit.Length // from the middle, along the short axis, on the far side
	Join                  Spot        // where two arcs meet, from the middle
	Around                unit.Length
	Off                   unit.Length // by which it leaves the true ellipse at most
}

// ComputeOval sets out the usual oval of four arcs on half axes a ≥ b, with d = √(a² + b²):
//
//	end arcs  r = d·(d − (a − b))/(2a), centres a − r from the middle on the long axis
//	side arcs R = d·(d + (a − b))/(2b), centres R − b from the middle on the short axis, on the far side
//
// Arcs meet on the line through their two centres, where they touch. Half a kerf beside
// it, it is four arcs again. Common practice of the drawing board; how far it leaves the
// ellipse is measured along its own normals.
func ComputeOval(in EllipseInput) (OvalResult, error) {
	a, b := float64(in.Long)/2, float64(in.Short)/2
	d := math.Hypot(a, b)
	r, R := d*(d-(a-b))/(2*a), d*(d+(a-b))/(2*b)
	if err := in.check(r); err != nil {
		return OvalResult{}, err
	}
	ex, sy := max(a-r, 0), max(R-b, 0)
	turn := math.Pi / 4 // of the line through the centres; a circle joins anywhere
	if ex > 0 {
		turn = math.Atan2(sy, ex)
	}
	s, c := math.Sincos(turn)
	res := OvalResult{EndRadius: unit.Length(r), SideRadius: unit.Length(R), EndCentre: unit.Length(ex), SideCentre: unit.Length(sy),
		Join: Spot{unit.Length(ex + r*c), unit.Length(r * s)}, Around: unit.Length(4*r*turn + 4*R*(math.Pi/2-turn))}
	for i := range 361 {
		x, y := ellipsePoint(a, b, 0, math.Pi/2*float64(i)/360)
		off := math.Hypot(x-ex, y) - r
		if (x-ex)*s < y*c { // beyond the line through the centres: beside the side arc
			off = math.Hypot(x, y+sy) - R
		}
		res.Off = max(res.Off, unit.Length(math.Abs(off)))
	}
	return res, nil
}

// outline returns the four arcs so many kerfs into the waste, closed, in millimetres
// around the middle.
func (res OvalResult) outline(in EllipseInput, kerfs float64) []drawing.Point {
	out := 1000 * in.beside(kerfs)
	turn := math.Atan2(float64(res.Join.Y), float64(res.Join.X-res.EndCentre)) * 180 / math.Pi
	end, side := inMM(res.EndCentre), inMM(res.SideCentre)
	points := drawing.Arc(drawing.Point{X: end}, inMM(res.EndRadius)+out, -turn, turn)
	points = append(points, drawing.Arc(drawing.Point{Y: -side}, inMM(res.SideRadius)+out, turn, 180-turn)...)
	points = append(points, drawing.Arc(drawing.Point{X: -end}, inMM(res.EndRadius)+out, 180-turn, 180+turn)...)
	points = append(points, drawing.Arc(drawing.Point{Y: side}, inMM(res.SideRadius)+out, 180+turn, 360-turn)...)
	return append(points, points[0])
}
