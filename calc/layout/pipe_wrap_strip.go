package layout

import (
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// putStrip tells whether the strip at hand does.
func putStrip(a *form.Answer, in WrapInput, res WrapResult) {
	if in.StripWide == 0 && in.StripLong == 0 {
		return
	}
	verdict := "does"
	switch {
	case res.Narrow:
		verdict = "narrow"
	case res.Strips > 1:
		verdict = "short"
	}
	a.PutWord("strip", verdict)
	if res.Narrow {
		a.Caution("A strip of %s lies crooked on this pipe without anybody seeing it, by common practice. Take one at least %s wide.", form.SayAs(a, in.StripWide, unit.Marking), form.SayAs(a, res.Wide, unit.Marking))
	}
	if res.Strips > 0 {
		a.PutCount("strips", res.Strips)
	}
	if res.Strips > 1 {
		a.Step("each strip but its tab: %s − %s; %s round take %d", workedLength(a, in.StripLong), workedLength(a, wrapTab), workedLength(a, res.Printed), res.Strips)
		a.Caution("Glue the strips end on end along a straightedge: a bend in the joint is a bend in the cut.")
	}
}
