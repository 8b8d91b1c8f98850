package layout

import (
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// mitreTemplate is the wrap for every cut: each joint leans alike.
func mitreTemplate(a *form.Answer, in MitreInput, res MitreResult, paper unit.Length) drawing.Template {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	stretch := float64((in.Pipe.OD + paper) / in.Pipe.OD)
	line := mitreLine(in, res, stretch)
	wide, deep := inMM(res.Girth)*stretch, inMM(res.Deepest)
	const over, tab = 30, 12 // mm
	of := strconv.Itoa(in.Pieces) + " pieces turn by " + form.Say(a, in.Turn)
	if in.Frame {
		of = "A frame of " + say(in.Wide) + " by " + say(in.High)
	}
	t := drawing.Template{Key: "cut", Drawing: drawing.Drawing{Title: "Mitre, " + in.Pipe.Name}, Notes: []string{
		"For " + in.Pipe.Say(a) + ", girth " + say(res.Girth) + ". " + of + ", each cut leans " + sayLean(res.Lean) + ".",
		"Printed side out. The straight edge points to the piece that is kept. Line 0 is in the throat, on the inside.",
		"For the other end of a piece turn the strip end for end, line 0 on the same line of the pipe. For the next piece line 0 lies half round.",
		"Line 0 at the right lies on line 0 at the left; the strip beyond is to glue.",
		"The line is the finished edge. Waste is below it: the middle of the arc runs " + form.SayAs(a, in.Kerf/2, unit.Kerf) + " into it.",
		"Torch held as a saw, parallel to the cut all round, not at the pipe's middle.",
	}}
	for i := range in.Lines + 1 {
		x := wide * float64(i) / float64(in.Lines)
		t.Add(drawing.Station, drawing.Point{X: x, Y: deep + over}, drawing.Point{X: x, Y: inMM(res.Lines[i].Back)})
		t.Write(drawing.Point{X: x + 0.8, Y: deep + over - 5}, "start", strconv.Itoa(i%in.Lines))
	}
	t.Add(drawing.Metal, line[0], drawing.Point{Y: deep + over}, drawing.Point{X: wide + tab, Y: deep + over}, drawing.Point{X: wide + tab, Y: deep}, line[len(line)-1])
	t.Add(drawing.Cut, line...)
	return t
}
