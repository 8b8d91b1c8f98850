// Package drawing holds line drawings at true size. A calculator of layout makes
// them; the phone shows them to scale, and package drawing/paper prints them at
// 1:1.
//
// Lengths are millimetres, x to the right and y up; angles are degrees
// counter-clockwise from the x axis.
package drawing

import "math"

// Point is a place in a drawing, mm.
type Point struct{ X, Y float64 }

// Use says what a line or an area stands for, and with that how it is shown.
type Use string

const (
	Cut     Use = "cut"     // the finished edge: the line to mark and cut
	Metal   Use = "metal"   // an outline that is there already
	Hidden  Use = "hidden"  // one that lies behind, dashed
	Centre  Use = "centre"  // an axis, long and short dashes
	Station Use = "station" // a thin line to set out by
	Kerf    Use = "kerf"    // an area that the arc takes away
	Waste   Use = "waste"   // an area that is cut off
	Solid   Use = "solid"   // an area of metal in section
)

// Line is a run of straight pieces. A curve is given by as many points as keep it
// within 0.02 mm.
type Line struct {
	Use    Use
	Points []Point
	Closed bool
}

// Circle is a whole circle.
type Circle struct {
	Use Use
	At  Point
	R   float64
}

// Area is a closed outline that is filled by its use: hatched where metal goes,
// plain where it stays.
type Area struct {
	Use    Use
	Points []Point
}

// Text stands at a point: Anchor is "start", "middle" or "end", and on paper it is
// turned by Turn degrees.
type Text struct {
	At     Point
	Text   string
	Anchor string
	Turn   float64
}

// Measure is a length between two points with its text, as a person reads it.
type Measure struct {
	From, To Point
	Text     string
}

// Drawing is one picture.
type Drawing struct {
	Title    string // "Branch, laid flat"
	Says     string // in words what it shows, for who cannot see it
	Areas    []Area
	Lines    []Line
	Circles  []Circle
	Measures []Measure
	Texts    []Text
}

// Template is a drawing that is printed at 1:1, cut out and laid on the work.
type Template struct {
	Key   string   // "branch": names it among the templates of an answer and in its file
	Notes []string // what must be known of it on the paper: which pipe, which surface, which way the line runs
	Drawing
}

// Add appends a line through these points.
func (d *Drawing) Add(use Use, points ...Point) {
	d.Lines = append(d.Lines, Line{Use: use, Points: points})
}

// AddClosed appends a line that returns to its first point.
func (d *Drawing) AddClosed(use Use, points ...Point) {
	d.Lines = append(d.Lines, Line{Use: use, Points: points, Closed: true})
}

// AddCircle appends a circle.
func (d *Drawing) AddCircle(use Use, at Point, r float64) {
	d.Circles = append(d.Circles, Circle{Use: use, At: at, R: r})
}

// Fill appends an area.
func (d *Drawing) Fill(use Use, points ...Point) {
	d.Areas = append(d.Areas, Area{use, points})
}

// Write appends a text.
func (d *Drawing) Write(at Point, anchor, text string) {
	d.Texts = append(d.Texts, Text{At: at, Text: text, Anchor: anchor})
}

// Measure appends a measure.
func (d *Drawing) Measure(from, to Point, text string) {
	d.Measures = append(d.Measures, Measure{From: from, To: to, Text: text})
}

// Box returns the corners of the smallest upright rectangle around all lines, areas and
// circles; both are zero of an empty drawing.
func (d *Drawing) Box() (low, high Point) {
	first := true
	put := func(x, y float64) {
		if first {
			low, high, first = Point{x, y}, Point{x, y}, false
		}
		low = Point{min(low.X, x), min(low.Y, y)}
		high = Point{max(high.X, x), max(high.Y, y)}
	}
	for _, l := range d.Lines {
		for _, p := range l.Points {
			put(p.X, p.Y)
		}
	}
	for _, a := range d.Areas {
		for _, p := range a.Points {
			put(p.X, p.Y)
		}
	}
	for _, c := range d.Circles {
		put(c.At.X-c.R, c.At.Y-c.R)
		put(c.At.X+c.R, c.At.Y+c.R)
	}
	return low, high
}

// Off is how far a curve's straight pieces may lie from it, mm.
const Off = 0.02

// Arc returns the points of an arc around a point, from one angle to another in
// degrees, both ends included, close enough for Off.
func Arc(at Point, r, from, to float64) []Point {
	turn := (to - from) * math.Pi / 180
	n := 1
	if r > Off {
		n = max(1, int(math.Ceil(math.Abs(turn)/(2*math.Acos(1-Off/r)))))
	}
	points := make([]Point, n+1)
	for i := range points {
		a := from*math.Pi/180 + turn*float64(i)/float64(n)
		points[i] = Point{at.X + r*math.Cos(a), at.Y + r*math.Sin(a)}
	}
	return points
}
