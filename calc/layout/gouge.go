package layout

import (
	"math"

	"kerfside/calc/cutting"
	"kerfside/calc/material"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// GougeInput is a groove that a leaning arc melts out, and what is to come out in all.
type GougeInput struct {
	Metal  material.Metal
	Power  unit.Power // of the arc
	Travel unit.Speed
	Lean   unit.Angle  // of the torch to the plate
	Width  unit.Length // of one groove; 0 where it is not known

	TrialWidth, TrialDepth unit.Length // measured on scrap at this setting; 0 if not

	Weld   Section
	Length unit.Length // of the weld; 0 if not given
}

// Section is what is to come out: its area, how far it reaches below the surface and
// stands over it, how wide it opens.
type Section struct {
	Area              unit.Area
	Deep, Above, Wide unit.Length
}

// Groove is one groove.
type Groove struct {
	Width, Depth unit.Length
	Area         unit.Area
	Passes       int           // at least, for the whole section
	Time         unit.Duration // of the arc, for them
}

// GougeResult is the groove that is likeliest, with a shallow and a deep one that it may
// well be instead.
type GougeResult struct {
	Low, About, High Groove
	Trial            bool // measured, not reckoned
}

// How far a groove may be off, as a factor of the power that goes into it, or of its area
// where one was measured. The authors' judgement: nobody has published what hand plasma
// gouging removes, and a hand repeats no groove better than that.
const (
	offGouge = 2
	offTrial = 1.3
)

// shape of a groove: a parabola, as wide as so many depths where its width is not known.
// The authors' judgement.
const (
	parabola     = 2.0 / 3
	widthOfDepth = 2
)

// ComputeGouge reckons a groove as a kerf that does not go through, by the balance of
// cut-plan (cutting.Balance):
//
//	η·sin(lean)·U·I  =  ρ·H·S·v + C·d          S = 2/3·w·d
//
// S, w and d are the groove's section, width and depth, v the travel speed. The lean is
// taken between torch and plate: sin(lean) is the share of the jet that a surface
// stops; the rest skims off. That share, and w = 2·d where the width is not known, are the
// authors' reading and were compared with nothing. So the power in the groove is told
// to within a factor of offGouge. A groove that was measured on scrap stands instead.
//
//	passes = section of the weld / S, rounded up, and no fewer than its depth / d
//
// Copper and brass are refused until a groove was measured.
func ComputeGouge(in GougeInput) (GougeResult, error) {
	if (in.TrialWidth > 0) != (in.TrialDepth > 0) {
		field := "trial_width"
		if in.TrialWidth > 0 {
			field = "trial_depth"
		}
		return GougeResult{}, problem.New(problem.Missing, field, "a measured groove has a width and a depth", "Measure both, or leave both out.")
	}
	if in.TrialWidth > 0 {
		about := Groove{Width: in.TrialWidth, Depth: in.TrialDepth}
		low, high := about, about
		low.Depth /= offTrial
		high.Depth *= offTrial
		return GougeResult{Low: in.passes(low), About: in.passes(about), High: in.passes(high), Trial: true}, nil
	}
	if in.Metal == material.Copper || in.Metal == material.Brass {
		return GougeResult{}, problem.Newf(problem.Refused, "metal", "%s carries heat away fast: no groove in it can be reckoned", in.Metal).
			WithHint("Gouge a strip of scrap. Enter the width and the depth of its groove.")
	}
	return GougeResult{Low: in.passes(in.groove(1.0 / offGouge)), About: in.passes(in.groove(1)), High: in.passes(in.groove(offGouge))}, nil
}

// groove is the groove for so many times the power.
func (in GougeInput) groove(factor float64) Groove {
	b := cutting.Balance{Efficiency: cutting.DefaultEfficiency, Calibration: 1}
	power := unit.Power(factor * math.Sin(float64(in.Lean)) * float64(in.Power))
	deep := func(width unit.Length) unit.Length {
		return b.Groove(in.Metal, "", power, parabola*width, in.Travel)
	}
	if in.Width > 0 {
		return Groove{Width: in.Width, Depth: deep(in.Width)}
	}
	low, high := 0.0, 1.0 // a metre: deeper than any
	for range 60 {
		if mid := (low + high) / 2; float64(deep(unit.Length(widthOfDepth*mid))) > mid {
			low = mid
		} else {
			high = mid
		}
	}
	return Groove{Width: unit.Length(widthOfDepth * low), Depth: unit.Length(low)}
}

// passes fills in what follows from a groove's width and depth.
func (in GougeInput) passes(g Groove) Groove {
	g.Area = unit.Area(parabola * float64(g.Width) * float64(g.Depth))
	g.Passes = 1
	if in.Weld.Area > 0 {
		by := max(float64(in.Weld.Area)/float64(g.Area), float64(in.Weld.Deep+in.Weld.Above)/float64(g.Depth))
		g.Passes = max(1, int(math.Ceil(min(by, mostPasses+1)-1e-9)))
	}
	g.Time = unit.Duration(float64(g.Passes) * float64(in.Length) / float64(in.Travel))
	return g
}

// mostPasses is the largest number of passes that is told.
const mostPasses = 99

// VGroove is the section of a V: plate t, included angle a, gap g at its root, and a cap
// of height h that bulges over it.
//
//	area = g·t + t²·tan(a/2) + 2/3·w·h     w = g + 2·t·tan(a/2)
func VGroove(t unit.Length, a unit.Angle, g, h unit.Length) Section {
	tan := math.Tan(float64(a) / 2)
	wide := float64(g) + 2*float64(t)*tan
	return Section{Area: unit.Area(float64(g)*float64(t) + float64(t)*float64(t)*tan + parabola*wide*float64(h)), Deep: t, Above: h, Wide: unit.Length(wide)}
}

// FilletWeld is the section of a flat fillet of legs z: z²/2, z/√2 from its face down.
func FilletWeld(z unit.Length) Section {
	return Section{Area: unit.Area(float64(z) * float64(z) / 2), Deep: z / math.Sqrt2, Wide: z * math.Sqrt2}
}

// RoundGroove is the section of a groove w wide and d deep that is part of a circle, up
// to half of it; deeper it is none.
//
//	R = (w²/4 + d²)/(2d)     area = R²·(q − sin q)/2     q = 2·asin(w/2R)
func RoundGroove(w, d unit.Length) (Section, error) {
	if 2*d > w*(1+1e-12) {
		return Section{}, problem.New(problem.Conflict, "groove_deep", "a round groove is at most half as deep as it is wide", "Give the width at the surface, or take a V.")
	}
	r := (float64(w)*float64(w)/4 + float64(d)*float64(d)) / (2 * float64(d))
	q := 2 * math.Asin(min(1, float64(w)/(2*r)))
	return Section{Area: unit.Area(r * r * (q - math.Sin(q)) / 2), Deep: d, Wide: w}, nil
}
