package layout

import (
	"math"

	"kerfside/calc/unit"
)

// MitreCut is a cut across the pipe that all pieces come out of, measured from the pipe's
// end: where the piece before it ends. The next begins a kerf beyond.
type MitreCut struct {
	Zero     unit.Length // on line 0
	Opposite unit.Length // on the line half round the pipe
}

// alongPipe is what a kerf takes along the pipe where the cut leans.
func (in MitreInput) alongPipe(lean unit.Angle) unit.Length {
	return in.Kerf / unit.Length(math.Cos(float64(lean)))
}

// sayLean is an angle to set out with a protractor.
func sayLean(lean unit.Angle) string {
	return lean.Quantity().Say(float64(lean), "°", unit.Doubt{Sort: unit.Marking})
}

// layOut puts the pieces one after the other on one pipe, each turned half over: what is the
// throat of one lies on the line that is the back of the next, and one cut, which takes
// kerf/cos a along the pipe, makes an end of both. Line 0 is in the throat of the first. A bend
// begins and ends with the square ends of its end pieces; a frame with a mitre, its long
// point at the pipe's end, and the kerf beyond it in the waste.
func (res *MitreResult) layOut(in MitreInput) {
	slope, kerf := res.Deepest/2, in.alongPipe(res.Lean)
	var pieces []Lengths
	switch {
	case in.Frame:
		pieces = []Lengths{res.Across, res.Upright, res.Across, res.Upright}
	case in.knowsLengths():
		for i := range in.Pieces {
			piece := res.Middle
			if i == 0 || i == in.Pieces-1 {
				piece = res.End
			}
			pieces = append(pieces, piece)
		}
	}
	at := unit.Length(0) // on the centre line
	if in.Frame {
		at = slope
		res.Cuts = append(res.Cuts, MitreCut{Zero: at + slope, Opposite: at - slope})
	}
	for i, piece := range pieces {
		at += piece.Centre
		if !in.Frame && i == len(pieces)-1 {
			break
		}
		lean := slope
		if i%2 == 1 {
			lean = -slope
		}
		res.Cuts = append(res.Cuts, MitreCut{Zero: at - lean, Opposite: at + lean})
		at += kerf
	}
	res.Stock = at
	if in.Frame {
		res.Stock += slope
	}
}
