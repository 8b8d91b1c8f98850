package book

import (
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// plotWear draws the readings, how they go on, and where the limit is.
func (b *book) plotWear(w wornPart) form.Picture {
	y := form.Axis{Label: "grown by", Unit: "%"}
	scale := func(v float64) float64 { return 100 * v }
	if w.slot == "electrode" {
		y = form.Axis{Label: "pit", Unit: "mm"}
		if b.Units == unit.US {
			y.Unit = "in"
		}
		scale = func(v float64) float64 { return unit.Value(unit.Length(v), y.Unit) }
	}
	from := w.points[len(w.points)-1][0]
	at := func(more, v float64) form.Point { return form.Point{from + more, scale(v)} }
	var dots, line, band []form.Point
	for _, p := range w.points {
		dots = append(dots, form.Point{p[0], scale(p[1])})
	}
	end := 1.25 * max(from, 1)
	for _, p := range w.out.Path {
		line, band = append(line, at(p.More, p.At)), append(band, at(p.More, p.High))
		end = max(end, from+p.More)
	}
	for i := range w.out.Path {
		p := w.out.Path[len(w.out.Path)-1-i]
		band = append(band, at(p.More, p.Low))
	}
	var series []form.Series
	if w.out.Ranged && len(line) > 0 {
		series = append(series, form.Series{Name: "range", Band: true, Points: band})
	}
	if len(line) > 0 {
		series = append(series, form.Series{Name: "goes on", Points: line})
	}
	series = append(series, form.Series{Name: "read", Dots: true, Points: dots},
		form.Series{Name: "change", Dashed: true, Points: []form.Point{{0, scale(w.limit)}, {end, scale(w.limit)}}},
		form.Series{Name: "today", Dashed: true, Points: []form.Point{{from + w.since, 0}, {from + w.since, scale(w.limit)}}})
	text := "What was read after so much arc, and where the limit is."
	if w.out.Ranged {
		text = "What was read after so much arc, how it goes on, and where the limit is. The shaded range is that of one reading."
	}
	return form.Plot{Title: "Wear of this " + slot(w.slot), X: form.Axis{Label: "arc on it", Unit: "min"}, Y: y, Series: series, Text: text}.Picture()
}
