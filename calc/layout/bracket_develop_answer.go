package layout

import (
	"fmt"
	"math"
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

func runBracket(r *form.Reader, a *form.Answer) error {
	in := BracketInput{Thickness: form.Get[unit.Length](r, "thickness"), First: form.Get[unit.Length](r, "first_leg"),
		Legs: form.GetWord(r, "legs"), Rule: form.GetWord(r, "allowance"), K: form.GetFactor(r, "k_factor")}
	radius, width := form.Get[unit.Length](r, "radius"), form.Get[unit.Length](r, "width")
	for _, row := range r.Rows("bends") {
		b := Bend{Turn: form.Get[unit.Angle](row, "turn"), Radius: radius, Down: form.GetWord(row, "way") == "down", Leg: form.Get[unit.Length](row, "leg")}
		if row.Given("own_radius") {
			b.Radius = form.Get[unit.Length](row, "own_radius")
		}
		in.Bends = append(in.Bends, b)
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeBracket(in)
	if err != nil {
		return err
	}
	form.Put(a, "flat", res.Flat)
	form.Put(a, "give", res.Give)
	form.Put(a, "off", res.Off)
	putBendLines(a, in, res)
	a.DrawLayout(drawBent(a, in, res))
	a.DrawLayout(drawFlat(a, in, res, width))
	if width > 0 {
		a.AddCut(form.Onward{Name: "Blank", Fields: map[string]string{"shape": "rectangle", "thickness": asTyped(a, in.Thickness, unit.Plate), "length": asTyped(a, res.Flat, unit.Marking), "width": asTyped(a, width, unit.Marking), "pierces": "0", "count": "1"}})
		a.AddTemplate(flatTemplate(a, in, res, width))
	}
	sayBracket(a, in, res)
	cautionBracket(a, in, res)
	return nil
}

// name is bend i in words: "1, 90° up".
func (in BracketInput) name(a *form.Answer, i int) string {
	way := " up"
	if in.Bends[i].Down {
		way = " down"
	}
	return strconv.Itoa(i+1) + ", " + form.Say(a, in.Bends[i].Turn) + way
}

func putBendLines(a *form.Answer, in BracketInput, res BracketResult) {
	mark := form.Number[unit.Length]("mm", "in").As(unit.Marking)
	rows := make([]*form.Row, len(res.Bends))
	for i, b := range res.Bends {
		row := a.NewRow()
		row.PutWord("bend", in.name(a, i))
		form.PutCell(row, "start", mark, b.Start)
		form.PutCell(row, "middle", mark, b.Middle)
		form.PutCell(row, "end", mark, b.End)
		form.PutCell(row, "allowance", mark, b.Allowance)
		row.PutFactor("k", b.K)
		if b.Setback > 0 {
			form.PutCell(row, "setback", mark, b.Setback)
		}
		rows[i] = row
	}
	a.PutRows("lines", rows)
}

func sayBracket(a *form.Answer, in BracketInput, res BracketResult) {
	say := func(l unit.Length) string { return form.Worked(a, l, "mm", "in") }
	sum := say(res.Straight[0])
	for i, b := range res.Bends {
		turn := form.Say(a, in.Bends[i].Turn)
		a.Step("bend %d: %s × π ÷ 180° × (%s + %s × %s) = %s", i+1, turn, say(in.Bends[i].Radius), unit.Figures(b.K, 3), say(in.Thickness), say(b.Allowance))
		sum += " + " + say(b.Allowance) + " + " + say(res.Straight[i+1])
	}
	a.Step("flat = straight parts and bends = %s = %s", sum, say(res.Flat))
}

func cautionBracket(a *form.Answer, in BracketInput, res BracketResult) {
	a.Caution("The rules differ by up to %s here. Bend a strip of this sheet on this brake first, and measure it.", form.SayAs(a, res.Give, unit.Slack))
	a.Caution("Mark bend lines with chalk or pencil. A scribed line at the outside of a bend starts a crack.")
	a.Caution("An edge cut by plasma is hard and notched. Grind it smooth where a bend crosses it.")
	for _, b := range in.Bends {
		if b.Radius < in.Thickness {
			a.Caution("A radius below the thickness cracks many plates. Bend across the grain, or take a larger radius.")
			break
		}
	}
	if _, legs := bentOutline(in, res); crosses(legs) {
		a.Caution("Bent like that, the strip runs through itself. Check its legs, and which way each bend goes.")
	}
	a.Caution(safety.ArcOn)
}

// bentLeg is the upper face of a leg of the bent strip.
type bentLeg struct {
	from, to drawing.Point
	heading  float64
}

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

// drawFlat is the strip before it is bent, the end of the first leg at the left.
func drawFlat(a *form.Answer, in BracketInput, res BracketResult, width unit.Length) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	long := inMM(res.Flat)
	wide := min(max(inMM(width), 0.15*long), 0.6*long)
	d := drawing.Drawing{Title: "Laid flat", Says: "A strip " + say(res.Flat) + " long, the end of the first leg at the left."}
	outlineFlat(&d, res, wide)
	step := 0.09 * long
	d.Measure(drawing.Point{X: 0, Y: -step}, drawing.Point{X: long, Y: -step}, say(res.Flat))
	for i, b := range res.Bends {
		d.Says += fmt.Sprintf(" Middle of bend %d at %s.", i+1, say(b.Middle))
		if len(res.Bends) <= 4 {
			d.Write(drawing.Point{X: inMM(b.Middle), Y: wide + step*(0.3+0.9*float64(i%2))}, "middle", say(b.Middle))
		}
	}
	return d
}

// outlineFlat draws the strip with the lines of its bends.
func outlineFlat(d *drawing.Drawing, res BracketResult, wide float64) {
	long := inMM(res.Flat)
	for _, b := range res.Bends {
		for i, x := range []unit.Length{b.Start, b.Middle, b.End} {
			d.Add([]drawing.Use{drawing.Station, drawing.Centre, drawing.Station}[i], drawing.Point{X: inMM(x), Y: 0}, drawing.Point{X: inMM(x), Y: wide})
		}
	}
	d.AddClosed(drawing.Cut, drawing.Point{X: 0, Y: 0}, drawing.Point{X: long, Y: 0}, drawing.Point{X: long, Y: wide}, drawing.Point{X: 0, Y: wide})
}

func flatTemplate(a *form.Answer, in BracketInput, res BracketResult, width unit.Length) drawing.Template {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	t := drawing.Template{Key: "flat", Notes: []string{
		"Strip " + say(res.Flat) + " by " + say(width) + ", " + form.SayAs(a, in.Thickness, unit.Plate) + " thick. The outline is the finished edge: the kerf lies outside it.",
		"Dashed: the middle of a bend. Thin: where it begins and ends.",
		"This side up. A bend up rises towards you.",
	}}
	t.Title = "Bracket, laid flat"
	wide := inMM(width)
	outlineFlat(&t.Drawing, res, wide)
	t.Write(drawing.Point{X: 2, Y: 2}, "start", "first leg")
	for i, b := range res.Bends {
		t.Texts = append(t.Texts, drawing.Text{At: drawing.Point{X: inMM(b.Middle) - 1, Y: wide / 2}, Text: in.name(a, i), Anchor: "middle", Turn: 90})
		t.Notes = append(t.Notes, fmt.Sprintf("Bend %s: inside radius %s, middle at %s from the end of the first leg.", in.name(a, i), say(in.Bends[i].Radius), say(b.Middle)))
	}
	return t
}
