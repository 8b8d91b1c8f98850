package form

import "kerfside/calc/unit"

// Picture tells the phone what to draw beside an answer: the name of a drawing
// in pwa/draw and its parameters, lengths in millimetres, angles in degrees,
// words and tables as that drawing takes them. A plot's figures are in the
// units of the answer's texts.
type Picture struct {
	Name   string         `json:"name"`
	Params map[string]any `json:"params"`
}

// Draw sets the answer's picture.
func (a *Answer) Draw(name string, params map[string]any) { a.picture = &Picture{name, params} }

// Picture is what to draw, nil for nothing.
func (a *Answer) Picture() *Picture { return a.picture }

// MM returns a length as drawings take it.
func MM(l unit.Length) float64 { return unit.Value(l, "mm") }

// Axis is one side of a plot: what it shows and in which unit.
type Axis struct {
	Label string `json:"label"`
	Unit  string `json:"unit"`
}

// Point is one point of a plot, in the units of its axes.
type Point [2]float64

// Series is one line of a plot.
type Series struct {
	Name   string  `json:"name"`
	Points []Point `json:"points"`
	Dashed bool    `json:"dashed,omitempty"`
	Dots   bool    `json:"dots,omitempty"` // points only, no line
}

// Plot is a picture of lines over two axes; text says in words what it shows.
type Plot struct {
	Title  string
	Text   string
	X, Y   Axis
	Series []Series
}

// DrawPlot sets a plot as the answer's picture.
func (a *Answer) DrawPlot(p Plot) {
	a.Draw("plot", map[string]any{"title": p.Title, "text": p.Text, "x": p.X, "y": p.Y, "series": p.Series})
}

// Unit returns the unit of this answer's system for a plot's axis.
func (a *Answer) Unit(metric, us string) string {
	if a.system == unit.US {
		return us
	}
	return metric
}
