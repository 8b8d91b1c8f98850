package layout

import (
	"math"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// bentOutline is the section of the bent strip: the first leg along x, then each bend.
func bentOutline(in BracketInput, res BracketResult) (outline []drawing.Point, legs []bentLeg) {
	t := inMM(in.Thickness)
	var upper, lower []drawing.Point
	at, heading := drawing.Point{}, 0.0                      // on the upper face
	off := func(p drawing.Point, by float64) drawing.Point { // to the left of the way, by so much
		return drawing.Point{X: p.X - by*math.Sin(heading), Y: p.Y + by*math.Cos(heading)}
	}
	mark := func() { upper, lower = append(upper, at), append(lower, off(at, -t)) }
	mark()
	for i, straight := range res.Straight {
		far, start := inMM(straight), at
		at = drawing.Point{X: at.X + far*math.Cos(heading), Y: at.Y + far*math.Sin(heading)}
		legs = append(legs, bentLeg{from: start, to: at, heading: heading})
		mark()
		if i == len(in.Bends) {
			break
		}
		b := in.Bends[i]
		r, turn, from := inMM(b.Radius), float64(b.Turn), heading
		if b.Down {
			r, turn = -(r + t), -turn // of the upper face, with its centre at the right
		}
		centre := off(at, r)
		steps := len(drawing.Arc(drawing.Point{}, math.Abs(r)+t, 0, math.Abs(turn)*180/math.Pi)) - 1
		for n := range steps {
			heading = from + turn*float64(n+1)/float64(steps)
			at = off(centre, -r)
			mark()
		}
	}
	for i := len(lower) - 1; i >= 0; i-- {
		upper = append(upper, lower[i])
	}
	return upper, legs
}

// crosses reports whether two legs of the bent strip run through each other.
func crosses(legs []bentLeg) bool {
	side := func(l bentLeg, p drawing.Point) float64 {
		return (l.to.X-l.from.X)*(p.Y-l.from.Y) - (l.to.Y-l.from.Y)*(p.X-l.from.X)
	}
	for i, l := range legs {
		for _, m := range legs[:i] {
			if side(l, m.from)*side(l, m.to) < 0 && side(m, l.from)*side(m, l.to) < 0 {
				return true
			}
		}
	}
	return false
}

// drawBent is the strip as it will stand, seen from its edge.
func drawBent(a *form.Answer, in BracketInput, res BracketResult) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	outline, legs := bentOutline(in, res)
	d := drawing.Drawing{Title: "As bent", Says: "The strip from its edge, " + form.SayAs(a, in.Thickness, unit.Plate) + " thick. First leg " + say(in.First) + "."}
	for i, b := range in.Bends {
		d.Says += " Bend " + in.name(a, i) + ", then a leg of " + say(b.Leg) + "."
	}
	d.Fill(drawing.Solid, outline...)
	d.AddClosed(drawing.Metal, outline...)
	if len(legs) > 5 {
		return d // no room
	}
	low, high := d.Box()
	room := 0.03 * max(high.X-low.X, high.Y-low.Y)
	for i, l := range legs {
		leg := in.First
		if i > 0 {
			leg = in.Bends[i-1].Leg
		}
		left, up := -math.Sin(l.heading), math.Cos(l.heading) // off the upper face
		anchor, drop := "middle", 0.0
		switch {
		case left < -0.5:
			anchor = "end"
		case left > 0.5:
			anchor = "start"
		case up < 0:
			drop = 1.5 * room // a text stands on its point
		}
		d.Write(drawing.Point{X: (l.from.X+l.to.X)/2 + room*left, Y: (l.from.Y+l.to.Y)/2 + room*up - drop}, anchor, say(leg))
	}
	return d
}
