package layout

import (
	"math"

	"kerfside/calc/drawing"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// SaddleInput is a branch pipe that is cut to sit on, or in, a header pipe.
type SaddleInput struct {
	Header, Branch Pipe
	Angle          unit.Angle  // between the two centre lines, at most square
	Offset         unit.Length // of the branch's centre line from the header's: to the right for who faces the acute side with the branch's far end up
	Fit            string      // SaddleFits
	Past           unit.Length // set in: how far the branch goes past the header's bore
	Gap            unit.Length // left for the weld: set on along the branch, set in all round the hole
	Stations       int         // round the branch, a multiple of 4
	Hole           bool        // a hole in the header, which a branch that is set in has anyway
}

// SaddleFits are the ways in which a branch meets its header, as words and labels.
var SaddleFits = []string{
	"square", "Set on, cut straight through: it touches as cut",
	"bore", "Set on, its bore meets the header: bevel the acute side",
	"outside", "Set on, its outside meets the header: thin tube",
	"in", "Set in the hole",
}

// SaddleResult is the cut of the branch, and the hole.
type SaddleResult struct {
	Deepest  unit.Length // drop
	ToAxis   unit.Length // from the base line along the branch to the header's centre line
	ToSkin   unit.Length // and to the header's skin on the branch's centre line, or where that skin was
	SideGap  unit.Length // what is left of the gap where the branch reaches furthest round the header
	Girth    unit.Length
	Spacing  unit.Length // of stations, by a tape round the branch
	Chord    unit.Length // and by dividers, straight across
	Stations []SaddleStation
	Sides    [4]SaddleSide
	Cut      unit.Length // of the line, on the branch's outside
	Hole     *SaddleHole // nil for none

	line func(p float64) (drop, r float64)
}

// SaddleStation is one line along the branch, and how far down it the cut lies.
type SaddleStation struct {
	Round unit.Length // from station 0, by a tape
	Drop  unit.Length // from the base line towards the header
	Back  unit.Length // from a square end through the longest point of the branch
}

// SaddleSide is how the branch's outside stands on the header's skin at one of four
// places: the acute side, the right, the obtuse side, the left.
type SaddleSide struct {
	Dihedral unit.Angle // between the two outsides
	Opening  unit.Angle // of a straight cut: outside, or inside where it is negative
}

// SaddleHole is the hole in the header, on its outside.
type SaddleHole struct {
	Along, Across, Round unit.Length // its length, its width straight across, and by a tape
	Marks                []SaddleMark
	Cut                  unit.Length // of its line
	Slant                unit.Length // the most metal along the torch
	at                   func(p float64) SaddleMark
}

// SaddleMark is one point of the hole, from where the centre lines cross.
type SaddleMark struct {
	Along  unit.Length // towards the acute side, negative away from it
	Round  unit.Length // by a tape to the right, negative to the left
	Across unit.Length // the same straight across
}

// saddle is two cylinders in metres: the header's axis is x, the branch's is (cos T,
// sin T, 0) and passes e beside it.
type saddle struct {
	R, e       float64
	low, high  float64 // between which radii of the branch nothing may lie inside the header
	cosT, sinT float64
}

// reach returns how far from the header's axis, along the branch, the cut lies at an
// angle p round the branch, and at which radius of the branch it touches.
//
//	s(r) = [√(R² − (e + r·sin p)²) + r·cos p·cos T] ÷ sin T
//
// Of a straight cut all of the wall has one s, the largest over the wall. s is concave
// in r, and is largest where (e + r·sin p)·sin p = cos p·cos T·√(R² − (e + r·sin p)²).
func (g saddle) reach(p float64) (s, r float64) {
	sin, cos := math.Sincos(p)
	r = g.high
	if g.low < g.high {
		c := cos * g.cosT
		u := math.Copysign(g.R, sin) * c / math.Hypot(sin, c)
		r = min(max((u-g.e)/sin, g.low), g.high)
	}
	return (math.Sqrt(max(0, g.R*g.R-squared(g.e+r*sin))) + r*cos*g.cosT) / g.sinT, r
}

func squared(x float64) float64 { return x * x }

// ComputeSaddle cuts a branch of outside radius r_o and bore r_i to a header of outside
// radius R_o and bore R_i. With the angle T between the axes, the offset e and p round
// the branch from the acute side, the cut lies
//
//	s(p) = [√(R² − (e + r·sin p)²) + r·cos p·cos T] ÷ sin T
//
// from the header's axis along the branch. The torch points at the branch's axis and
// stands square to it, so that the line on the outside has the s of the whole wall:
//
//	fit      R     r                     the hole's radius
//	bore     R_o   r_i                   r_i
//	outside  R_o   r_o                   r_i
//	square   R_o   the most over r_i…r_o r_i
//	in       R_i   r_o                   r_o + gap
//
// No one surface governs a straight cut all round: at the acute side the outside
// touches first, at the sides and at the obtuse side the bore. drop = max s − s. Laid
// flat, x = r_o·p. A gap g moves the cut g ÷ sin T up the branch, which leaves g at the
// crown and g·√(R² − (e + r·sin p)²) ÷ R elsewhere; the drops stay.
//
// The hole lies at x = cot T·√(R_o² − z²) + r·cos p ÷ sin T along the header and at
// z = e + r·sin p straight across, R_o·asin(z ÷ R_o) by a tape.
//
// The outsides meet at Ψ with cos Ψ = (cos p·cos T·√(R² − z²) − z·sin p) ÷ R. The face
// of the cut is square to the wall all along, so it opens by Ψ − 90°.
//
// Range: 15° to 90°, and no part of the branch beside the header: |e| + r_o ≤ R. At
// |e| + r = R the line has kinks at the sides, which are kept. Solid geometry; the
// tests put the line back on both cylinders by another way.
func ComputeSaddle(in SaddleInput) (SaddleResult, error) {
	if err := in.fits(); err != nil {
		return SaddleResult{}, err
	}
	sinT, cosT := math.Sincos(float64(in.Angle))
	Ro, ro, ri := float64(in.Header.OD)/2, float64(in.Branch.OD)/2, float64(in.Branch.Bore())/2
	g := saddle{R: Ro, e: float64(in.Offset), low: ri, high: ro, cosT: cosT, sinT: sinT}
	lift, hole := float64(in.Gap)/sinT, ri
	switch in.Fit {
	case "bore":
		g.high = ri
	case "outside":
		g.low = ro
	case "in":
		g.R, g.low = float64(in.Header.Bore()/2-in.Past), ro
		lift, hole = 0, ro+float64(in.Gap)
	}
	least, most := extremes(func(p float64) float64 { s, _ := g.reach(p); return s })
	res := SaddleResult{
		Deepest: unit.Length(most - least), ToAxis: unit.Length(most + lift), ToSkin: unit.Length(most + lift - math.Sqrt(Ro*Ro-g.e*g.e)/sinT),
		Girth: unit.Length(2 * math.Pi * ro), Spacing: unit.Length(2 * math.Pi * ro / float64(in.Stations)), Chord: unit.Length(2 * ro * math.Sin(math.Pi/float64(in.Stations))),
		line: func(p float64) (float64, float64) { s, r := g.reach(p); return most - s, r },
	}
	for i := range in.Stations {
		drop, _ := res.line(stationAngle(i, in.Stations))
		res.Stations = append(res.Stations, SaddleStation{Round: res.Spacing * unit.Length(i), Drop: unit.Length(drop), Back: res.Deepest - unit.Length(drop)})
	}
	outer := saddle{R: Ro, e: g.e, cosT: cosT, sinT: sinT}
	for i := range res.Sides {
		p := stationAngle(i, 4)
		_, r := g.reach(p)
		res.Sides[i].Dihedral = outer.dihedral(p, r)
		res.Sides[i].Opening = res.Sides[i].Dihedral - 90*unit.Degree
	}
	z := max(math.Abs(g.e+g.high), math.Abs(g.e-g.high))
	res.SideGap = in.Gap * unit.Length(math.Sqrt(max(0, 1-squared(z/Ro))))
	res.Cut = res.lineLength(ro)
	if in.Hole || in.Fit == "in" {
		res.Hole = outer.hole(hole, in)
	}
	return res, nil
}

// fits refuses a branch that does not meet the header all round.
func (in SaddleInput) fits() error {
	far := in.Branch.OD/2 + unit.Length(math.Abs(float64(in.Offset)))
	room, edge := in.Header.OD/2, "outside"
	if in.Fit == "in" {
		room, edge = in.Header.Bore()/2-in.Past, "bore"
	}
	const slack = 1 + 1e-9
	switch side := "right"; {
	case in.Branch.OD > in.Header.OD*slack:
		return problem.Newf(problem.Conflict, "branch_size", "the branch of %s is larger than the header of %s", unit.In(in.Branch.OD, "mm"), unit.In(in.Header.OD, "mm")).
			WithHint("Turn the two round. Where both are one size, give both the same diameter.")
	case in.Fit == "in" && in.Branch.OD/2 > room*slack:
		return problem.Newf(problem.Refused, "fit", "the branch of %s does not go into the header's bore of %s", unit.In(in.Branch.OD, "mm"), unit.In(2*room, "mm")).
			WithHint("Set it on.")
	case in.Fit == "in" && far+in.Gap > in.Header.OD/2*slack:
		return problem.Newf(problem.Range, "gap", "with %s all round it, the hole is wider than the header", unit.In(in.Gap, "mm")).
			WithHint("Leave less, or set the branch on.")
	case far > room*slack:
		if in.Offset < 0 {
			side = "left"
		}
		return problem.Newf(problem.Range, "offset", "the branch runs off the header's %s on the %s by %s", edge, side, unit.In(far-room, "mm")).
			WithHint("It takes an offset of %s at most, to either side.", unit.In(max(room-in.Branch.OD/2, 0), "mm"))
	}
	return nil
}

// stationAngle is the angle of station i of n.
func stationAngle(i, n int) float64 { return 2 * math.Pi * float64(i) / float64(n) }

// dihedral is the angle between the outsides of both pipes where the branch's radius r
// meets the header.
func (g saddle) dihedral(p, r float64) unit.Angle {
	sin, cos := math.Sincos(p)
	z := g.e + r*sin
	y := math.Sqrt(max(0, g.R*g.R-z*z))
	return unit.Angle(math.Acos(min(max((cos*g.cosT*y-z*sin)/g.R, -1), 1)))
}

// hole is that of radius r along the branch, on the header's outside.
func (g saddle) hole(r float64, in SaddleInput) *SaddleHole {
	h := &SaddleHole{at: func(p float64) SaddleMark {
		sin, cos := math.Sincos(p)
		z := g.e + r*sin
		return SaddleMark{Along: unit.Length((g.cosT*math.Sqrt(max(0, g.R*g.R-z*z)) + r*cos) / g.sinT), Across: unit.Length(z), Round: unit.Length(g.R * math.Asin(min(max(z/g.R, -1), 1)))}
	}}
	low, high := extremes(func(p float64) float64 { return float64(h.at(p).Along) })
	left, right := h.at(3*math.Pi/2), h.at(math.Pi/2)
	h.Along, h.Across, h.Round = unit.Length(high-low), right.Across-left.Across, right.Round-left.Round
	for i := range in.Stations {
		h.Marks = append(h.Marks, h.at(stationAngle(i, in.Stations)))
	}
	h.Cut = pathLength(h.outline(1))
	h.Slant = in.Header.Wall
	if in.Fit == "in" { // the torch stays parallel to the branch
		z := max(math.Abs(float64(left.Across)), math.Abs(float64(right.Across)))
		h.Slant /= unit.Length(g.sinT * math.Sqrt(max(1-squared(z/g.R), 1e-4)))
	}
	return h
}

// extremes returns the least and the most of a function round the pipe that has no more
// than one of either within two degrees.
func extremes(f func(p float64) float64) (least, most float64) {
	search := func(sign float64) float64 {
		best, at := math.Inf(-1), 0.0
		for i := range 360 {
			if v := sign * f(stationAngle(i, 360)); v > best {
				best, at = v, stationAngle(i, 360)
			}
		}
		low, high := at-stationAngle(1, 360), at+stationAngle(1, 360)
		for range 60 {
			a, b := low+(high-low)/3, high-(high-low)/3
			if sign*f(a) < sign*f(b) {
				low = a
			} else {
				high = b
			}
		}
		return sign * max(best, sign*f((low+high)/2))
	}
	return search(-1), search(1)
}

// outline returns the cut laid flat, in millimetres: x round the branch, times stretch
// for what is wrapped on paper, y up towards its far end from the base line.
func (res SaddleResult) outline(ro, stretch float64) []drawing.Point {
	return roundPipe(func(p float64) drawing.Point {
		drop, _ := res.line(p)
		return drawing.Point{X: 1000 * ro * stretch * p, Y: -1000 * drop}
	})
}

func (res SaddleResult) lineLength(ro float64) unit.Length { return pathLength(res.outline(ro, 1)) }

// outline returns the hole laid flat, in millimetres: x along the header towards the
// acute side, y round it to the right, times stretch for what is wrapped on paper.
func (h *SaddleHole) outline(stretch float64) []drawing.Point {
	return roundPipe(func(p float64) drawing.Point {
		m := h.at(p)
		return drawing.Point{X: 1000 * float64(m.Along), Y: 1000 * float64(m.Round) * stretch}
	})
}

// roundPipe returns points of a curve all round a pipe, close enough for drawing.Off. Kinks
// lie at quarters, and are points of it.
func roundPipe(f func(p float64) drawing.Point) []drawing.Point {
	points := []drawing.Point{f(0)}
	var halve func(from, to float64, a, b drawing.Point, depth int)
	halve = func(from, to float64, a, b drawing.Point, depth int) {
		far := false
		for _, share := range []float64{0.25, 0.5, 0.75} {
			far = far || offChord(f(from+share*(to-from)), a, b) > drawing.Off
		}
		if !far || depth == 0 {
			points = append(points, b)
			return
		}
		middle := (from + to) / 2
		at := f(middle)
		halve(from, middle, a, at, depth-1)
		halve(middle, to, at, b, depth-1)
	}
	const pieces = 16
	for i := range pieces {
		halve(stationAngle(i, pieces), stationAngle(i+1, pieces), points[len(points)-1], f(stationAngle(i+1, pieces)), 9)
	}
	return points
}

// offChord is how far a point lies from the line through a and b.
func offChord(p, a, b drawing.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	if dx == 0 && dy == 0 {
		return math.Hypot(p.X-a.X, p.Y-a.Y)
	}
	return math.Abs((p.X-a.X)*dy-(p.Y-a.Y)*dx) / math.Hypot(dx, dy)
}

// pathLength is how long a line through points in millimetres is.
func pathLength(points []drawing.Point) unit.Length {
	sum := 0.0
	for i := 1; i < len(points); i++ {
		sum += math.Hypot(points[i].X-points[i-1].X, points[i].Y-points[i-1].Y)
	}
	return unit.Length(sum) * unit.Millimetre
}
