package layout

import (
	"math"
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

func runFrame(r *form.Reader, a *form.Answer) error {
	get := func(key string) unit.Length { return form.Get[unit.Length](r, key) }
	what, wall := form.GetWord(r, "make"), get("thickness")
	in := FrameInput{Bar: what, Wide: get("wide"), High: get("high"), Face: get("face"), Depth: get("bar_depth"), Wall: wall,
		Butt: form.GetWord(r, "corner") == "butt", HighRuns: form.GetWord(r, "through") == "high", Frames: form.GetCount(r, "frames"), Kerf: get("kerf")}
	gusset := GussetInput{Leg: get("leg"), Other: get("other_leg"), Corner: form.Get[unit.Angle](r, "corner_angle"), Snip: get("snip"), Nose: get("nose")}
	count := form.GetCount(r, "count")
	if err := r.Err(); err != nil {
		return err
	}
	switch what {
	case "gusset":
		return answerGusset(a, gusset, wall, count)
	case "square":
		in.Depth = in.Face
	case "edge":
		in.Face = wall
	}
	res, err := ComputeFrame(in)
	if err != nil {
		return err
	}
	mark := form.Number[unit.Length]("mm", "in").As(unit.Marking)
	var rows []*form.Row
	for _, p := range res.Pieces {
		row := a.NewRow()
		row.PutFactor("count", float64(p.Count))
		form.PutCell(row, "long", mark, p.Long)
		form.PutCell(row, "short", mark, p.Short)
		rows = append(rows, row)
	}
	a.PutRows("pieces", rows)
	how := howCut(in)
	a.PutWord("how", how)
	form.Put(a, "diagonal", res.Diagonal)
	form.Put(a, "bar", res.Bar)
	a.PutCount("ends", res.Ends)
	form.Put(a, "cut", res.Cut)
	form.Put(a, "thick", res.Thick)
	pierces := "0"
	if in.Bar == "square" || in.Bar == "rect" {
		pierces = "1" // all round, with no edge to begin at
	}
	addCut(a, "Ends of the frame", res.Thick, res.Cut, pierces, res.Ends)
	a.DrawLayout(drawFrame(a, in))
	a.DrawLayout(drawFrameBar(a, in, res.Pieces[0]))
	sayFrame(a, in, res)
	return nil
}

// howCut says how the torch is held at an end.
func howCut(in FrameInput) string {
	switch {
	case in.Butt:
		return "Square across, torch upright."
	case in.Bar == "flat":
		return "A line at 45° across the face, torch upright."
	case in.Bar == "edge":
		return "A line square across, torch leaned 45° along the bar."
	}
	return "On a face: a line at 45°, torch upright. On a side: a line square across, torch leaned 45° along the bar."
}

func sayFrame(a *form.Answer, in FrameInput, res FrameResult) {
	say := func(l unit.Length) string { return form.Worked(a, l, "mm", "in") }
	a.Step("two bars = 2 × %s = %s", say(in.Face), say(2*in.Face))
	for _, p := range res.Pieces {
		if p.Long != p.Short {
			a.Step("short points = %s − %s = %s", say(p.Long), say(2*in.Face), say(p.Short))
		}
	}
	if in.Butt {
		out, between := in.High, in.High-2*in.Face
		if in.HighRuns {
			out, between = in.Wide, in.Wide-2*in.Face
		}
		a.Step("between the bars = %s − %s = %s", say(out), say(2*in.Face), say(between))
	}
	a.Step("diagonal = √(%s² + %s²) = %s", say(in.Wide), say(in.High), say(res.Diagonal))
	a.Caution("A hand wanders by 1 mm (1/32 in) or so, by common practice. A joint gaps by as much. Clamp a guide, cut one corner, fit it.")
	a.Caution("Tack all four corners, then make the diagonals alike before you weld.")
	if in.Bar == "square" || in.Bar == "rect" {
		a.Caution(safety.HollowStop)
	}
	a.Caution(safety.ArcOn)
}

// drawFrame is the frame from the front.
func drawFrame(a *form.Answer, in FrameInput) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	w, h, f := inMM(in.Wide), inMM(in.High), inMM(in.Face)
	corners := "mitred"
	if in.Butt {
		corners = "butted"
	}
	d := drawing.Drawing{Title: "The frame", Says: "A frame, " + corners + ", " + say(in.Wide) + " across and " + say(in.High) + " up outside. The bar is " + say(in.Face) + " wide in it."}
	box := func(in float64) []drawing.Point {
		return []drawing.Point{{X: in, Y: in}, {X: w - in, Y: in}, {X: w - in, Y: h - in}, {X: in, Y: h - in}}
	}
	outer, inner := box(0), box(f)
	d.AddClosed(drawing.Metal, outer...)
	d.AddClosed(drawing.Metal, inner...)
	for i, p := range inner {
		from := outer[i]
		if in.Butt { // the joint runs along what goes through
			from = drawing.Point{X: outer[i].X, Y: p.Y}
			if in.HighRuns {
				from = drawing.Point{X: p.X, Y: outer[i].Y}
			}
		}
		d.Add(drawing.Cut, from, p)
	}
	gap := 0.09 * max(w, h)
	d.Measure(drawing.Point{X: 0, Y: -gap}, drawing.Point{X: w, Y: -gap}, say(in.Wide))
	d.Measure(drawing.Point{X: w / 2, Y: 0}, drawing.Point{X: w / 2, Y: h}, say(in.High))
	return d
}

