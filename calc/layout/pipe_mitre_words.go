package layout

import (
	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

func sayMitre(a *form.Answer, in MitreInput, res MitreResult) {
	worked := func(l unit.Length) string { return workedLength(a, l) }
	a.Step("%s; r = %s", in.Pipe.Say(a), worked(in.Pipe.OD/2))
	lean := form.Worked(a, res.Lean, "°", "°")
	if in.Frame {
		a.Step("lean = half of 90° = 45°; long points: the outside; short points: 2 × %s less", worked(in.Pipe.OD))
	} else {
		a.Step("lean = %s ÷ (2 × %d joints) = %s", form.Say(a, in.Turn), in.Pieces-1, lean)
	}
	a.Step("cut back in the throat = 2 × %s × tan %s = %s", worked(in.Pipe.OD/2), lean, worked(res.Deepest))
	a.Step("line p: r × tan a × (1 + cos p), p = 360° × line ÷ %d", in.Lines)
	switch {
	case in.Radius > 0:
		a.Step("end piece: back (%s + r) × tan a, throat (%s − r) × tan a; a middle piece is twice that", worked(in.Radius), worked(in.Radius))
	case in.knowsLengths() && !in.Frame:
		a.Step("each piece: back %s + r × tan a, throat %s − r × tan a", worked(in.Leg), worked(in.Leg))
	}
	if len(res.Cuts) > 0 {
		a.Step("a kerf along the pipe = %s ÷ cos a = %s, after each piece", form.SayAs(a, in.Kerf, unit.Kerf), form.Worked(a, in.alongPipe(res.Lean), "mm", "in"))
		a.Caution("A cut is listed where the piece before it ends. The next piece begins a kerf beyond: a wider kerf makes it short. Measure yours on scrap.")
	}
	if in.Frame {
		a.Caution("At the first cut the kerf lies before the line, in what comes off. Tack all four corners, then make the diagonals alike before you weld.")
	}
	a.Caution("Snap a line along the pipe first: it is line 0 for one piece, the long point for the next. So the pieces come out of one pipe, each turned half over.")
	a.Caution("Mark every line from line 0, and every length from one end.")
	a.Caution("Pressure pipe and structure: the code and a qualified procedure decide whether a mitre is allowed, and its smallest pieces.")
	a.Caution("A hand cut wanders by 1 mm (1/32 in) or so, by common practice. Cut outside the line, fit, then grind.")
	a.Caution(safety.HollowStop)
}
