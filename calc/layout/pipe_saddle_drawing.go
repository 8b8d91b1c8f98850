package layout

import (
	"math"
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

func inMM(l unit.Length) float64 { return 1000 * float64(l) }

// drawSaddle draws the two pipes from the side, and cut and hole laid flat.
func drawSaddle(a *form.Answer, in SaddleInput, res SaddleResult, kerf unit.Length) {
	a.DrawLayout(saddleSide(a, in, res))
	a.DrawLayout(saddleFlat(a, in, res, kerf))
	if res.Hole != nil {
		a.DrawLayout(holeFlat(a, res.Hole, kerf))
	}
}

// saddleSide is the header lying, its acute side to the right, and the branch on it, seen
// from its left.
func saddleSide(a *form.Answer, in SaddleInput, res SaddleResult) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	sinT, cosT := math.Sincos(float64(in.Angle))
	R, r, base := inMM(in.Header.OD)/2, inMM(in.Branch.OD)/2, inMM(res.ToAxis)
	at := func(s, beside float64) drawing.Point { // beside the branch's axis, to the acute side
		return drawing.Point{X: s*cosT + beside*sinT, Y: s*sinT - beside*cosT}
	}
	cut := func(from, to float64) (points []drawing.Point) {
		for i := range 73 {
			p := from + (to-from)*float64(i)/72
			drop, _ := res.line(p)
			points = append(points, at(base-1000*drop, r*math.Cos(p)))
		}
		return points
	}
	near, behind := cut(math.Pi, 2*math.Pi), cut(0, math.Pi)
	far := base + 2.2*r
	d := drawing.Drawing{Title: "From the side", Says: "Header lying, branch on it at " + form.Say(a, in.Angle) + ", acute side to the right. The base line round the branch lies " + say(res.ToAxis) +
		" from the header's centre line. The cut lies " + say(res.Deepest) + " below it at the deepest."}
	left, right := at(base, -r).X, at(far, r).X
	for _, p := range near {
		left, right = min(left, p.X), max(right, p.X)
	}
	left, right = left-r, right+r
	for _, y := range []float64{R, -R} {
		d.Add(drawing.Metal, drawing.Point{X: left, Y: y}, drawing.Point{X: right, Y: y})
	}
	d.Add(drawing.Centre, drawing.Point{X: left, Y: 0}, drawing.Point{X: right, Y: 0})
	d.Add(drawing.Centre, at(0, 0), at(far, 0))
	d.Add(drawing.Metal, near[0], at(far, -r), at(far, r), near[len(near)-1])
	if in.Offset != 0 {
		d.Add(drawing.Hidden, behind...)
	}
	d.Add(drawing.Cut, near...)
	d.Add(drawing.Station, at(base, -r), at(base, r))
	d.Measure(at(0, -2*r), at(base, -2*r), say(res.ToAxis))
	d.Measure(at(base-inMM(res.Deepest), 1.7*r), at(base, 1.7*r), say(res.Deepest))
	d.Write(drawing.Point{X: 0.35 * R, Y: -0.45 * R}, "start", form.Say(a, in.Angle))
	return d
}

// saddleFlat is the branch's skin, its far end up: what is below the cut is waste.
func saddleFlat(a *form.Answer, in SaddleInput, res SaddleResult, kerf unit.Length) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	line := res.outline(float64(in.Branch.OD)/2, 1)
	wide, deep := inMM(res.Girth), inMM(res.Deepest)
	top, foot := 0.16*wide, -deep-0.08*wide
	d := drawing.Drawing{Title: "Branch, laid flat", Says: "The branch's skin unrolled, " + say(res.Girth) + " long, far end up, line 0 at both ends. The cut drops " + say(res.Deepest) +
		" below the base line at the deepest. Waste is below, and the kerf lies in it."}
	beside := besideLine(line, inMM(kerf))
	d.Fill(drawing.Kerf, band(line, beside)...)
	d.Fill(drawing.Waste, band(beside, []drawing.Point{{X: 0, Y: foot}, {X: wide, Y: foot}})...)
	for i := range in.Stations + 1 {
		x := wide * float64(i) / float64(in.Stations)
		drop, _ := res.line(stationAngle(i, in.Stations))
		d.Add(drawing.Station, drawing.Point{X: x, Y: top}, drawing.Point{X: x, Y: -1000 * drop})
	}
	d.Add(drawing.Centre, drawing.Point{X: 0, Y: 0}, drawing.Point{X: wide, Y: 0})
	d.Add(drawing.Metal, line[0], drawing.Point{X: 0, Y: top}, drawing.Point{X: wide, Y: top}, line[len(line)-1])
	d.Add(drawing.Cut, line...)
	lowest := drawing.Point{}
	for _, p := range line {
		if p.Y < lowest.Y {
			lowest = p
		}
	}
	d.Measure(drawing.Point{X: lowest.X, Y: 0}, lowest, say(res.Deepest))
	d.Measure(drawing.Point{X: 0, Y: top + 0.06*wide}, drawing.Point{X: wide, Y: top + 0.06*wide}, say(res.Girth))
	for _, i := range []int{0, in.Stations / 2} {
		d.Write(drawing.Point{X: wide*float64(i)/float64(in.Stations) + 0.01*wide, Y: 0.05 * wide}, "start", strconv.Itoa(i))
	}
	return d
}

