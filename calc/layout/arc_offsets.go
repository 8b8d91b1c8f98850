package layout

import (
	"math"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// ArcInput is an arc of a circle by two of its measures; Given says which.
type ArcInput struct {
	Given               string // "radius-chord", "chord-rise", "radius-rise", "radius-angle", "arc-angle" or "chord-angle"
	Radius, Chord, Rise unit.Length
	Arc                 unit.Length // along the curve
	Angle               unit.Angle  // at the centre
	Spaces              int         // between the points to mark, along the chord
	Tape                unit.Length // by which a measured chord and rise may be off
}

// ArcResult is the whole arc and its points.
type ArcResult struct {
	Radius, Chord, Rise, Arc unit.Length
	Angle                    unit.Angle
	Area                     unit.Area   // between arc and chord
	RadiusOff                unit.Length // by which the radius may be off, either way, for its measured rise; 0 where it was given
	Gap                      unit.Length // by which a straight line from point to point leaves the arc at most
	Points                   []Ordinate
}

// Ordinate is a point of a curve by its place along a straight line.
type Ordinate struct {
	Along unit.Length // from the left end
	Up    unit.Length // from the chord, or from the long axis
	Down  unit.Length // from the line that touches the arc in its middle
}

// ComputeArc works an arc out of two of its measures. With radius R, chord c, rise h in
// the middle and half the angle p at the centre:
//
//	R = c²/(8h) + h/2,  c = 2R·sin p,  h = 2R·sin²(p/2),  arc = 2R·p,  area = R²·(2p − sin 2p)/2
//	from the tangent, x from the middle:  d = x²/(R + √(R² − x²));  from the chord: h − d
//
// These forms lose no figures where the arc is flat. The radius that is reckoned from a
// measured rise is off by as large a share as the rise is: dR/R ≈ dh/h. It is worked out
// for both measures off by the tape. Half a circle is the most: beyond, the arc leaves
// its chord. Plane geometry; no source needed.
func ComputeArc(in ArcInput) (ArcResult, error) {
	R, c, h := float64(in.Radius), float64(in.Chord), float64(in.Rise)
	p := float64(in.Angle) / 2
	res := ArcResult{}
	switch in.Given {
	case "radius-chord":
		if c > 2*R {
			return ArcResult{}, problem.New(problem.Conflict, "chord", "the chord is longer than the circle is wide", "It is at most twice the radius.")
		}
		p = math.Asin(c / (2 * R))
	case "chord-rise":
		tape := float64(in.Tape)
		switch {
		case h <= tape:
			return ArcResult{}, problem.New(problem.Range, "rise", "the rise is no more than the tape may be off by: any radius would fit", "Measure it over a longer chord.")
		case 2*h > c:
			return ArcResult{}, problem.New(problem.Conflict, "rise", "it is more than half a circle", "Measure a shorter piece of it, or lay it out as a disc.")
		}
		R, p = riseRadius(c, h), 2*math.Atan(2*h/c)
		res.RadiusOff = unit.Length(max(riseRadius(c+tape, h-tape)-R, R-riseRadius(c-tape, h+tape)))
	case "radius-rise":
		if h > R {
			return ArcResult{}, problem.New(problem.Conflict, "rise", "it is more than half a circle", "The rise is at most the radius; lay it out as a disc.")
		}
		p = 2 * math.Asin(math.Sqrt(h/(2*R)))
	case "arc-angle":
		R = float64(in.Arc) / (2 * p)
	case "chord-angle":
		R = c / (2 * math.Sin(p))
	}
	half := math.Sin(p / 2)
	res.Radius, res.Chord, res.Rise = unit.Length(R), unit.Length(2*R*math.Sin(p)), unit.Length(2*R*half*half)
	res.Arc, res.Angle, res.Area = unit.Length(2*R*p), unit.Angle(2*p), unit.Area(R*R*(2*p-math.Sin(2*p))/2)
	for i := range in.Spaces + 1 {
		x := float64(res.Chord) * (float64(i)/float64(in.Spaces) - 0.5)
		down := min(unit.Length(x*x/(R+math.Sqrt(max(0, R*R-x*x)))), res.Rise)
		o := Ordinate{Along: res.Chord * unit.Length(i) / unit.Length(in.Spaces), Up: res.Rise - down, Down: down}
		if i > 0 {
			last := res.Points[i-1]
			side := math.Hypot(float64(o.Along-last.Along), float64(o.Up-last.Up))
			res.Gap = max(res.Gap, unit.Length(side*side/4/(R+math.Sqrt(max(0, R*R-side*side/4)))))
		}
		res.Points = append(res.Points, o)
	}
	return res, nil
}

// riseRadius is the radius by chord and rise.
func riseRadius(chord, rise float64) float64 { return chord*chord/(8*rise) + rise/2 }
