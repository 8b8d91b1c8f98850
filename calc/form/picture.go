package form

import (
	"encoding/json"

	"kerfside/calc/unit"
)

// Picture tells the phone what to draw beside an answer: the name of a drawing
// in pwa/draw and its parameters, none for one in pwa/draw/still, lengths in millimetres, angles in degrees,
// words and tables as that drawing takes them. A plot's figures are in the
// units of the answer's texts.
type Picture struct {
	Name   string         `json:"name"`
	Params map[string]any `json:"params,omitempty"`
}

// Drawn is a length as a drawing takes it, in millimetres, with its text in the
// person's units. On the wire [0.95, "0.0374 in"].
type Drawn struct {
	MM   float64
	Text string
}

// MarshalJSON writes the length as the comment on Drawn shows it.
func (d Drawn) MarshalJSON() ([]byte, error) { return json.Marshal([]any{d.MM, d.Text}) }

// Draw adds a picture to the answer.
func (a *Answer) Draw(name string, params map[string]any) {
	a.pictures = append(a.pictures, Picture{name, params})
}

// Lengths are those of the pictures.
func (a *Answer) Lengths() []Drawn { return a.lengths }

// Pictures are what to draw, in order.
func (a *Answer) Pictures() []Picture { return a.pictures }

// MM returns a length of that sort as drawings take it and keeps its text for them.
func (a *Answer) MM(l unit.Length, sort unit.Sort) float64 {
	mm := unit.Value(l, "mm")
	a.lengths = append(a.lengths, Drawn{mm, SayAs(a, l, sort)})
	return mm
}

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
	Band   bool    `json:"band,omitempty"` // an area, its border going round
}

// Plot is a picture of lines over two axes; text says in words what it shows.
type Plot struct {
	Title  string
	Text   string
	X, Y   Axis
	Series []Series
}

// Picture is the plot as the phone draws it.
func (p Plot) Picture() Picture {
	return Picture{Name: "plot", Params: map[string]any{"title": p.Title, "text": p.Text, "x": p.X, "y": p.Y, "series": p.Series}}
}

// DrawPlot adds a plot to the answer.
func (a *Answer) DrawPlot(p Plot) { a.pictures = append(a.pictures, p.Picture()) }

// Bar is one bar, or one mark across all bars, of a picture of bars: how long
// in any unit that all share, and in words.
type Bar struct {
	Label string  `json:"label"`
	Value float64 `json:"value"`
	Text  string  `json:"text"`
	Over  bool    `json:"over,omitempty"` // past its limit
}

// DrawBars adds bars below one another, with marks across them such as a
// limit.
func (a *Answer) DrawBars(title, text string, bars []Bar, marks ...Bar) {
	a.pictures = append(a.pictures, Bars(title, text, bars, marks...))
}

// Bars is the picture of bars that DrawBars adds.
func Bars(title, text string, bars []Bar, marks ...Bar) Picture {
	if marks == nil {
		marks = []Bar{} // never null on the wire
	}
	return Picture{Name: "bars", Params: map[string]any{"title": title, "text": text, "bars": bars, "marks": marks}}
}

// NewBar is a bar of a quantity, in the person's units.
func NewBar[M unit.Measure](a *Answer, label string, m M, metric, us string) Bar {
	return Bar{Label: label, Value: float64(m), Text: SayIn(a, m, metric, us)}
}

// Past marks the bar as past its limit if it is.
func (b Bar) Past(is bool) Bar { b.Over = is; return b }

// Unit returns the unit of this answer's system for a plot's axis.
func (a *Answer) Unit(metric, us string) string {
	if a.system == unit.US {
		return us
	}
	return metric
}
