package layout

import (
	"math"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// drawBevel is the section: the part at the left, its longest edge at x = 0, the waste at
// the right.
func drawBevel(a *form.Answer, in BevelInput, res BevelResult) drawing.Drawing {
	mark := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	t, f, shift, kerf, cup := inMM(in.Thickness), inMM(in.Land), inMM(res.Shift), inMM(res.KerfTop), inMM(in.Cup)
	top, foot := -inMM(in.setBack(res)), 0.0 // where the bevel's face begins and ends
	if in.Under {
		foot = -shift
	}
	left := max(shift+0.9*t, inMM(res.Offset)+cup/2-top)
	right := max(0.8*t, kerf+0.5*t)
	if in.Guide == "waste" {
		left, right = shift+0.9*t, max(right, kerf+inMM(res.Offset)+cup/2)
	}
	left = max(left, shift+0.8*right) // a text stands in the part
	long := max(1.1*t, 1.6*cup)
	step := 0.1 * max(left+right, t+long+cup/2) // room for a text

	d := drawing.Drawing{Title: "The edge in section", Says: "The edge from its end, part at the left. " + bevelSays(a, in, res)}
	face := []drawing.Point{{X: top, Y: t}, {X: foot, Y: f}}
	d.Add(drawing.Metal, drawing.Point{X: -left, Y: t}, face[0])
	d.Add(drawing.Metal, drawing.Point{X: -left, Y: 0}, drawing.Point{X: foot, Y: 0})
	if in.Land > 0 {
		fillLandKerf(&d, in, top, kerf, right)
		d.Add(drawing.Cut, face[0], face[1], drawing.Point{X: 0, Y: 0})
	} else {
		d.Fill(drawing.Kerf, face[0], drawing.Point{X: top + kerf, Y: t}, drawing.Point{X: foot + kerf, Y: 0}, face[1])
		d.Fill(drawing.Waste, drawing.Point{X: top + kerf, Y: t}, drawing.Point{X: right, Y: t}, drawing.Point{X: right, Y: 0}, drawing.Point{X: foot + kerf, Y: 0})
		d.Add(drawing.Cut, face...)
	}
	drawTorch(a, &d, in, res, drawing.Point{X: top + kerf/2, Y: t}, long)
	d.Measure(drawing.Point{X: -shift, Y: -step}, drawing.Point{X: 0, Y: -step}, mark(res.Shift))
	beside, anchor := -step/2, "end" // the bevelled face is measured where there is room
	if in.Under {
		beside, anchor = kerf+step/2, "start"
	}
	d.Measure(drawing.Point{X: top + beside, Y: t}, drawing.Point{X: foot + beside, Y: f}, "")
	d.Write(drawing.Point{X: (top+foot)/2 + 1.6*beside, Y: (t+f)/2 - 0.2*step}, anchor, form.SayAs(a, res.Slant, unit.Plate))
	if in.Land > 0 {
		beside := inMM(in.Kerf) + step/2
		d.Measure(drawing.Point{X: beside, Y: 0}, drawing.Point{X: beside, Y: f}, mark(in.Land))
	}
	if in.Guide != "none" {
		drawGuide(a, &d, in, res, top, -2.3*step)
	}
	return d
}

// fillLandKerf hatches what two passes take: the square one, then what the leaning torch
// takes of what is left. What comes off in one piece between them is waste.
func fillLandKerf(d *drawing.Drawing, in BevelInput, top, kerf, right float64) {
	t, f, upright := inMM(in.Thickness), inMM(in.Land), inMM(in.Kerf)
	box := func(use drawing.Use, from, to float64) {
		d.Fill(use, drawing.Point{X: from, Y: 0}, drawing.Point{X: to, Y: 0}, drawing.Point{X: to, Y: t}, drawing.Point{X: from, Y: t})
	}
	box(drawing.Kerf, 0, upright)
	box(drawing.Waste, upright, right)
	if far := top + kerf; far < 0 { // a strip is left between the two kerfs
		low := t + far/math.Tan(float64(in.Bevel))
		d.Fill(drawing.Kerf, drawing.Point{X: top, Y: t}, drawing.Point{X: far, Y: t}, drawing.Point{X: 0, Y: low}, drawing.Point{X: 0, Y: f})
		d.Fill(drawing.Waste, drawing.Point{X: far, Y: t}, drawing.Point{X: 0, Y: t}, drawing.Point{X: 0, Y: low})
		return
	}
	d.Fill(drawing.Kerf, drawing.Point{X: top, Y: t}, drawing.Point{X: 0, Y: t}, drawing.Point{X: 0, Y: f})
}

// drawTorch draws the torch's axis from the surface up, and its cup where it is known.
func drawTorch(a *form.Answer, d *drawing.Drawing, in BevelInput, res BevelResult, at drawing.Point, long float64) {
	sin, cos := math.Sincos(float64(in.Bevel))
	if !in.Under {
		sin = -sin
	}
	along := func(up, beside float64) drawing.Point {
		return drawing.Point{X: at.X + up*sin + beside*cos, Y: at.Y + up*cos - beside*sin}
	}
	d.Add(drawing.Centre, at, along(long, 0))
	if c := inMM(in.Cup) / 2; c > 0 {
		low := c * math.Abs(sin) / cos // the rim touches the plate
		if !res.Towards {
			low = max(low, (inMM(in.Contact)-c*math.Abs(sin))/cos) // the other side of the rim touches the guide
		}
		d.Add(drawing.Metal, along(low+2*c, -c), along(low, -c), along(low, c), along(low+2*c, c))
	}
	anchor := "start"
	if sin < 0 {
		anchor = "end"
	}
	d.Write(along(long, 0), anchor, form.Say(a, in.Bevel))
}

// drawGuide draws the straightedge and how far it lies from the line on the plate.
func drawGuide(a *form.Answer, d *drawing.Drawing, in BevelInput, res BevelResult, line, low float64) {
	t, high := inMM(in.Thickness), inMM(in.Contact)
	if !res.Towards {
		high *= 1.3 // it must be the higher
	}
	edge, back := line-inMM(res.Offset), -inMM(in.Cup)/2
	if in.Guide == "waste" {
		edge, back = line+inMM(res.Offset), -back
	}
	d.AddClosed(drawing.Metal, drawing.Point{X: edge, Y: t}, drawing.Point{X: edge + back, Y: t}, drawing.Point{X: edge + back, Y: t + high}, drawing.Point{X: edge, Y: t + high})
	for _, x := range []float64{edge, line} {
		d.Add(drawing.Station, drawing.Point{X: x, Y: 0.8 * low}, drawing.Point{X: x, Y: low})
	}
	d.Measure(drawing.Point{X: min(edge, line), Y: low}, drawing.Point{X: max(edge, line), Y: low}, form.SayAs(a, res.Offset, unit.Marking))
}
