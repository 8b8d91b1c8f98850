package form

import (
	"math"
	"slices"

	"kerfside/calc/drawing"
	"kerfside/calc/problem"
)

// What a layout hands on beside its figures: a drawing to scale, templates to print
// at 1:1, and the cuts that follow from it.

// DrawLayout adds a drawing to scale to the answer. It goes to the phone as the
// picture "layout": title and says, then its parts as lists. A line is [use, closed,
// x, y, x, y, …], an area [use, x, y, …], a circle [use, x, y, r], a measure [x, y, x,
// y, text] and a text [x, y, anchor, text], in hundredths of a millimetre, y up.
func (a *Answer) DrawLayout(d drawing.Drawing) {
	params := map[string]any{"title": d.Title, "says": d.Says}
	add := func(list string, row []any) {
		rows, _ := params[list].([][]any)
		params[list] = append(rows, row)
	}
	for _, area := range d.Areas {
		add("areas", append([]any{area.Use}, flat(area.Points)...))
	}
	for _, line := range d.Lines {
		add("lines", append([]any{line.Use, line.Closed}, flat(line.Points)...))
	}
	for _, c := range d.Circles {
		add("circles", append([]any{c.Use}, append(flat([]drawing.Point{c.At}), hundredths(c.R))...))
	}
	for _, m := range d.Measures {
		add("measures", append(flat([]drawing.Point{m.From, m.To}), m.Text))
	}
	for _, t := range d.Texts {
		add("texts", append(flat([]drawing.Point{t.At}), t.Anchor, t.Text))
	}
	a.pictures = append(a.pictures, Picture{Name: "layout", Params: params})
}

func flat(points []drawing.Point) []any {
	list := make([]any, 0, 2*len(points))
	for _, p := range points {
		list = append(list, hundredths(p.X), hundredths(p.Y))
	}
	return list
}

func hundredths(mm float64) int { return int(math.Round(mm * 100)) }

// Offered is a template as an answer lists it.
type Offered struct {
	Key   string `json:"key"`
	Title string `json:"title"`
}

func (a *Answer) offered() []Offered {
	var list []Offered
	for _, t := range a.templates {
		list = append(list, Offered{t.Key, t.Title})
	}
	return list
}

// AddTemplate adds a template that can be printed at 1:1.
func (a *Answer) AddTemplate(t drawing.Template) { a.templates = append(a.templates, t) }

// Templates are all that can be printed.
func (a *Answer) Templates() []drawing.Template { return a.templates }

// Template returns the template of that key, or an Unknown problem.
func (a *Answer) Template(key string) (drawing.Template, error) {
	i := slices.IndexFunc(a.templates, func(t drawing.Template) bool { return t.Key == key })
	if i < 0 {
		return drawing.Template{}, problem.Newf(problem.Unknown, "", "this layout has no template %q", key).
			WithHint("Enter its measures first; some have none to print.")
	}
	return a.templates[i], nil
}

// Onward is one cut that follows from a layout, as the fields of a cut plan and of a
// row of a job's cut list, written as a person would enter them.
type Onward struct {
	Name   string            `json:"name"`   // of the row
	Fields map[string]string `json:"fields"` // thickness, length, pierces, count, …
}

// AddCut adds a cut that follows from the layout: how thick the metal is along the
// torch, how long one cut is, how often it is pierced, how many there are.
func (a *Answer) AddCut(c Onward) { a.cuts = append(a.cuts, c) }

// Cuts are those that follow from the layout.
func (a *Answer) Cuts() []Onward { return a.cuts }
