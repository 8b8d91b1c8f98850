package layout

import (
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// wrapStrip is the strip laid flat, its lower edge the line to cut; on the screen with
// the waste below it.
func wrapStrip(a *form.Answer, in WrapInput, res WrapResult, stretch float64, screen bool) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	wide, high := inMM(res.Girth)*stretch, inMM(res.Wide)
	d := drawing.Drawing{Title: "Strip, laid flat", Says: "A strip as long as the girth, " + say(res.Girth) + ", with " + strconv.Itoa(in.Marks) + " lines " + say(res.Spacing) + " apart. Its lower edge is the line to cut. Waste is below."}
	if screen {
		d.Fill(drawing.Waste, drawing.Point{}, drawing.Point{X: wide}, drawing.Point{X: wide, Y: -high / 3}, drawing.Point{Y: -high / 3})
		d.Measure(drawing.Point{Y: high * 1.25}, drawing.Point{X: wide, Y: high * 1.25}, say(res.Girth))
	}
	for i := range in.Marks + 1 {
		x := wide * float64(i) / float64(in.Marks)
		d.Add(drawing.Station, drawing.Point{X: x}, drawing.Point{X: x, Y: high})
		if !screen || i%(in.Marks/4) == 0 && i < in.Marks {
			d.Write(drawing.Point{X: x + wide/100, Y: high * 0.8}, "start", strconv.Itoa(i%in.Marks))
		}
	}
	d.Add(drawing.Metal, drawing.Point{}, drawing.Point{Y: high}, drawing.Point{X: wide, Y: high}, drawing.Point{X: wide})
	d.Add(drawing.Cut, drawing.Point{}, drawing.Point{X: wide})
	return d
}

// wrapTemplate is the strip for paper, with a tab beyond its last line.
func wrapTemplate(a *form.Answer, in WrapInput, res WrapResult) drawing.Template {
	stretch := float64(res.Printed / res.Girth)
	t := drawing.Template{Key: "strip", Drawing: wrapStrip(a, in, res, stretch, false), Notes: []string{
		"For " + in.Pipe.Say(a) + ", girth " + form.SayAs(a, res.Girth, unit.Marking) + ".",
		"Printed side out. Line 0 at the right lies on line 0 at the left; the strip beyond is to glue.",
		"The lower edge is the finished edge of the pipe. The waste is below it, and so is the arc.",
	}}
	t.Title = "Square cut, " + in.Pipe.Name
	tab, wide, high := inMM(wrapTab), inMM(res.Printed), inMM(res.Wide)
	t.Add(drawing.Metal, drawing.Point{X: wide}, drawing.Point{X: wide + tab}, drawing.Point{X: wide + tab, Y: high}, drawing.Point{X: wide, Y: high})
	return t
}
