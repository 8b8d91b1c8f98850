package layout

import (
	"math"
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// mitreSide is the bend from the side, its throat above.
func mitreSide(a *form.Answer, in MitreInput, res MitreResult) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	r, lean := inMM(in.Pipe.OD)/2, float64(res.Lean)
	end, middle := inMM(res.End.Centre), inMM(res.Middle.Centre)
	if !in.knowsLengths() {
		end = 2*r*math.Tan(lean) + 2*r // so much that the joint shows
	}
	d := drawing.Drawing{Title: "From the side", Says: strconv.Itoa(in.Pieces) + " pieces turn by " + form.Say(a, in.Turn) + ". Each joint leans " + sayLean(res.Lean) + " from square, and is cut back " + say(res.Deepest) + " in the throat."}
	at, turn := drawing.Point{}, 0.0
	var throat, back, centre []drawing.Point
	// mark adds what lies at a point of the centre line: both skins, in a plane that leans.
	mark := func(plane, out float64) {
		sin, cos := math.Sincos(plane)
		centre = append(centre, at)
		throat = append(throat, drawing.Point{X: at.X - sin*out, Y: at.Y + cos*out})
		back = append(back, drawing.Point{X: at.X + sin*out, Y: at.Y - cos*out})
	}
	mark(0, r)
	for i := range in.Pieces {
		long := middle
		if i == 0 || i == in.Pieces-1 {
			long = end
		}
		at.X += long * math.Cos(turn)
		at.Y += long * math.Sin(turn)
		if i < in.Pieces-1 {
			mark(turn+lean, r/math.Cos(lean))
			turn += 2 * lean
		}
	}
	mark(turn, r)
	d.Add(drawing.Metal, throat...)
	d.Add(drawing.Metal, back...)
	d.Add(drawing.Metal, throat[0], back[0])
	d.Add(drawing.Metal, throat[len(throat)-1], back[len(back)-1])
	d.Add(drawing.Centre, centre...)
	for i := 1; i < len(throat)-1; i++ {
		d.Add(drawing.Cut, throat[i], back[i])
	}
	if in.knowsLengths() {
		low, high := d.Box()
		under := low.Y - 0.12*max(high.X-low.X, high.Y-low.Y) // room for its text
		d.Measure(drawing.Point{X: 0, Y: under}, drawing.Point{X: back[1].X, Y: under}, say(res.End.Back))
	}
	return d
}

// mitreFlat is the skin of an end piece unrolled, the throat at both ends, its square end up.
func mitreFlat(a *form.Answer, in MitreInput, res MitreResult) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	wide, deep := inMM(res.Girth), inMM(res.Deepest)
	line := mitreLine(in, res, 1)
	beside := besideLine(line, inMM(in.Kerf))
	top, foot := deep+0.1*wide, -0.14*wide
	d := drawing.Drawing{Title: "Cut, laid flat", Says: "The pipe's skin unrolled, " + say(res.Girth) + " long, line 0 in the throat at both ends. The cut goes back " + say(res.Deepest) + " there, and nothing at the long point in the middle. Waste is below, and the kerf lies in it."}
	d.Fill(drawing.Kerf, band(line, beside)...)
	d.Fill(drawing.Waste, band(beside, []drawing.Point{{Y: foot}, {X: wide, Y: foot}})...)
	for i := range in.Lines + 1 {
		x := wide * float64(i) / float64(in.Lines)
		d.Add(drawing.Station, drawing.Point{X: x, Y: top}, drawing.Point{X: x, Y: inMM(res.Lines[i].Back)})
	}
	d.Add(drawing.Centre, drawing.Point{}, drawing.Point{X: wide})
	d.Add(drawing.Cut, line...)
	d.Measure(drawing.Point{X: 0.53 * wide}, drawing.Point{X: 0.53 * wide, Y: deep}, say(res.Deepest))
	d.Write(drawing.Point{X: wide / 2, Y: -0.08 * wide}, "middle", "long point")
	return d
}

// mitreLine is the cut on the skin, up from the square line through the long point.
func mitreLine(in MitreInput, res MitreResult, stretch float64) []drawing.Point {
	n := 16 * in.Lines
	line := make([]drawing.Point, n+1)
	for i := range line {
		line[i] = drawing.Point{X: inMM(res.Girth) * stretch * float64(i) / float64(n), Y: inMM(res.Deepest) / 2 * (1 + math.Cos(stationAngle(i, n)))}
	}
	return line
}
