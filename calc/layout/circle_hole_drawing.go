package layout

import (
	"math"
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// mostPaper is how many sheets a template of holes and arcs may take: more is no help on
// a truck, and the table serves better.
const mostPaper = 12

// onPaper reports whether a drawing of that size takes no more sheets than mostPaper, by
// what a sheet of A4 or Letter shows at least beside its bars and notes.
func onPaper(d drawing.Drawing) bool {
	low, high := d.Box()
	const wide, tall, lap = 180, 130, 10 // mm
	sheets := func(l, window float64) float64 { return 1 + math.Max(0, math.Ceil((l-window)/(window-lap))) }
	return sheets(high.X-low.X, wide)*sheets(high.Y-low.Y, tall) <= mostPaper
}

// roundedRectangle returns the outline around the middle, closed, its sides moved out by
// so much; from the right of the upper side against the clock.
func roundedRectangle(in HoleInput, at drawing.Point, out unit.Length) []drawing.Point {
	x, y, r := inMM(in.Length/2-in.Corner), inMM(in.Width/2-in.Corner), inMM(in.Corner+out)
	var points []drawing.Point
	for i, sign := range [...][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
		points = append(points, drawing.Arc(drawing.Point{X: at.X + sign[0]*x, Y: at.Y + sign[1]*y}, r, float64(90*i), float64(90*i+90))...)
	}
	return append(points, points[0])
}

func (s Spot) point(at drawing.Point) drawing.Point {
	return drawing.Point{X: at.X + inMM(s.X), Y: at.Y + inMM(s.Y)}
}

// addCross draws centre lines that reach so far out from a point.
func addCross(d *drawing.Drawing, at drawing.Point, x, y float64) {
	d.Add(drawing.Centre, drawing.Point{X: at.X - x, Y: at.Y}, drawing.Point{X: at.X + x, Y: at.Y})
	d.Add(drawing.Centre, drawing.Point{X: at.X, Y: at.Y - y}, drawing.Point{X: at.X, Y: at.Y + y})
}

// addLead draws pierce and lead-in.
func addLead(d *drawing.Drawing, in HoleInput, res HoleResult, at drawing.Point) {
	d.Add(drawing.Station, res.Pierce.point(at), res.Meets.point(at))
	d.AddCircle(drawing.Station, res.Pierce.point(at), inMM(in.Kerf))
}

func holeDrawing(a *form.Answer, cutout string, in HoleInput, res HoleResult) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	name := cutoutName(cutout, in.Disc)
	d := drawing.Drawing{Title: name}
	size := say(in.Length)
	if cutout != "round" {
		size += " by " + say(in.Width)
	}
	d.Says = name + ", " + size + ". "
	middle := drawing.Point{}
	x, y := inMM(in.Length)/2, inMM(in.Width)/2
	line := roundedRectangle(in, middle, 0)
	out, where := 1.0, "around it"
	if !in.Disc {
		out, where = -1, "inside it"
	}
	edge := 0.18 * math.Max(x, y)
	if res.ByHand {
		path := roundedRectangle(in, middle, unit.Length(out)*in.Kerf)
		d.Fill(drawing.Kerf, band(line, path)...)
		if in.Disc {
			edge = math.Max(edge, inMM(res.Lead)*1.3)
			rim := []drawing.Point{{X: x + edge, Y: y + edge}, {X: -x - edge, Y: y + edge}, {X: -x - edge, Y: -y - edge}, {X: x + edge, Y: -y - edge}, {X: x + edge, Y: y + edge}}
			d.Fill(drawing.Waste, band(path, rim)...)
		} else {
			d.Fill(drawing.Waste, path...)
		}
		d.Says += "The kerf lies " + where + ", where the waste is. It is pierced " + say(res.Lead) + " from the line"
		if res.Middle {
			d.Says += ", in the middle"
		}
		d.Says += ". The lead-in of " + say(res.Run) + " comes to the upper side."
	} else {
		d.Says += "It is too small for the torch by hand."
	}
	d.AddClosed(drawing.Cut, line[:len(line)-1]...)
	addCross(&d, middle, x+edge, y+edge)
	if res.ByHand {
		addLead(&d, in, res, middle)
		p := res.Pierce.point(middle)
		clear := 0.16 * math.Max(x, y) // of the line, for a text
		low := math.Min(p.Y, y-clear)
		if in.Disc {
			low = math.Max(p.Y, y+clear/2)
		}
		d.Write(drawing.Point{X: p.X - 0.1*x, Y: low}, "end", "pierce")
		corner := drawing.Point{X: -inMM(in.Length/2 - in.Corner), Y: -inMM(in.Width/2 - in.Corner)}
		turn := math.Sqrt2 / 2 * inMM(res.Arm)
		ends := drawing.Point{X: corner.X - turn, Y: corner.Y - turn}
		if cutout == "round" {
			d.Measure(corner, ends, say(res.Arm))
		} else { // too short to write along
			d.Add(drawing.Station, corner, ends)
			d.AddCircle(drawing.Station, corner, 0.02*x)
			d.Write(drawing.Point{X: corner.X + 0.04*x, Y: math.Min(corner.Y-0.04*x, -0.5*y)}, "start", "arm "+say(res.Arm))
		}
	}
	d.Measure(drawing.Point{X: -x, Y: -y - 1.6*edge}, drawing.Point{X: x, Y: -y - 1.6*edge}, say(in.Length))
	if cutout != "round" {
		d.Measure(drawing.Point{X: 0.3 * x, Y: -y}, drawing.Point{X: 0.3 * x, Y: y}, say(in.Width))
	}
	return d
}

