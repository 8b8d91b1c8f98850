package layout

import (
	"math"
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// arcLine returns an arc over its chord, so far outside the finished edge, its left end
// first; the chord runs from 0 along x. It ends where the finished edge does, seen from
// the centre.
func (res ArcResult) line(out unit.Length) []drawing.Point {
	half := float64(res.Angle) / 2 * 180 / math.Pi
	centre := drawing.Point{X: inMM(res.Chord) / 2, Y: inMM(res.Rise - res.Radius)}
	return drawing.Arc(centre, inMM(res.Radius+out), 90+half, 90-half)
}

// intoWaste is so many kerfs outside the finished edge, inside where the plate around is kept.
func intoWaste(kerf unit.Length, hole bool) unit.Length {
	if hole {
		return -kerf
	}
	return kerf
}

func drawArc(a *form.Answer, res ArcResult, kerf unit.Length, hole bool) {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	where := "above the arc"
	if hole {
		where = "below the arc"
	}
	c, h := inMM(res.Chord), inMM(res.Rise)
	d := drawing.Drawing{Title: "Arc over its chord", Says: "Chord of " + say(res.Chord) + ", rise of " + say(res.Rise) + " in the middle, " + strconv.Itoa(len(res.Points)) +
		" points from the left end on. Waste is " + where + ", and the kerf lies in it."}
	line, edge := res.line(0), res.line(intoWaste(kerf, hole))
	d.Fill(drawing.Kerf, band(line, edge)...)
	if hole {
		d.Fill(drawing.Waste, edge...)
	} else {
		d.Fill(drawing.Waste, band(edge, []drawing.Point{{X: edge[0].X, Y: h + 0.08*c}, {X: edge[len(edge)-1].X, Y: h + 0.08*c}})...)
	}
	addOrdinates(&d, res)
	d.Add(drawing.Cut, line...)
	d.Measure(drawing.Point{X: 0, Y: -0.1 * c}, drawing.Point{X: c, Y: -0.1 * c}, say(res.Chord))
	if h > 0.2*c {
		d.Measure(drawing.Point{X: c / 2, Y: 0}, drawing.Point{X: c / 2, Y: h}, say(res.Rise))
	} else { // too flat to write in
		d.Write(drawing.Point{X: c / 2, Y: h + 0.11*c}, "middle", "rise "+say(res.Rise))
	}
	a.DrawLayout(d)
	radius := "Radius " + say(res.Radius)
	if res.RadiusOff > 0 {
		radius = "Radius about " + inDoubt(a, res.Radius, res.RadiusOff)
	}
	t := drawing.Template{Key: "arc", Drawing: drawing.Drawing{Title: "Arc, chord " + say(res.Chord)}, Notes: []string{
		radius + ", chord " + say(res.Chord) + ", rise " + say(res.Rise) + ". Lay the long line on the chord, point 0 at its left end.",
		"The heavy line is the finished edge; waste is " + where + ". The thin one beside it is the middle of the torch.",
	}}
	addOrdinates(&t.Drawing, res)
	for i, o := range res.Points {
		t.Write(drawing.Point{X: inMM(o.Along), Y: -4}, "middle", strconv.Itoa(i))
	}
	t.Add(drawing.Cut, line...)
	t.Add(drawing.Station, res.line(intoWaste(kerf/2, hole))...)
	if onPaper(t.Drawing) {
		a.AddTemplate(t)
	}
}

// addOrdinates draws the chord and the line up to each point.
func addOrdinates(d *drawing.Drawing, res ArcResult) {
	d.Add(drawing.Centre, drawing.Point{}, drawing.Point{X: inMM(res.Chord)})
	for _, o := range res.Points {
		x := inMM(o.Along)
		d.Add(drawing.Station, drawing.Point{X: x}, drawing.Point{X: x, Y: inMM(o.Up)})
	}
}

// fillRound fills the kerf and the waste of a closed curve: inside it for a hole, around
// it for a piece.
func fillRound(d *drawing.Drawing, in EllipseInput, line, edge []drawing.Point) {
	d.Fill(drawing.Kerf, band(line, edge)...)
	if in.Hole {
		d.Fill(drawing.Waste, edge...)
		return
	}
	x, y := 0.6*inMM(in.Long), 0.5*inMM(in.Short)+0.1*inMM(in.Long)
	d.Fill(drawing.Waste, band(edge, []drawing.Point{{X: x, Y: 0}, {X: x, Y: y}, {X: -x, Y: y}, {X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: 0}})...)
}

// wasteSide says where the waste lies.
func (in EllipseInput) wasteSide() string {
	if in.Hole {
		return "inside"
	}
	return "around it"
}

// measureAxes writes the long axis above a closed curve, and the short one on it.
func measureAxes(a *form.Answer, d *drawing.Drawing, in EllipseInput) {
	x, y := inMM(in.Long)/2, inMM(in.Short)/2
	top := y + 0.26*x
	d.Measure(drawing.Point{X: -x, Y: top}, drawing.Point{X: x, Y: top}, form.SayAs(a, in.Long, unit.Marking))
	d.Measure(drawing.Point{Y: -y}, drawing.Point{Y: y}, form.SayAs(a, in.Short, unit.Marking))
}

func drawEllipse(a *form.Answer, in EllipseInput, res EllipseResult) {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	size := say(in.Long) + " by " + say(in.Short)
	d := drawing.Drawing{Title: "Ellipse", Says: "Ellipse of " + size + ". Its pins lie " + say(res.Pins) + " apart on the long axis. Waste is " + in.wasteSide() + ", and the kerf lies in it."}
	line := in.outline(0)
	fillRound(&d, in, line, in.outline(1))
	x, y, pin := inMM(in.Long)/2, inMM(in.Short)/2, inMM(res.Pins)/2
	addCross(&d, drawing.Point{}, 1.15*x, y+0.15*x)
	d.AddClosed(drawing.Cut, line[:len(line)-1]...)
	up := drawing.Point{X: 0.5 * x, Y: y * 0.8660254}
	d.Add(drawing.Station, drawing.Point{X: -pin}, up, drawing.Point{X: pin})
	d.AddCircle(drawing.Station, drawing.Point{X: -pin}, 0.03*x)
	d.AddCircle(drawing.Station, drawing.Point{X: pin}, 0.03*x)
	d.Measure(drawing.Point{X: -pin, Y: -0.6 * y}, drawing.Point{X: pin, Y: -0.6 * y}, say(res.Pins))
	measureAxes(a, &d, in)
	a.DrawLayout(d)
	t := drawing.Template{Key: "ellipse", Drawing: drawing.Drawing{Title: "Ellipse, " + size}, Notes: []string{
		"Ellipse of " + size + ", all round " + say(res.Around) + ". The small circles are the pins of a string.",
		"The heavy line is the finished edge; waste is " + in.wasteSide() + ". The thin one beside it is the middle of the torch.",
	}}
	addCross(&t.Drawing, drawing.Point{}, x+10, y+10)
	t.AddCircle(drawing.Station, drawing.Point{X: -pin}, 2)
	t.AddCircle(drawing.Station, drawing.Point{X: pin}, 2)
	addRound(a, t, line, in.outline(0.5))
}

// addRound adds a template of a closed curve with the torch's path, where it goes on paper.
func addRound(a *form.Answer, t drawing.Template, line, path []drawing.Point) {
	t.AddClosed(drawing.Cut, line[:len(line)-1]...)
	t.AddClosed(drawing.Station, path[:len(path)-1]...)
	if onPaper(t.Drawing) {
		a.AddTemplate(t)
	}
}

func drawOval(a *form.Answer, in EllipseInput, res OvalResult) {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	size := say(in.Long) + " by " + say(in.Short)
	d := drawing.Drawing{Title: "Oval of four arcs", Says: "Oval of " + size + ". Ends of radius " + say(res.EndRadius) + ", their centres " + say(res.EndCentre) + " from the middle. Sides of radius " + say(res.SideRadius) +
		", their centres " + say(res.SideCentre) + " from the middle. Waste is " + in.wasteSide() + "."}
	line := res.outline(in, 0)
	fillRound(&d, in, line, res.outline(in, 1))
	x, y := inMM(in.Long)/2, inMM(in.Short)/2
	addCross(&d, drawing.Point{}, 1.15*x, y+0.15*x)
	end, side := drawing.Point{X: inMM(res.EndCentre)}, drawing.Point{Y: -inMM(res.SideCentre)}
	join := res.Join.point(drawing.Point{})
	d.AddClosed(drawing.Cut, line[:len(line)-1]...)
	d.Add(drawing.Station, side, join)
	d.AddCircle(drawing.Station, end, 0.03*x)
	d.AddCircle(drawing.Station, side, 0.03*x)
	d.AddCircle(drawing.Station, drawing.Point{X: -end.X}, 0.03*x)
	d.Write(drawing.Point{X: -end.X, Y: -0.35 * y}, "middle", say(res.EndRadius))
	d.Write(drawing.Point{X: -0.08 * x, Y: side.Y}, "end", say(res.SideRadius))
	measureAxes(a, &d, in)
	a.DrawLayout(d)
	t := drawing.Template{Key: "oval", Drawing: drawing.Drawing{Title: "Oval, " + size}, Notes: []string{
		"Oval of " + size + ". Ends of radius " + say(res.EndRadius) + ", sides of radius " + say(res.SideRadius) + ". It leaves a true ellipse by " + say(res.Off) + " at most.",
		"The heavy line is the finished edge; waste is " + in.wasteSide() + ". The thin one beside it is the middle of the torch.",
	}}
	addCross(&t.Drawing, drawing.Point{}, x+10, y+10)
	for _, s := range []float64{1, -1} {
		t.AddCircle(drawing.Station, drawing.Point{X: s * end.X}, 2)
		t.Add(drawing.Station, drawing.Point{X: s * end.X}, drawing.Point{X: s * join.X, Y: join.Y})
		t.Add(drawing.Station, drawing.Point{X: s * end.X}, drawing.Point{X: s * join.X, Y: -join.Y})
	}
	addRound(a, t, line, res.outline(in, 0.5))
}
