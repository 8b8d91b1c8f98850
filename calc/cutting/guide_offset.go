package cutting

import (
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// GuideInput is a cut along a straightedge, a curved template or a circle arm.
type GuideInput struct {
	Cup    unit.Length // outer diameter of the shield cup where it runs on the guide
	Kerf   unit.Length
	Hole   bool        // see ComputeGuide
	Shape  string      // "straight", "outside" or "inside"
	Radius unit.Length // of the finished edge; 0 for a straight cut or no circle
}

// GuideResult is where the guide goes.
type GuideResult struct {
	Offset   unit.Length // from the guide's edge to the edge that is kept
	Template unit.Length // radius of a curved guide; 0 for a straight cut
	Arm      unit.Length // from the pivot to the middle of the torch; 0 without a radius
}

// ComputeArm returns how far the middle of the torch is from the pivot of a curve whose
// finished edge has that radius: half a kerf more where what lies inside the curve is
// kept, half a kerf less for a hole. A hole that is no wider than the kerf is refused.
func ComputeArm(radius, kerf unit.Length, hole bool) (unit.Length, error) {
	if !hole {
		return radius + kerf/2, nil
	}
	if radius <= kerf/2 {
		return 0, problem.Newf(problem.Refused, "radius", "a hole of radius %s is no wider than the kerf", unit.In(radius, "mm")).
			WithHint("Pierce it and open it up, or drill it.")
	}
	return radius - kerf/2, nil
}

// ComputeGuide puts the guide so that the kept edge lies on the marked line.
//
//	offset = cup/2 − kerf/2     where the guide lies on the metal that is kept
//	offset = cup/2 + kerf/2     where it lies on the waste
//	arm    = R + kerf/2         for a disc of radius R (keep the part)
//	arm    = R − kerf/2         for a hole of radius R (keep the plate around it)
//	template = arm − cup/2      where the cup runs round the outside of the template
//	template = arm + cup/2      where it runs along the inside of one
//
// Hole means on a straight cut that the piece under the guide is waste, on a
// curve that the disc is. Refused where a template or an arm would be shorter
// than nothing. Plane geometry; no source needed.
func ComputeGuide(in GuideInput) (GuideResult, error) {
	if in.Kerf >= in.Cup {
		return GuideResult{}, problem.New(problem.Conflict, "kerf", "the kerf is as wide as the cup", "Enter the cup's outer diameter and the width of the cut.")
	}
	half := -in.Kerf / 2 // guide on the kept side
	onWaste := in.Hole
	if in.Shape == "inside" {
		onWaste = !in.Hole // a ring lies on the plate around the circle
	}
	if onWaste {
		half = in.Kerf / 2
	}
	res := GuideResult{Offset: in.Cup/2 + half}
	if in.Radius == 0 {
		if in.Shape != "straight" {
			return GuideResult{}, problem.New(problem.Missing, "radius", "a curve needs the radius of its finished edge", "Half the diameter of the disc or the hole.")
		}
		return res, nil
	}
	arm, err := ComputeArm(in.Radius, in.Kerf, in.Hole)
	if err != nil {
		return GuideResult{}, err
	}
	res.Arm = arm
	switch in.Shape {
	case "outside":
		res.Template = res.Arm - in.Cup/2
	case "inside":
		res.Template = res.Arm + in.Cup/2
	}
	if in.Shape == "outside" && res.Template <= 0 {
		return GuideResult{}, problem.Newf(problem.Refused, "radius", "the cup of %s is too wide to run round the outside of a template here", unit.In(in.Cup, "mm")).
			WithHint("Run inside a template of radius %s, or use a circle arm of %s.", unit.In(res.Arm+in.Cup/2, "mm"), unit.In(res.Arm, "mm"))
	}
	return res, nil
}

// GuideOffset is the calculator guide-offset.
var GuideOffset = form.Declaration{Name: "guide-offset", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Guide offset",
		About: "Tells how far from the line to clamp the straightedge. Sizes a template and a circle arm too.",
		Place: "cut",
		Terms: []string{"straightedge", "fence", "template", "circle", "hole", "compass", "clamp", "stand off from line"},
		Fields: []form.Field{
			{Key: "cup", Label: "Cup diameter", Help: "Outside of the shield cup, where it runs on the guide. Measure it with calipers", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking),
				Limits: form.Within(5*unit.Millimetre, 80*unit.Millimetre)},
			{Key: "kerf", Label: "Kerf", Known: "plan.kerf", Help: "Measured on a trial strip, or from the plan", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Limits: form.Within(0.3*unit.Millimetre, 15*unit.Millimetre)},
			{Key: "keep", Label: "Keep", Help: "Straight: part is the piece under the guide, hole the one beyond the cut", Takes: form.OneOf("part", "The part: under the guide, or the disc", "hole", "The rest: beyond the cut, or the plate with the hole"), Default: "part"},
			{Key: "shape", Label: "Guide", Takes: form.OneOf("straight", "Straightedge, or a circle arm", "outside", "Round the outside of a template", "inside", "Along the inside of a template"), Default: "straight"},
			{Key: "radius", Label: "Finished radius", Help: "Of the disc or the hole; leave it out for a straight cut", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking), Optional: true,
				Limits: form.Within(unit.Millimetre, 10*unit.Metre)},
		},
		Results: []form.Result{
			{Key: "offset", Label: "From the guide to the line", Gives: form.Number[unit.Length]("mm", "in").As(unit.Marking), Main: true},
			{Key: "template_radius", Label: "Radius of the template", Gives: form.Number[unit.Length]("mm", "in").As(unit.Marking), Main: true},
			{Key: "arm", Label: "Pivot to the middle of the torch", Gives: form.Number[unit.Length]("mm", "in").As(unit.Marking), Main: true},
		},
		Sources: []source.ID{},
		Run:     runGuide,
	}
}}