// addHoleTemplate adds the outline at 1:1, where it goes on paper.
func addHoleTemplate(a *form.Answer, cutout string, in HoleInput, res HoleResult) {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	name := cutoutName(cutout, in.Disc)
	size := say(in.Length)
	if cutout != "round" {
		size += " by " + say(in.Width)
	}
	t := drawing.Template{Key: "hole", Drawing: drawing.Drawing{Title: name + ", " + size}, Notes: []string{
		name + ", " + size + ", in plate of " + form.SayAs(a, in.Thickness, unit.Plate) + ". Punch the middle through the crossed lines.",
	}}
	line := roundedRectangle(in, drawing.Point{}, 0)
	t.AddClosed(drawing.Cut, line[:len(line)-1]...)
	addCross(&t.Drawing, drawing.Point{}, inMM(in.Length)/2+10, inMM(in.Width)/2+10)
	if res.ByHand {
		addLead(&t.Drawing, in, res, drawing.Point{})
		t.Notes = append(t.Notes, holeNote(a, in, res))
	}
	if onPaper(t.Drawing) {
		a.AddTemplate(t)
	}
}

// holeNote says on paper what the lines stand for.
func holeNote(a *form.Answer, in HoleInput, res HoleResult) string {
	where := "inside"
	if in.Disc {
		where = "outside"
	}
	return "The heavy line is the finished edge; waste is " + where + ". The middle of the arc runs " + form.SayAs(a, in.Kerf/2, unit.Kerf) +
		" into the waste. Pierce in the small circle, " + form.SayAs(a, res.Lead, unit.Marking) + " from the line."
}

func patternDrawing(a *form.Answer, in PatternInput, p PatternResult) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	d := drawing.Drawing{Title: "Holes round the circle", Says: strconv.Itoa(in.Holes) + " holes of " + say(in.Diameter) + " round a circle of " + say(in.Circle) + ". Hole 1 stands at " + form.Say(a, in.First) +
		" from the right, the others follow against the clock. The next hole is " + say(p.Chord) + " away."}
	if p.Steps > 1 {
		d.Says += " Hole " + strconv.Itoa(p.Steps+1) + " is " + say(p.Check) + " from hole 1."
	}
	at := func(i int) drawing.Point {
		s := p.Spots[i]
		return Spot{s.X - in.Centre.X, s.Y - in.Centre.Y}.point(drawing.Point{})
	}
	R, r := inMM(in.Circle)/2, inMM(in.Diameter)/2
	addCross(&d, drawing.Point{}, R+2*r, R+2*r)
	d.AddCircle(drawing.Centre, drawing.Point{}, R)
	for i := range p.Spots {
		d.AddCircle(drawing.Cut, at(i), r)
	}
	number := func(i int) {
		c := at(i)
		far := (R + r + 0.16*R) / R
		d.Write(drawing.Point{X: c.X * far, Y: c.Y * far}, "middle", strconv.Itoa(i+1))
	}
	number(0)
	number(1)
	left := 0 // the chord at the left, where its text has room
	next := func(i int) int { return (i + 1) % in.Holes }
	for i := range p.Spots {
		if at(i).X+at(next(i)).X < at(left).X+at(next(left)).X {
			left = i
		}
	}
	d.Measure(at(left), at(next(left)), say(p.Chord))
	if p.Steps > 1 {
		number(p.Steps)
		d.Measure(at(0), at(p.Steps), say(p.Check))
	}
	return d
}

// addPatternTemplate adds all holes with their centres at 1:1, where they go on paper.
func addPatternTemplate(a *form.Answer, in HoleInput, res HoleResult, pattern PatternInput, p PatternResult) {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	t := drawing.Template{Key: "holes", Drawing: drawing.Drawing{Title: strconv.Itoa(pattern.Holes) + " holes, circle " + say(pattern.Circle)}, Notes: []string{
		strconv.Itoa(pattern.Holes) + " holes of " + say(pattern.Diameter) + " round a circle of " + say(pattern.Circle) + ", in plate of " + form.SayAs(a, in.Thickness, unit.Plate) + ". From hole to next hole " + say(p.Chord) + ".",
		"Lay the long lines on the plate's centre lines. Punch each centre through the crossed lines.",
	}}
	if p.Steps > 1 {
		t.Notes = append(t.Notes, "Check on the plate: hole 1 to hole "+strconv.Itoa(p.Steps+1)+" is "+say(p.Check)+".")
	}
	R, r := inMM(pattern.Circle)/2, inMM(pattern.Diameter)/2
	addCross(&t.Drawing, drawing.Point{}, R+r+10, R+r+10)
	t.AddCircle(drawing.Centre, drawing.Point{}, R)
	for i, s := range p.Spots {
		at := Spot{s.X - pattern.Centre.X, s.Y - pattern.Centre.Y}.point(drawing.Point{})
		t.AddCircle(drawing.Cut, at, r)
		addCross(&t.Drawing, at, min(r, 5), min(r, 5))
		if res.ByHand {
			addLead(&t.Drawing, in, res, at)
		}
		t.Write(drawing.Point{X: at.X, Y: at.Y - r - 4}, "middle", strconv.Itoa(i+1))
	}
	if res.ByHand {
		t.Notes = append(t.Notes, holeNote(a, in, res))
	}
	if onPaper(t.Drawing) {
		a.AddTemplate(t)
	}
}
