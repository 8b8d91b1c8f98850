package layout

import (
	"math"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
)

// leanGauge is a triangle of card to lean the torch by.
func leanGauge(a *form.Answer, in BevelInput) drawing.Template {
	const most = 100 // mm
	tan := math.Tan(float64(in.Bevel))
	high := min(most, most/tan)
	b := form.Say(a, in.Bevel)
	t := drawing.Template{Key: "lean", Notes: []string{
		"Paste it on stiff card and cut it out.",
		"Stand it on the plate, at the side to which the torch leans. The slope runs along the torch.",
		"Only with the arc off. Card burns.",
	}}
	t.Title, t.Says = "Gauge for a lean of "+b, "A triangle with a square corner. Its slope stands "+b+" off upright."
	t.AddClosed(drawing.Cut, drawing.Point{X: 0, Y: 0}, drawing.Point{X: high * tan, Y: 0}, drawing.Point{X: 0, Y: high})
	t.Write(drawing.Point{X: 4, Y: 5}, "start", b+", this side down")
	return t
}
