package layout

import (
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// addSaddleTemplates adds what is wrapped round the branch, and what is laid on the header.
// Paper bends about its middle, so it is printed longer than the skin that it lies on.
func addSaddleTemplates(a *form.Answer, in SaddleInput, res SaddleResult, kerf, paper unit.Length) {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	half := "The line is the finished edge. The middle of the arc runs " + form.SayAs(a, kerf/2, unit.Kerf) + " into the waste."
	stretch := float64((in.Branch.OD + paper) / in.Branch.OD)
	line := res.outline(float64(in.Branch.OD)/2, stretch)
	wide, deep := inMM(res.Girth)*stretch, inMM(res.Deepest)
	const top, tab = 30, 12 // mm
	t := drawing.Template{Key: "branch", Drawing: drawing.Drawing{Title: "Branch, " + in.Branch.Name}, Notes: []string{
		"For the branch: " + in.Branch.Say(a) + ", girth " + say(res.Girth) + ". It sits at " + form.Say(a, in.Angle) + " on " + in.Header.Say(a) + ".",
		"Printed side out. The straight edge points to the branch's far end. Line 0 is on the side that " + sideOfLine0(in) + ".",
		"Line 0 at the right lies on line 0 at the left; the strip beyond is to glue.",
		"Waste is below the line, towards the header. " + half,
		"Torch square through the wall, pointed at the branch's centre line.",
	}}
	for i := range in.Stations + 1 {
		x := wide * float64(i) / float64(in.Stations)
		drop, _ := res.line(stationAngle(i, in.Stations))
		t.Add(drawing.Station, drawing.Point{X: x, Y: top}, drawing.Point{X: x, Y: -1000 * drop})
		t.Write(drawing.Point{X: x + 0.8, Y: top - 5}, "start", strconv.Itoa(i%in.Stations))
	}
	t.Add(drawing.Centre, drawing.Point{X: 0, Y: 0}, drawing.Point{X: wide, Y: 0})
	t.Write(drawing.Point{X: 2, Y: 1.5}, "start", "base line: "+say(res.ToAxis)+" to the header's centre line")
	t.Write(drawing.Point{X: wide / 2, Y: top - 12}, "middle", "to the branch's far end")
	if deep > 8 {
		t.Write(drawing.Point{X: wide - 1, Y: 2 - deep}, "end", "waste")
	}
	t.Add(drawing.Metal, line[0], drawing.Point{X: 0, Y: top}, drawing.Point{X: wide + tab, Y: top}, drawing.Point{X: wide + tab, Y: line[0].Y}, line[len(line)-1])
	t.Add(drawing.Cut, line...)
	a.AddTemplate(t)
	if h := res.Hole; h != nil {
		a.AddTemplate(holeTemplate(a, in, h, half, paper))
	}
}

// sideOfLine0 says where line 0 faces.
func sideOfLine0(in SaddleInput) string {
	if in.Angle > 89.99*unit.Degree {
		return "looks along the header"
	}
	return "leans over the header, the acute one"
}

func holeTemplate(a *form.Answer, in SaddleInput, h *SaddleHole, half string, paper unit.Length) drawing.Template {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	torch := "Torch square to the header's skin."
	if in.Fit == "in" {
		torch = "Torch parallel to the branch all round: the hole is a round one seen along the branch."
	}
	t := drawing.Template{Key: "hole", Drawing: drawing.Drawing{Title: "Hole in the header, " + in.Header.Name}, Notes: []string{
		"For the header: " + in.Header.Say(a) + ". Hole " + say(h.Along) + " along, " + say(h.Round) + " round by tape.",
		"Printed side out. The arrow along the header points to the acute side. The long line lies on the header's top line.",
		"The lines cross where the centre lines of the pipes do.",
		"Waste is inside. " + half, torch,
	}}
	line := h.outline(float64((in.Header.OD + paper) / in.Header.OD))
	t.AddClosed(drawing.Cut, line[:len(line)-1]...)
	low, high := t.Box()
	const edge = 20 // mm
	left, right := min(low.X, 0)-edge, max(high.X, 0)+edge
	t.Add(drawing.Centre, drawing.Point{X: left, Y: 0}, drawing.Point{X: right, Y: 0})
	t.Add(drawing.Station, drawing.Point{X: right - 5, Y: 2}, drawing.Point{X: right, Y: 0}, drawing.Point{X: right - 5, Y: -2})
	t.Add(drawing.Centre, drawing.Point{X: 0, Y: low.Y - edge}, drawing.Point{X: 0, Y: high.Y + edge})
	t.Write(drawing.Point{X: right - 6, Y: 3}, "end", "acute side")
	if in.Angle > 89.99*unit.Degree {
		t.Texts[len(t.Texts)-1].Text = "along the header"
	}
	t.Write(drawing.Point{X: (low.X + high.X) / 2, Y: low.Y / 2}, "middle", "waste")
	return t
}
