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