// holeFlat is the header's skin round the hole, its acute side to the right.
func holeFlat(a *form.Answer, h *SaddleHole, kerf unit.Length) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	line := h.outline(1)
	d := drawing.Drawing{Title: "Hole, laid flat", Says: "The header's skin unrolled, its acute side to the right. The hole is " + say(h.Along) + " along and " + say(h.Round) +
		" round by tape. Waste is inside, and the kerf lies in it. The lines cross where the centre lines do."}
	inside := besideLine(line, -inMM(kerf))
	d.Fill(drawing.Kerf, band(line, inside)...)
	d.Fill(drawing.Waste, inside...)
	d.AddClosed(drawing.Cut, line[:len(line)-1]...)
	low, high := d.Box()
	edge := 0.15 * (high.X - low.X)
	d.Add(drawing.Centre, drawing.Point{X: min(low.X, 0) - edge, Y: 0}, drawing.Point{X: max(high.X, 0) + edge, Y: 0})
	d.Add(drawing.Centre, drawing.Point{X: 0, Y: low.Y - edge}, drawing.Point{X: 0, Y: high.Y + edge})
	d.Measure(drawing.Point{X: low.X, Y: low.Y - edge}, drawing.Point{X: high.X, Y: low.Y - edge}, say(h.Along))
	d.Measure(drawing.Point{X: high.X + edge, Y: low.Y}, drawing.Point{X: high.X + edge, Y: high.Y}, say(h.Round))
	return d
}

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

// besideLine returns the line that runs so far to the right of one, in the direction in
// which its points follow. At a kink it goes no further out than twice that.
func besideLine(line []drawing.Point, by float64) []drawing.Point {
	normal := func(a, b drawing.Point) drawing.Point {
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		if l == 0 {
			return drawing.Point{}
		}
		return drawing.Point{X: (b.Y - a.Y) / l, Y: (a.X - b.X) / l}
	}
	out := make([]drawing.Point, len(line))
	last := len(line) - 1
	closed := math.Hypot(line[0].X-line[last].X, line[0].Y-line[last].Y) < 1e-6
	for i, p := range line {
		before, after := max(i-1, 0), min(i+1, last)
		if closed && i == 0 {
			before = last - 1
		}
		if closed && i == last {
			after = 1
		}
		n, m := normal(line[before], p), normal(p, line[after])
		if before == i {
			n = m
		}
		if after == i {
			m = n
		}
		sum := drawing.Point{X: n.X + m.X, Y: n.Y + m.Y}
		if long := math.Hypot(sum.X, sum.Y); long > 0 {
			// both halves are as far off where the middle one is 1/cos of half the bend
			reach := by / long * min(2/long, 2)
			out[i] = drawing.Point{X: p.X + sum.X*reach, Y: p.Y + sum.Y*reach}
			continue
		}
		out[i] = p
	}
	return out
}

// band is the area between a line and one beside it.
func band(line, beside []drawing.Point) []drawing.Point {
	area := append([]drawing.Point{}, line...)
	for i := len(beside) - 1; i >= 0; i-- {
		area = append(area, beside[i])
	}
	return area
}
