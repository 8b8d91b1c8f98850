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
		if in.Start > 0 {
			a.Caution("At the left end the kerf lies before the mark, in what comes off.")
		}
		a.Caution(safety.Return)
	case "marks":
		a.Step("a step = %s ÷ %d = %s", worked(between), res.Count-1, worked(res.Each))
		a.Caution("Measure each mark from the left end: a small error in a step is there again at each mark.")
	default:
		a.Step("a gap = (%s − %d × %s) ÷ %d = %s", worked(between), res.Count, worked(in.Bar), res.Count+1, worked(res.Each))
		a.Caution("For a guard or a rail the local code sets the widest gap. A mark is rounded and a bar stands askew: leave room for both.")
		a.Caution("Measure each bar from the left end: a small error in a gap is there again at each bar.")
	}
}

// divideInWords is the drawing for who cannot see it.
func divideInWords(a *form.Answer, in DivideInput, res DivideResult) string {
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	said := "A length of " + say(in.Length) + ". "
	switch in.Into {
	case "pieces":
		said += unit.Count(res.Count, "piece", "pieces") + " of " + say(res.Each) + ", with a kerf after each but the last."
	case "marks":
		said += unit.Count(res.Count, "mark", "marks") + ", " + say(res.Each) + " apart, on both ends too."
	default:
		said += unit.Count(res.Count, "bar", "bars") + " with gaps of " + say(res.Each) + ", at both ends too."
	}
	for _, off := range []struct {
		by  unit.Length
		end string
	}{{in.Start, "left"}, {in.End, "right"}} {
		switch {
		case off.by > 0 && in.Into == "pieces":
			said += " " + say(off.by) + " come off the " + off.end + " end, the kerf in it."
		case off.by > 0:
			said += " " + say(off.by) + " at the " + off.end + " end are kept off."
		}
	}
	return said
}
