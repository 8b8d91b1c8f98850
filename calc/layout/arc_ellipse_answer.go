package layout

import (
	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

func answerEllipse(a *form.Answer, in EllipseInput, thickness unit.Length) error {
	res, err := ComputeEllipse(in)
	if err != nil {
		return err
	}
	form.Put(a, "half_long", res.HalfLong)
	form.Put(a, "half_short", res.HalfShort)
	form.Put(a, "pins", res.Pins)
	form.Put(a, "loop", res.Loop)
	form.Put(a, "around", res.Around)
	form.Put(a, "area", res.Area)
	form.Put(a, "path_off", res.PathOff)
	putOrdinates(a, res.Points, false)
	handOn(a, "Ellipse", thickness, res.Around, "1")
	drawEllipse(a, in, res)
	worked := func(l unit.Length) string { return checked(a, l) }
	a.Step("pins from the middle = √(%s² − %s²) = %s; loop = 2 × %s + 2 × that = %s", worked(res.HalfLong), worked(res.HalfShort), worked(res.Pins/2), worked(res.HalfLong), worked(res.Loop))
	a.Step("points: along = a × (1 − cos t), up = b × sin t, t = 180° × point ÷ %d, a = %s, b = %s; as far down as up", in.Spaces, worked(res.HalfLong), worked(res.HalfShort))
	a.Step("all round = 4 × a × E(m), m = 1 − b² ÷ a²: the complete elliptic integral of the second kind = %s", worked(res.Around))
	a.Step("the torch's path lies half a kerf beside the line, square to it: that is no ellipse")
	a.Caution("A string stretches, and its knot slips: take thin wire, and check both axes before you cut.")
	return nil
}

func answerOval(a *form.Answer, in EllipseInput, thickness unit.Length) error {
	res, err := ComputeOval(in)
	if err != nil {
		return err
	}
	arms := [2]unit.Length{}
	for i, radius := range []unit.Length{res.EndRadius, res.SideRadius} {
		if arms[i], err = cutting.ComputeArm(radius, in.Kerf, in.Hole); err != nil {
			return err
		}
	}
	form.Put(a, "end_radius", res.EndRadius)
	form.Put(a, "end_centre", res.EndCentre)
	form.Put(a, "side_radius", res.SideRadius)
	form.Put(a, "side_centre", res.SideCentre)
	form.Put(a, "join_along", res.Join.X)
	form.Put(a, "join_up", res.Join.Y)
	form.Put(a, "end_arm", arms[0])
	form.Put(a, "side_arm", arms[1])
	form.Put(a, "around", res.Around)
	form.Put(a, "oval_off", res.Off)
	handOn(a, "Oval", thickness, res.Around, "1")
	drawOval(a, in, res)
	worked := func(l unit.Length) string { return checked(a, l) }
	a.Step("a = %s, b = %s, d = √(a² + b²)", worked(in.Long/2), worked(in.Short/2))
	a.Step("ends: r = d × (d − (a − b)) ÷ (2 × a) = %s, centres a − r = %s from the middle", worked(res.EndRadius), worked(res.EndCentre))
	a.Step("sides: R = d × (d + (a − b)) ÷ (2 × b) = %s, centres R − b = %s from the middle, on the far side", worked(res.SideRadius), worked(res.SideCentre))
	a.Caution("An oval is no ellipse. Where a pipe cut at a slant has to fit, lay out the ellipse.")
	return nil
}
