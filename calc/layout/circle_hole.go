package layout

import (
	"math"

	"kerfside/calc/cutting"
	"kerfside/calc/handling"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// HoleInput is an opening in plate, or the piece that comes out of one: a rectangle with
// round corners. Of a circle both sides are the diameter and the corner is half of it; of
// a slot with round ends the corner is half the width.
type HoleInput struct {
	Length, Width, Corner unit.Length // of the finished edge, Width ≤ Length, Corner ≤ Width/2
	Disc                  bool        // the piece inside is kept, else the plate around it
	Free                  bool        // along no guide
	Thickness, Kerf       unit.Length
	Cup                   unit.Length // outside of the shield cup, where it runs along a template; 0 without one
	Least                 unit.Ratio  // smallest width in thicknesses; 0 for the usual
	Lead                  unit.Length // from the line to the pierce; 0 for the usual
	Wander                unit.Length // of the hand, either way; 0 for the usual
	Setting               unit.Length // by which a mark or an arm may be off
}

// Common practice, no published source; each may be entered. What a hand can cut depends
// on the guide: without one it wanders more, and wants more room to turn.
const (
	leastGuided, leastFree = 2, 3 // smallest width, in thicknesses
	floorGuided, floorFree = 10 * unit.Millimetre, 20 * unit.Millimetre
	leastKerfs             = 4 // smallest width, in kerfs: a slug is left to fall out

	wanderGuided, wanderFree = 0.5 * unit.Millimetre, unit.Millimetre

	leadKerfs = 3                   // the pierce blows a crater wider than the kerf
	leadFloor = 5 * unit.Millimetre // from the line, at least

	kerfDoubt = 0.2 // share by which a kerf differs from the one reckoned with
)

// HoleResult is how a hole is set out and how true it will be.
type HoleResult struct {
	Smallest unit.Length // width that a hand can cut in this thickness
	ByHand   bool        // the width is no less

	Arm      unit.Length // from the pivot of a circle, an end or a corner to the middle of the torch
	Template unit.Length // radius of a template on the metal that is kept; 0 without a cup
	Along    unit.Length // between the centres of ends or corners, along the length
	Across   unit.Length // and across it
	Diagonal unit.Length // of the corners as if they were sharp

	Lead   unit.Length // from the line to the pierce
	Run    unit.Length // of the lead-in
	Pierce Spot        // from the middle of the hole
	Meets  Spot        // where the lead-in comes to the middle of the torch's path
	Middle bool        // it is pierced in the middle line and led out square, for want of room

	SizeOff unit.Length // by which the width may be off, either way
	Wander  unit.Length // of the hand, either way
	Passes  unit.Length // the pin that goes through even so; 0 if none does
	Cut     unit.Length // length of the cut with its lead-in
}

// Spot is a place on the plate, to the right and up.
type Spot struct{ X, Y unit.Length }

// ComputeHole sets out a hole. With kerf k and thickness t, and the usual figures of
// common practice:
//
//	smallest = max(2·t, 10 mm, 4·k) along a guide, max(3·t, 20 mm, 4·k) without
//	lead     = max(t, 3·k, 5 mm) from the finished line, in the waste
//	arm, template: as cutting.ComputeGuide has them, for the corner's radius
//	cut      = 2·(L + W) − (8 − 2π)·r along the finished edge, and the lead-in
//
// The lead-in comes to the line at 45° in the direction of travel, so that the torch
// need not stop there: against the clock round a hole, with it round a disc, which keeps
// what is kept on the torch's right. It meets a straight side where there is one. Where a
// hole has no room for that, it is pierced in its middle line and led out square.
//
// How true it gets is an estimate:
//
//	width off by  √((2·setting)² + (0.2·k)²): the arm on both sides, a kerf other than reckoned
//	out of round by the hand's wander, at most twice it
//	a pin passes of width − off − 2·wander
//
// Below the smallest hole only that is told: it is drilled. Plane geometry beside the
// rules named, which nobody published.
func ComputeHole(in HoleInput) (HoleResult, error) {
	least, floor, wander := unit.Ratio(leastGuided), floorGuided, wanderGuided
	if in.Free {
		least, floor, wander = leastFree, floorFree, wanderFree
	}
	if in.Least > 0 {
		least = in.Least
	}
	if in.Wander > 0 {
		wander = in.Wander
	}
	res := HoleResult{Smallest: max(unit.Length(least)*in.Thickness, floor, leastKerfs*in.Kerf), Wander: wander}
	res.Along, res.Across = in.Length-2*in.Corner, in.Width-2*in.Corner
	res.Diagonal = unit.Length(math.Hypot(float64(in.Length), float64(in.Width)))
	res.ByHand = in.Width >= res.Smallest
	if !res.ByHand {
		return res, nil
	}
	if !in.Disc && in.Corner <= in.Kerf/2 {
		return HoleResult{}, problem.New(problem.Refused, "corner", "the arc cannot turn so tight a corner: half the kerf is wider", "Give a larger radius, or drill the corners first.")
	}
	arm, err := cutting.ComputeArm(in.Corner, in.Kerf, !in.Disc)
	if err != nil {
		return HoleResult{}, err
	}
	res.Arm = arm
	if in.Cup > 0 {
		shape := "inside"
		if in.Disc {
			shape = "outside"
		}
		guide, err := cutting.ComputeGuide(cutting.GuideInput{Cup: in.Cup, Kerf: in.Kerf, Hole: !in.Disc, Shape: shape, Radius: in.Corner})
		if err != nil {
			return HoleResult{}, err
		}
		res.Template = guide.Template
	}
	res.leadIn(in)
	res.SizeOff = unit.Length(math.Hypot(2*float64(in.Setting), kerfDoubt*float64(in.Kerf)))
	if passes := in.Width - res.SizeOff - 2*wander; !in.Disc && passes > 0 {
		res.Passes = passes
	}
	res.Cut = handling.RoundedOutline(in.Length, in.Width, in.Corner) + res.Run
	return res, nil
}

// leadIn finds where it is pierced, and where the lead-in meets the torch's path on the
// upper side.
func (res *HoleResult) leadIn(in HoleInput) {
	lead := in.Lead
	if lead == 0 {
		lead = max(in.Thickness, leadKerfs*in.Kerf, leadFloor)
	}
	round := res.Along == 0 && res.Across == 0
	beside := -in.Kerf / 2 // of the path, out from the finished edge
	if in.Disc {
		beside = in.Kerf / 2
	}
	top := in.Width/2 + beside
	deep := lead - in.Kerf/2 // from the path
	slope := unit.Length(math.Sqrt2 / 2)
	switch {
	case in.Disc && res.Along >= 2*deep:
		res.Meets, res.Pierce = Spot{0, top}, Spot{-deep, top + deep}
	case in.Disc: // beside the round end, at the left end of what is straight
		arm := in.Corner + beside
		out := arm + deep // the pierce from the end's centre
		run := unit.Length(math.Sqrt(float64(out*out-arm*arm/2))) - slope*arm
		res.Meets = Spot{-res.Along / 2, top}
		res.Pierce = Spot{res.Meets.X - slope*run, top + slope*run}
	case round && top-deep >= slope*top:
		out := top - deep
		run := slope*top - unit.Length(math.Sqrt(max(0, float64(out*out-top*top/2))))
		res.Meets, res.Pierce = Spot{0, top}, Spot{slope * run, top - slope*run}
	case !round && deep <= top && res.Along >= deep && in.Length/2-deep/2 >= lead:
		res.Meets, res.Pierce = Spot{-deep / 2, top}, Spot{deep / 2, top - deep}
	default:
		lead = in.Width / 2
		res.Meets, res.Middle = Spot{0, top}, true
	}
	res.Lead = lead
	res.Run = unit.Length(math.Hypot(float64(res.Meets.X-res.Pierce.X), float64(res.Meets.Y-res.Pierce.Y)))
}
