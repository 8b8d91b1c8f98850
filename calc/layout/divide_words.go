package layout

import (
	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

func sayDivide(a *form.Answer, in DivideInput, res DivideResult) {
	worked := func(l unit.Length) string { return workedLength(a, l) }
	between := in.Length - in.Start - in.End
	if in.Start+in.End > 0 {
		a.Step("between what is kept off: %s − %s − %s = %s", worked(in.Length), worked(in.Start), worked(in.End), worked(between))
	}
	switch in.Into {
	case "pieces":
		a.Step("a piece = (%s − %d × %s) ÷ %d = %s", worked(between), res.Count-1, form.SayAs(a, in.Kerf, unit.Kerf), res.Count, worked(res.Each))
		a.Caution("The kerf lies beyond each mark. Measure from the left end again for each piece.")
		a.Caution(safety.Return)
	case "marks":
		a.Step("a step = %s ÷ %d = %s", worked(between), res.Count-1, worked(res.Each))
		a.Caution("Measure each mark from the left end: a small error in a step is there again at each mark.")
	default:
		a.Step("a gap = (%s − %d × %s) ÷ %d = %s", worked(between), res.Count, worked(in.Bar), res.Count+1, worked(res.Each))
		a.Caution("For a guard or a rail the local code sets the widest gap.")
		a.Caution("Measure each bar from the left end: a small error in a gap is there again at each bar.")
	}
}