// drawFrameBar is one bar from the front, shortened in the middle.
func drawFrameBar(a *form.Answer, in FrameInput, p FramePiece) drawing.Drawing {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	f := inMM(in.Face)
	if in.Bar == "edge" {
		f = max(f, 0.06*inMM(p.Long))
	}
	slope := inMM(p.Long-p.Short) / 2
	if in.Bar == "edge" && slope > 0 {
		slope = f // drawn thicker than it is
	}
	long := min(inMM(p.Long), 6*f+2*slope)
	d := drawing.Drawing{Title: "One bar, shortened", Says: "One bar from the front, its length shortened: " + say(p.Long) + " between the long points, " + say(p.Short) + " between the short points."}
	d.Add(drawing.Metal, drawing.Point{X: 0, Y: f}, drawing.Point{X: long, Y: f})
	d.Add(drawing.Metal, drawing.Point{X: slope, Y: 0}, drawing.Point{X: long - slope, Y: 0})
	d.Add(drawing.Cut, drawing.Point{X: 0, Y: f}, drawing.Point{X: slope, Y: 0})
	d.Add(drawing.Cut, drawing.Point{X: long, Y: f}, drawing.Point{X: long - slope, Y: 0})
	gap := 0.1 * long
	d.Measure(drawing.Point{X: 0, Y: f + gap/2}, drawing.Point{X: long, Y: f + gap/2}, say(p.Long))
	if slope > 0 {
		d.Measure(drawing.Point{X: slope, Y: -gap}, drawing.Point{X: long - slope, Y: -gap}, say(p.Short))
	}
	return d
}

func answerGusset(a *form.Answer, in GussetInput, plate unit.Length, count int) error {
	res, err := ComputeGusset(in)
	if err != nil {
		return err
	}
	var rows []*form.Row
	for i, p := range res.Points {
		rows = append(rows, markRow(a, strconv.Itoa(i+1), []string{"point", "along", "off"}, unit.Length(p.X)*unit.Millimetre, unit.Length(p.Y)*unit.Millimetre))
	}
	form.Put(a, "edge", res.Edge)
	a.PutRows("points", rows)
	form.Put(a, "cut", res.Cut)
	form.Put(a, "thick", plate)
	addCut(a, "Gusset", plate, res.Cut, "0", count)
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	d := drawing.Drawing{Title: "Gusset", Says: "A gusset with legs of " + say(in.Leg) + " and " + say(in.Other) + " at a corner of " + form.Say(a, in.Corner) + ". Its long edge is " + say(res.Edge) + "."}
	if in.Snip > 0 {
		d.Says += " The corner is snipped " + say(in.Snip) + " along each leg."
	}
	d.AddClosed(drawing.Cut, res.Points...)
	t := drawing.Template{Key: "gusset", Drawing: d, Notes: []string{
		say(in.Leg) + " by " + say(in.Other) + ", " + form.SayAs(a, plate, unit.Plate) + " thick. " + unit.Count(count, "piece", "pieces") + ".",
		"The line is the finished edge: the kerf lies outside it.",
	}}
	low, high := d.Box()
	gap := 0.09 * max(high.X-low.X, high.Y-low.Y)
	d.Measure(drawing.Point{X: 0, Y: -gap}, drawing.Point{X: inMM(in.Leg), Y: -gap}, say(in.Leg))
	sin, cos := math.Sincos(float64(in.Corner))
	far, side := inMM(in.Other), -gap // beside the other leg
	d.Measure(drawing.Point{X: side * sin, Y: -side * cos}, drawing.Point{X: far*cos + side*sin, Y: far*sin - side*cos}, "")
	d.Write(drawing.Point{X: far/2*cos + 0.5*gap*sin, Y: far/2*sin - 0.5*gap*cos}, "start", say(in.Other))
	if in.Snip > 0 {
		d.Add(drawing.Hidden, res.Points[0], drawing.Point{}, res.Points[len(res.Points)-1])
	}
	d.Write(drawing.Point{X: (inMM(in.Leg)+far*cos)/2 + gap, Y: far*sin/2 + gap/2}, "start", say(res.Edge))
	a.DrawLayout(d)
	a.AddTemplate(t)
	worked := func(l unit.Length) string { return form.Worked(a, l, "mm", "in") }
	if in.Snip == 0 && in.Nose == 0 {
		a.Step("long edge = √(%s² + %s² − 2 × %s × %s × cos %s) = %s", worked(in.Leg), worked(in.Other), worked(in.Leg), worked(in.Other), form.Say(a, in.Corner), worked(res.Edge))
	} else {
		a.Step("long edge = between the noses, by the corners above = %s", worked(res.Edge))
	}
	a.Step("all round = %s", worked(res.Cut))
	a.Caution("Where a gusset carries load, the drawing or whoever designs the joint says its size.")
	a.Caution(safety.ArcOn)
	return nil
}
