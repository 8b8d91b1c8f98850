package layout

import (
	"math"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

func runBevel(r *form.Reader, a *form.Answer) error {
	in := BevelInput{
		Thickness: form.Get[unit.Length](r, "thickness"), Bevel: form.Get[unit.Angle](r, "bevel"), Land: form.Get[unit.Length](r, "land"),
		Under: form.GetWord(r, "opens") == "under", Kerf: form.Get[unit.Length](r, "kerf"),
		Guide: form.GetWord(r, "guide"), Cup: form.Get[unit.Length](r, "cup"), Contact: form.Get[unit.Length](r, "contact"),
	}
	long := form.Get[unit.Length](r, "length")
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeBevel(in)
	if err != nil {
		return err
	}
	form.Put(a, "lean", in.Bevel)
	a.PutWord("over", in.leansOver())
	form.Put(a, "slant", res.Slant)
	form.Put(a, "shift", res.Shift)
	form.Put(a, "kerf_top", res.KerfTop)
	if in.Guide != "none" {
		form.Put(a, "guide_offset", res.Offset)
	}
	if res.Passes == 2 {
		form.Put(a, "land_give", res.LandGive)
		if in.Guide != "none" {
			form.Put(a, "guide_square", res.Square)
		}
	}
	putPasses(a, in, res, long)
	a.DrawLayout(drawBevel(a, in, res))
	a.AddTemplate(leanGauge(a, in))
	sayBevel(a, in, res)
	cautionBevel(a, in, res)
	return nil
}

// leansOver says what the torch's top leans over.
func (in BevelInput) leansOver() string {
	if in.Under {
		return "the waste"
	}
	return "the part"
}

// setBack is how far the bevel's line on top lies back from where the plate is longest.
func (in BevelInput) setBack(res BevelResult) unit.Length {
	if in.Under {
		return 0
	}
	return res.Shift
}

// putPasses lists the passes in their order, and hands them on as cuts.
func putPasses(a *form.Answer, in BevelInput, res BevelResult, long unit.Length) {
	mark, plate := form.Number[unit.Length]("mm", "in").As(unit.Marking), form.Number[unit.Length]("mm", "in").As(unit.Plate)
	var rows []*form.Row
	pass := func(name string, line, metal, guide unit.Length) {
		row := a.NewRow()
		row.PutWord("pass", name)
		form.PutCell(row, "line", mark, line)
		form.PutCell(row, "metal", plate, metal)
		if in.Guide != "none" {
			form.PutCell(row, "guide", mark, guide)
		}
		rows = append(rows, row)
		cut := form.Onward{Name: name, Fields: map[string]string{"thickness": asTyped(a, metal, unit.Plate), "pierces": "0", "count": "1"}}
		if long > 0 {
			cut.Fields["length"] = asTyped(a, long, unit.Marking)
		}
		a.AddCut(cut)
	}
	order := "One pass, torch leaned."
	if res.Passes == 2 {
		order = "Square through first, then the bevel."
		pass("Edge, square", 0, in.Thickness, res.Square)
	}
	pass("Bevel, "+form.Say(a, in.Bevel), in.setBack(res), res.Slant, res.Offset)
	a.PutWord("order", order)
	a.PutRows("passes", rows)
}

func sayBevel(a *form.Answer, in BevelInput, res BevelResult) {
	say := func(l unit.Length) string { return form.Worked(a, l, "mm", "in") }
	b := form.Say(a, in.Bevel)
	deep := in.Thickness - in.Land
	if in.Land > 0 {
		a.Step("depth of the bevel = %s − %s = %s", say(in.Thickness), say(in.Land), say(deep))
	}
	a.Step("metal along the torch = %s ÷ cos %s = %s", say(deep), b, say(res.Slant))
	a.Step("top edge to bottom edge = %s × tan %s = %s", say(deep), b, say(res.Shift))
	a.Step("kerf on the surface = %s ÷ cos %s = %s", say(in.Kerf), b, say(res.KerfTop))
	if in.Guide == "none" {
		return
	}
	lean, kerf := "−", "−"
	if res.Towards {
		lean = "+"
	}
	if in.Guide == "waste" {
		kerf = "+"
	}
	a.Step("guide to the bevel's line = %s ÷ 2 ÷ cos %s %s %s × tan %s %s %s ÷ 2 = %s", say(in.Cup), b, lean, say(in.Contact), b, kerf, say(res.KerfTop), say(res.Offset))
	if res.Passes == 2 {
		a.Step("guide to the square line = %s ÷ 2 − %s ÷ 2 = %s", say(in.Cup), say(in.Kerf), say(res.Square))
	}
}

func cautionBevel(a *form.Answer, in BevelInput, res BevelResult) {
	a.Caution(safety.Rehearse)
	a.Caution("Leaned, the jet throws metal out sideways, under the plate. Clear that side, and stand on the other.")
	a.Caution("Current and speed go by the metal along the torch, not by the plate.")
	if in.Guide != "none" && !res.Towards {
		a.Caution("Leaning away, the rim of the cup must meet the guide's side. Take one thicker than %s.", form.SayAs(a, in.Contact, unit.Marking))
	}
	if res.Passes == 2 {
		give := form.SayAs(a, res.LandGive, unit.Slack)
		a.Caution("A hand wanders by 1 mm (1/32 in) or so, by common practice. The land then changes by about %s. Grind it to size.", give)
		if res.LandGive >= in.Land {
			a.Caution("A hand that wanders can cut this land away. Cut a larger one and grind it down.")
		}
	}
	if in.Bevel > 45*unit.Degree {
		a.Caution("Beyond 45° an arc is long and easily lost. Try it on scrap.")
	}
	a.Caution("Drawing or welding procedure set bevel, land and gap. Grind a face cut with air bright before it is welded.")
	a.Caution(safety.ArcOn)
}

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

func bevelSays(a *form.Answer, in BevelInput, res BevelResult) string {
	mark := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	says := "The torch's top leans over " + in.leansOver() + " by " + form.Say(a, in.Bevel) + ". The plate is " + form.SayAs(a, in.Thickness, unit.Plate) + " thick. The bevelled face is " + form.SayAs(a, res.Slant, unit.Plate) +
		" deep. Its bottom edge lies " + mark(res.Shift) + " across from its top edge."
	if in.Land > 0 {
		says += " A land of " + mark(in.Land) + " stays square below it."
	}
	if in.Guide != "none" {
		says += " The guide lies on the " + in.Guide + ", " + mark(res.Offset) + " from the bevel's line."
	}
	return says
}

// leanGauge is a triangle of card to lean the torch by.
func leanGauge(a *form.Answer, in BevelInput) drawing.Template {
	const most = 100 // mm
	tan := math.Tan(float64(in.Bevel))
	high := min(most, most/tan)
	b := form.Say(a, in.Bevel)
	t := drawing.Template{Key: "lean", Notes: []string{
		"Paste it on stiff card and cut it out.",
		"Stand it on the plate, at the side to which the torch leans. The slope runs along the torch.",
		"Only with the arc off. Card burns.",
	}}
	t.Title, t.Says = "Gauge for a lean of "+b, "A triangle with a square corner. Its slope stands "+b+" off upright."
	t.AddClosed(drawing.Cut, drawing.Point{X: 0, Y: 0}, drawing.Point{X: high * tan, Y: 0}, drawing.Point{X: 0, Y: high})
	t.Write(drawing.Point{X: 4, Y: 5}, "start", b+", this side down")
	return t
}
