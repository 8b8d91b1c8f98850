package wear

import (
	"fmt"
	"math"

	"kerfside/calc/chance"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// PhotoInput is what was marked on a picture of a tip. Places are in pixels.
type PhotoInput struct {
	Rim        []spot      // on the edge of the bore, in any order
	Scale      []spot      // both ends of Width; or four: of its widest way across, then of its narrowest
	Width      unit.Length // of the object beside the tip
	WidthError unit.Length // how far that may be off
	Mark       float64     // how far off a mark may be, pixels, at the least
}

// PhotoResult is the bore as the picture shows it. Errors are half the width
// of an interval that holds in 95 of 100 pictures, as far as the marks tell.
type PhotoResult struct {
	Largest, Smallest           unit.Length
	LargestError, SmallestError unit.Length
	Out, OutError               unit.Length // largest − smallest
	Pixel                       unit.Length // size of one in the plane of the object
	Rim                         ellipse
	Residual                    float64    // scatter of the marks about it, pixels
	Worst                       int        // number of the mark that is furthest off, from 1
	WorstOff                    float64    // by that many pixels
	Covered                     unit.Angle // of the rim, without the widest gap
	Tilt                        unit.Angle // of the camera, told by four scale marks
	Tilted                      bool       // Tilt is known
	TiltBound                   unit.Angle // the tilt that would make a round bore look like this
}

// Limits of what the gauge measures; the authors' judgement.
const (
	leastRim     = 8
	leastCovered = 200 * unit.Degree
	leastBore    = 16.0 // pixels across; a mark is good to about one
	leastScale   = 40.0 // pixels
	mostScatter  = 0.04 // of the mean radius
	flattest     = 0.6  // shortest to longest axis
	mostTilt     = 15 * unit.Degree
	mostError    = 0.15 // of the diameter: as much as the growth that is looked for
	apart        = 0.25 // pixels between two marks
)

// ComputePhoto measures the bore from marks on a picture.
//
//	ellipse through the rim marks by direct least squares (fitEllipse)
//	pixel = width / distance of the scale marks
//	largest = 2·a·pixel, smallest = 2·b·pixel
//
// The error of an axis is t·s·√h, with s the scatter of the marks about the
// ellipse, t Student's quantile for 95 % and n − 5, and h from the covariance
// of a least-squares fit (ellipse.pulls), which grows by itself where the marks
// leave a gap; s is at least what Mark says. To it come, square to each other,
// what the fit with the least orthogonal distances gives otherwise, the scale
// marks, and the object's width (JCGM 100:2008, 5.1.2).
//
// A camera that looks askew by the angle q shortens everything along one way
// by cos q. Four scale marks on something round tell q; the longer of the two
// distances is then the scale, and what q can add to the difference of the
// axes goes into its error. With two, TiltBound = acos(b/a).
//
// It refuses fewer than eight rim marks, marks on less than 200° of the rim,
// marks that lie on no ellipse or on a very flat one, a picture too small to
// mark, a tilt over 15°, an error over 15 %, and a bore that no tip has. What it
// cannot see: object and bore at different distances from the camera.
func ComputePhoto(in PhotoInput) (PhotoResult, error) {
	pixel, tilt, err := in.scale()
	if err != nil {
		return PhotoResult{}, err
	}
	if err := in.checkRim(); err != nil {
		return PhotoResult{}, err
	}
	e, ok := fitEllipse(in.Rim)
	if !ok {
		return PhotoResult{}, noEllipse("the marks lie on no ellipse")
	}
	res := PhotoResult{Rim: e, Pixel: pixel, Tilt: tilt, Tilted: len(in.Scale) == 4, TiltBound: unit.Angle(math.Acos(e.b / e.a)),
		Residual: e.residual(in.Rim), Covered: unit.Angle(e.covered(in.Rim))}
	res.Worst, res.WorstOff = e.worst(in.Rim)
	if err := res.check(); err != nil {
		return PhotoResult{}, err
	}
	if err := in.measure(&res); err != nil {
		return PhotoResult{}, err
	}
	return res, nil
}

// scale returns the size of a pixel and, from four marks, the tilt.
func (in PhotoInput) scale() (unit.Length, unit.Angle, error) {
	const hint = "Mark both ends of the object's width. On a coin four marks also tell the tilt: both ends of its widest way across, then of its narrowest."
	n := len(in.Scale)
	if n != 2 && n != 4 {
		return 0, 0, problem.Newf(problem.Missing, "scale", "the scale has %d marks", n).WithHint(hint)
	}
	first := gap(in.Scale[0], in.Scale[1])
	long, short := first, first
	if n == 4 {
		second := gap(in.Scale[2], in.Scale[3])
		long, short = max(first, second), min(first, second)
	}
	if short < leastScale {
		return 0, 0, problem.Newf(problem.Range, "scale", "the scale marks are %.0f pixels apart", short).
			WithHint("At least %.0f, better some hundreds: come closer with the camera.", leastScale)
	}
	tilt := unit.Angle(math.Acos(short / long))
	if n == 4 {
		a, b := in.Scale[1], in.Scale[3]
		cos := ((a.x-in.Scale[0].x)*(b.x-in.Scale[2].x) + (a.y-in.Scale[0].y)*(b.y-in.Scale[2].y)) / (long * short)
		if math.Abs(cos) > math.Sin(float64(20*unit.Degree)) {
			return 0, 0, problem.New(problem.Conflict, "scale", "the two ways across the object are not square to each other", hint)
		}
		if tilt > mostTilt {
			return 0, 0, problem.Newf(problem.Refused, "scale", "the camera looked on from %s off square", unit.In(tilt, "°")).
				WithHint("Hold it straight above, within %s, and take another picture.", unit.In(mostTilt, "°"))
		}
	}
	return in.Width / unit.Length(long), tilt, nil
}

func gap(a, b spot) float64 { return math.Hypot(a.x-b.x, a.y-b.y) }

// checkRim refuses too few marks and marks on top of each other.
func (in PhotoInput) checkRim() error {
	if len(in.Rim) < leastRim {
		return problem.Newf(problem.Missing, "rim", "the rim has %d marks", len(in.Rim)).WithHint("Mark at least %d, all around.", leastRim)
	}
	for i, a := range in.Rim {
		for j, b := range in.Rim[:i] {
			if gap(a, b) < apart {
				return problem.Newf(problem.Conflict, "rim", "marks %d and %d are the same place", j+1, i+1).WithHint("Move one of them to a place of its own on the rim.")
			}
		}
	}
	return nil
}

func noEllipse(format string, args ...any) error {
	return problem.Newf(problem.Refused, "rim", "%s", fmt.Sprintf(format, args...)).
		WithHint("Mark the edge of the bore itself, all around, and nothing beside it.")
}

// check refuses marks from which no size can be told.
func (res PhotoResult) check() error {
	e := res.Rim
	if res.Covered < leastCovered {
		return problem.Newf(problem.Refused, "rim", "the marks cover only %s of the rim", unit.In(res.Covered, "°")).
			WithHint("Mark the rim all around, over %s at the least.", unit.In(leastCovered, "°"))
	}
	if scatter := res.Residual / ((e.a + e.b) / 2); scatter > mostScatter {
		return noEllipse("the marks scatter by %.0f %% of the radius about the best ellipse; mark %d is furthest off", 100*scatter, res.Worst)
	}
	if e.b < flattest*e.a {
		return noEllipse("the ellipse is only %.0f %% as wide as long", 100*e.b/e.a)
	}
	if 2*e.b < leastBore {
		return problem.Newf(problem.Range, "rim", "the bore is only %.0f pixels across in the picture", 2*e.b).
			WithHint("At least %.0f: come closer with the camera, as near as it still sees sharp.", leastBore)
	}
	return nil
}

// worst returns the number of the mark that is furthest off, and by how much.
func (e ellipse) worst(points []spot) (int, float64) {
	which, far := 0, -1.0
	for i, p := range points {
		if _, d := e.foot(e.own(p)); math.Abs(d) > far {
			which, far = i+1, math.Abs(d)
		}
	}
	return which, far
}

// measure fills in the sizes and their errors.
func (in PhotoInput) measure(res *PhotoResult) error {
	e, px := res.Rim, res.Pixel
	columns, d := e.pulls(in.Rim)
	s, ok := fit(columns, d)
	shortest, converged := e.refined(in.Rim)
	if !ok || !converged {
		return noEllipse("the marks do not settle on one ellipse")
	}
	off := max(chance.StudentQuantile(0.975, float64(len(in.Rim)-5))*res.Residual, 2*in.Mark)
	axis := func(k int, length, other float64) float64 {
		return math.Hypot(length*off*math.Sqrt(s.inner[k][k]), other-length)
	}
	scale := math.Hypot(2*math.Sqrt2*max(in.Mark, res.Residual)*float64(px/in.Width), float64(in.WidthError/in.Width))
	size := func(radius float64) unit.Length { return unit.Length(2*radius) * px }
	whole := func(radius, error float64) unit.Length { return size(math.Hypot(error, radius*scale)) }
	res.Largest, res.Smallest = size(e.a), size(e.b)
	res.LargestError, res.SmallestError = whole(e.a, axis(2, e.a, shortest.a)), whole(e.b, axis(3, e.b, shortest.b))
	if least, most := 0.3*unit.Millimetre, 10*unit.Millimetre; res.Largest < least || res.Largest > most {
		return problem.Newf(problem.Conflict, "width", "the bore comes out %s wide, and no hand torch's tip has such a one", unit.In(res.Largest, "mm")).
			WithHint("From %s to %s. Check what lies beside the tip and where its ends are marked.", unit.In(least, "mm"), unit.In(most, "mm"))
	}
	if share := max(res.LargestError/res.Largest, res.SmallestError/res.Smallest); share > mostError {
		return problem.Newf(problem.Refused, "rim", "the marks leave the size open by %.0f %%", 100*float64(share)).
			WithHint("Mark more points, all around; or come closer with the camera.")
	}
	res.Out = res.Largest - res.Smallest
	spread := e.a*e.a*s.inner[2][2] + e.b*e.b*s.inner[3][3] - 2*e.a*e.b*s.inner[2][3]
	askew := 0.0
	if res.Tilted {
		askew = e.a * (1 - math.Cos(float64(res.Tilt)))
	}
	apart := (shortest.a - shortest.b) - (e.a - e.b)
	res.OutError = size(math.Hypot(math.Hypot(off*math.Sqrt(max(spread, 0)), apart), askew))
	return nil
}
