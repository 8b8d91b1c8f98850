package layout

import (
	"fmt"

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
	parts, off := "%d bars with gaps of %s, at both ends too.", "Kept off"
	switch in.Into {
	case "pieces":
		parts, off = "%d × %s, with a kerf after each but the last.", "Cut off with its kerf"
	case "marks":
		parts = "%d marks, the first and the last on the ends, each %s from the next."
	}
	said := "A length of " + say(in.Length) + ": " + fmt.Sprintf(parts, res.Count, say(res.Each))
	if in.Start+in.End > 0 {
		said += fmt.Sprintf(" %s: %s at the left end, %s at the right.", off, say(in.Start), say(in.End))
	}
	return said
}
