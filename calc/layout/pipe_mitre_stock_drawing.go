package layout

import (
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// mitreStock is one pipe from the side with the first of its cuts, line 0 above. Pieces are
// drawn short: to scale a long pipe is a thread.
func mitreStock(a *form.Answer, in MitreInput, res MitreResult) drawing.Drawing {
	const most = 5 // pieces; more would be too small
	say := func(l unit.Length) string { return form.SayAs(a, l, unit.Marking) }
	od, slope, kerf := inMM(in.Pipe.OD), inMM(res.Deepest)/2, inMM(in.alongPipe(res.Lean))
	pieces, cuts := in.Pieces, len(res.Cuts)
	if in.Frame {
		pieces = cuts - 1
	}
	d := drawing.Drawing{Title: "Out of one pipe, drawn short", Says: "One pipe from the side, line 0 above, with " + unit.Count(cuts, "cut", "cuts") + " that lean to and fro by " + sayLean(res.Lean) + ". Each makes an end of two pieces, which are turned half over. All take " + say(res.Stock) + " of pipe."}
	at, end := 0.0, 0.0
	// cut draws the kerf after a piece that is longer below, or above.
	cut := func(below bool, foot float64) {
		lean := slope
		if !below {
			lean = -slope
		}
		top := []drawing.Point{{X: at - lean, Y: od}, {X: at + lean}}
		past := []drawing.Point{{X: top[0].X + kerf, Y: od}, {X: top[1].X + kerf}}
		if foot < 0 { // before the first piece the kerf lies in what comes off
			past[0].X, past[1].X = top[0].X-kerf, top[1].X-kerf
		}
		d.Fill(drawing.Kerf, band(top, past)...)
		d.Add(drawing.Cut, top...)
	}
	if in.Frame {
		at = slope
		cut(false, -1)
		d.Fill(drawing.Waste, drawing.Point{}, drawing.Point{Y: od}, drawing.Point{X: 2 * slope, Y: od})
	}
	for i := range min(pieces, most) {
		long := 2*slope + 1.5*od
		if !in.Frame && (i == 0 || i == pieces-1) {
			long = slope + 1.5*od
		}
		d.Write(drawing.Point{X: at + long/2, Y: 0.35 * od}, "middle", strconv.Itoa(i+1))
		at += long
		if end = at; in.Frame || i < pieces-1 {
			cut(i%2 == 0, 1)
			at += kerf
			end = at + slope + 0.2*od
		}
	}
	d.Add(drawing.Metal, drawing.Point{X: end, Y: od}, drawing.Point{Y: od}, drawing.Point{}, drawing.Point{X: end})
	if pieces <= most && !in.Frame {
		d.Add(drawing.Metal, drawing.Point{X: end}, drawing.Point{X: end, Y: od})
	}
	return d
}