func runGuide(r *form.Reader, a *form.Answer) error {
	in := GuideInput{
		Cup:    form.Get[unit.Length](r, "cup"),
		Kerf:   form.Get[unit.Length](r, "kerf"),
		Hole:   form.GetWord(r, "keep") == "hole",
		Shape:  form.GetWord(r, "shape"),
		Radius: form.Get[unit.Length](r, "radius"),
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeGuide(in)
	if err != nil {
		return err
	}
	say := func(l unit.Length) string { return form.SayIn(a, l, "mm", "in") }
	form.Put(a, "offset", res.Offset)
	a.Draw("offset", map[string]any{"cup": a.MM(in.Cup, unit.Marking), "kerf": a.MM(in.Kerf, unit.Kerf), "offset": a.MM(res.Offset, unit.Marking), "guide": in.Shape,
		"keep": map[bool]string{false: "part", true: "hole"}[in.Hole != (in.Shape == "inside")]})
	sign := "−"
	if res.Offset > in.Cup/2 {
		sign = "+"
	}
	a.Step("guide to line = %s ÷ 2 %s %s ÷ 2 = %s", say(in.Cup), sign, say(in.Kerf), say(res.Offset))
	if res.Arm > 0 {
		form.Put(a, "arm", res.Arm)
		sign = map[bool]string{false: "+", true: "−"}[in.Hole]
		a.Step("pivot to the middle of the torch = %s %s %s ÷ 2 = %s", say(in.Radius), sign, say(in.Kerf), say(res.Arm))
	}
	if res.Template > 0 {
		form.Put(a, "template_radius", res.Template)
		sign = map[bool]string{false: "−", true: "+"}[in.Shape == "inside"]
		a.Step("template = %s %s %s ÷ 2 = %s", say(res.Arm), sign, say(in.Cup), say(res.Template))
	}
	a.Caution(safety.MadeDead)
	a.Caution("Cut a short test along the guide and measure it: a cup worn or set off the middle shifts the line.")
	a.Caution("Clamp the guide and the work so that neither drops; keep the squarer side of the kerf on the part.")
	a.Caution(safety.ArcOn)
	return nil
}
