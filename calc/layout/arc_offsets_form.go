package layout

import (
	"math"
	"strconv"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// ArcOffsets is the calculator arc-offsets.
var ArcOffsets = form.Declaration{Name: "arc-offsets", Make: func() form.Calculator {
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	mark, slack := length(unit.Marking), length(unit.Slack)
	when := func(words ...string) *form.Only { return form.When("curve", words...) }
	long := form.Within(10*unit.Millimetre, 100*unit.Metre)
	return form.Calculator{
		Title: "Arc or ellipse",
		About: "Lays out a curve too large for a trammel, or an ellipse: points to mark, pins, string and arcs.",
		Place: "layout",
		Terms: []string{"radius", "sagitta", "rise", "camber", "chord", "ordinates", "segment", "sweep", "oval", "string", "trammel", "elliptical", "manway", "arch", "template"},
		Fields: []form.Field{
			{Key: "curve", Label: "Curve", Takes: form.OneOf("radius-chord", "Arc: its radius and chord are known", "chord-rise", "Arc: measured, by chord and rise", "radius-rise", "Arc: radius and rise", "radius-angle", "Arc: radius and angle",
				"arc-angle", "Arc: length of the bar and angle", "chord-angle", "Arc: chord and angle", "ellipse", "Ellipse", "oval", "Oval of four arcs"), Default: "radius-chord"},
			{Key: "radius", Label: "Radius", Help: "Of the finished edge", Takes: mark, Only: when("radius-chord", "radius-rise", "radius-angle"), Chips: []string{"1m", "3m", "10m"}, ChipsUS: []string{"3ft", "10ft", "30ft"}, Limits: form.Within(10*unit.Millimetre, 10000*unit.Metre)},
			{Key: "chord", Label: "Chord", Help: "Straight from end to end of the arc", Takes: mark, Only: when("radius-chord", "chord-rise", "chord-angle"), Chips: []string{"500mm", "1m", "2m"}, ChipsUS: []string{"2ft", "4ft", "8ft"}, Limits: long},
			{Key: "rise", Label: "Rise", Help: "From the middle of the chord square to the arc", Takes: mark, Only: when("chord-rise", "radius-rise"), Limits: form.Within(unit.Millimetre, 50*unit.Metre)},
			{Key: "arc", Label: "Length along the arc", Takes: mark, Only: when("arc-angle"), Limits: long},
			{Key: "angle", Label: "Angle of the arc", Help: "At its centre: a quarter turn is 90°", Takes: form.Number[unit.Angle]("°", "°"), Only: when("radius-angle", "arc-angle", "chord-angle"), Chips: []string{"30°", "45°", "90°"}, Limits: form.Within(unit.Degree/10, 180*unit.Degree)},
			{Key: "long", Label: "Long axis", Help: "Over all, finished", Takes: mark, Only: when("ellipse", "oval"), Chips: []string{"400mm", "600mm"}, ChipsUS: []string{"16in", "24in"}, Limits: form.Within(20*unit.Millimetre, 20*unit.Metre)},
			{Key: "short", Label: "Short axis", Help: "Over all, finished", Takes: mark, Only: when("ellipse", "oval"), Chips: []string{"300mm", "400mm"}, ChipsUS: []string{"11in", "16in"}, Limits: form.Within(10*unit.Millimetre, 20*unit.Metre)},
			{Key: "kept_side", Label: "What is kept", Help: "The kerf lies on the other side of the line", Takes: form.OneOf("inside", "Inside the curve: the disc, the bulge", "outside", "Outside it: the plate with the hole, the hollow"), Default: "inside"},
			{Key: "spaces", Label: "Spaces between points", Help: "Along the chord, or along half the ellipse", Takes: form.Count(), Default: "10", Basis: source.CommonPractice, Chips: []string{"6", "10", "16", "20"}, Only: when("radius-chord", "chord-rise", "radius-rise", "radius-angle", "arc-angle", "chord-angle", "ellipse"), Limits: form.WithinCount(2, 100)},
			{Key: "thickness", Label: "Thickness", Known: "plan.thickness", Help: "For the cut that follows. Left empty: no cut is handed on", Takes: length(unit.Plate), Optional: true, Fine: true, Limits: form.Within(0.3*unit.Millimetre, 200*unit.Millimetre)},
			{Key: "kerf", Label: "Kerf", Known: "plan.kerf", Help: "Measured on a trial strip, or from the plan", Takes: length(unit.Kerf), Default: "1.5mm", Basis: source.CommonPractice, Fine: true, Limits: form.Within(0.3*unit.Millimetre, 15*unit.Millimetre)},
			{Key: "tape", Label: "Chord and rise may be off by", Help: "As you measured them, either way", Takes: slack, Default: "0.5mm", Basis: source.CommonPractice, Only: when("chord-rise"), Fine: true, Limits: form.Within(0, 20*unit.Millimetre)},
		},
		Results: []form.Result{
			{Key: "radius", Label: "Radius", Gives: mark, Main: true},
			{Key: "radius_off", Label: "Radius may be off by, either way", Gives: slack, Main: true},
			{Key: "chord", Label: "Chord", Gives: mark},
			{Key: "rise", Label: "Rise in the middle", Gives: mark, Main: true},
			{Key: "arc", Label: "Length along the arc", Gives: mark},
			{Key: "angle", Label: "Angle at the centre", Gives: form.Number[unit.Angle]("°", "°")},
			{Key: "area", Label: "Area", Gives: form.Number[unit.Area]("cm²", "in²")},
			{Key: "arm", Label: "Centre to the middle of the torch", Gives: mark},
			{Key: "gap", Label: "Straight lines from point to point are off by", Gives: slack},
			{Key: "half_long", Label: "Trammel: pencil to the pin on the short axis", Gives: mark, Main: true},
			{Key: "half_short", Label: "Trammel: pencil to the pin on the long axis", Gives: mark, Main: true},
			{Key: "pins", Label: "String: pins apart", Gives: mark, Main: true},
			{Key: "loop", Label: "String: length of the loop", Gives: mark, Main: true},
			{Key: "around", Label: "All round", Gives: mark},
			{Key: "path_off", Label: "A trammel set for the torch is off by", Gives: slack},
			{Key: "end_radius", Label: "Radius of the ends", Gives: mark, Main: true},
			{Key: "end_centre", Label: "Their centres from the middle, along", Gives: mark, Main: true},
			{Key: "side_radius", Label: "Radius of the sides", Gives: mark, Main: true},
			{Key: "side_centre", Label: "Their centres from the middle, across", Gives: mark, Main: true},
			{Key: "join_along", Label: "Arcs meet from the middle, along", Gives: mark},
			{Key: "join_up", Label: "Arcs meet from the middle, across", Gives: mark},
			{Key: "end_arm", Label: "Torch's arm for the ends", Gives: mark},
			{Key: "side_arm", Label: "Torch's arm for the sides", Gives: mark},
			{Key: "oval_off", Label: "It leaves a true ellipse by at most", Gives: mark, Main: true},
			{Key: "rows", Label: "Points to mark", Gives: form.Rows("point", "Point", "along", "Along", "up", "Up from the chord or axis", "down", "Down from the top line")},
		},
		Sources: []source.ID{source.CommonPractice},
		Run:     runArcOffsets,
	}
}}

func runArcOffsets(r *form.Reader, a *form.Answer) error {
	get := func(key string) unit.Length { return form.Get[unit.Length](r, key) }
	curve, hole, kerf, thickness := form.GetWord(r, "curve"), form.GetWord(r, "kept_side") == "outside", get("kerf"), get("thickness")
	arc := ArcInput{Given: curve, Radius: get("radius"), Chord: get("chord"), Rise: get("rise"), Arc: get("arc"), Angle: form.Get[unit.Angle](r, "angle"), Spaces: form.GetCount(r, "spaces"), Tape: get("tape")}
	axes := EllipseInput{Long: get("long"), Short: get("short"), Spaces: arc.Spaces, Kerf: kerf, Hole: hole}
	if err := r.Err(); err != nil {
		return err
	}
	var err error
	switch curve {
	case "ellipse":
		err = answerEllipse(a, axes, thickness)
	case "oval":
		err = answerOval(a, axes, thickness)
	default:
		err = answerArc(a, arc, kerf, thickness, hole)
	}
	if err != nil {
		return err
	}
	a.Caution("A hand cut wanders by 1 mm (1/32 in) or so, by common practice. Bend a batten through the points, and cut along it.")
	a.Caution(safety.MadeDead)
	a.Caution(safety.ArcOn)
	return nil
}

// handOn adds the cut that follows, where the thickness is known.
func handOn(a *form.Answer, name string, thickness, cut unit.Length, pierces string) {
	if thickness == 0 {
		return
	}
	fields := map[string]string{"thickness": asTyped(a, thickness, unit.Plate), "length": asTyped(a, cut, unit.Marking), "pierces": pierces, "count": "1"}
	if pierces != "0" {
		fields["start"] = "pierce"
	}
	a.AddCut(form.Onward{Name: name, Fields: fields})
}

func answerArc(a *form.Answer, in ArcInput, kerf, thickness unit.Length, hole bool) error {
	res, err := ComputeArc(in)
	if err != nil {
		return err
	}
	arm, err := cutting.ComputeArm(res.Radius, kerf, hole)
	if err != nil {
		p := *problem.From(err)
		p.Field = "kerf" // the radius may be none of what was entered
		return &p
	}
	form.Put(a, "radius", res.Radius)
	if res.RadiusOff > 0 {
		form.PutSaid(a, "radius", res.Radius, inDoubt(a, res.Radius, res.RadiusOff))
		form.Put(a, "radius_off", res.RadiusOff)
	}
	form.Put(a, "chord", res.Chord)
	form.Put(a, "rise", res.Rise)
	form.Put(a, "arc", res.Arc)
	form.Put(a, "angle", res.Angle)
	form.Put(a, "area", res.Area)
	if res.RadiusOff == 0 {
		form.Put(a, "arm", arm)
	}
	form.Put(a, "gap", res.Gap)
	putOrdinates(a, res.Points, true)
	handOn(a, "Arc", thickness, res.Arc, "0")
	drawArc(a, res, kerf, hole)
	sayArc(a, in, res, arm, kerf, hole)
	return nil
}

// inDoubt tells a length in no finer steps than it may be off by.
func inDoubt(a *form.Answer, l, off unit.Length) string {
	one, step := unit.Millimetre, math.Pow(10, math.Floor(math.Log10(unit.Value(off, "mm"))))
	if a.System() == unit.US {
		one, step = unit.Inch, math.Exp2(math.Floor(math.Log2(unit.Value(off, "in"))))
		if step >= 1 {
			step = math.Pow(10, math.Floor(math.Log10(unit.Value(off, "in"))))
		}
	}
	steps := one * unit.Length(step)
	return form.SayAs(a, unit.Length(math.Round(float64(l/steps)))*steps, unit.Marking)
}

// putOrdinates puts the points of a curve, with what lies below the top line or without.
func putOrdinates(a *form.Answer, points []Ordinate, down bool) {
	var rows []*form.Row
	for i, p := range points {
		told := []unit.Length{p.Along, p.Up}
		if down {
			told = append(told, p.Down)
		}
		rows = append(rows, markRow(a, strconv.Itoa(i), []string{"point", "along", "up", "down"}, told...))
	}
	a.PutRows("rows", rows)
}
