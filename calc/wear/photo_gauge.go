package wear

import (
	"math"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// PhotoInput is what was marked on a picture of a tip. Places are in pixels.
type PhotoInput struct {
	Rim        []spot      // on the edge of the bore, in any order
	Scale      []spot      // both ends of Width; or five and more, all around the edge of something round and as wide
	Width      unit.Length // of the object beside the tip
	WidthError unit.Length // how far that may be off
	Mark       float64     // how far off a mark may be, pixels, at the least

	New    unit.Length // bore when new; 0 if there is nothing to judge
	Limits TipLimits
}

// PhotoResult is the bore as it is, seen square on. Errors are half the width
// of an interval that holds in 95 of 100 pictures, as far as the marks tell.
type PhotoResult struct {
	Largest, Smallest           unit.Length
	LargestError, SmallestError unit.Length
	Out, OutError               unit.Length // largest − smallest
	Pixel                       unit.Length // size of one, along the way that no lean shortens
	Rim                         ellipse     // in the picture
	Residual                    float64     // scatter of the marks about it, pixels
	Worst                       int         // number of the mark that is furthest off, from 1
	Covered                     unit.Angle  // of the rim, without the widest gap
	Lean                        unit.Angle  // of the camera, told by the edge of something round
	Leaned                      bool        // Lean is known
	LeanBound                   unit.Angle  // the lean that would make a round bore look like this

	Growth, GrowthError unit.Ratio // of the largest over New; only with New
	Judged

	largestHigh, outHigh unit.Length // that 95 in 100 are under
	byLean               bool        // the lean leaves more open than the marks on the rim
}

// Limits of what the gauge measures; the authors' judgement.
const (
	leastRim     = 8 // five tell the ellipse, three more how well they were set
	leastCovered = 200 * unit.Degree
	leastBore    = 16.0 // pixels across; where an edge lies is open by about one
	leastScale   = 40.0 // pixels
	flattest     = 0.5  // shortest to longest axis
	mostLean     = 35 * unit.Degree
	mostError    = 0.15 // of the diameter: as much as the growth that is looked for
	apart        = 0.25 // pixels between two marks

	// unknownLean is how far a camera held by hand leans at the most, where
	// nothing in the picture tells it.
	unknownLean = 30 * unit.Degree
)

// ComputePhoto measures the bore from marks on a picture.
//
//	an ellipse through the marks on the bore's rim, one through those on the
//	edge of the object, each with the least squares of the distances from it
//	(ellipse.refined)
//
// A camera that leans by q from square on shortens everything along one way by
// cos q. The object is round, so its ellipse tells q = acos(b/a) and which way
// that is; the bore's ellipse is stretched back by as much (ellipse.unleaned).
// An ellipse has five unknowns: four places on an edge tell neither. With two
// marks, both ends of a width, the lean is not known, and everything that a
// lean of up to 30° can do to the sizes goes into their errors.
//
// The errors are those of a least-squares fit, see photo_error.go. What the
// gauge cannot see: object and bore at different distances from the camera, and
// edges that are not where they look.
//
// It refuses fewer than eight rim marks, marks on less than 200° of an edge,
// marks that lie on no ellipse or on a very flat one, a picture too small to
// mark, a lean over 35°, marks that leave the size open by over 15 %, and a
// bore that no tip has.
func ComputePhoto(in PhotoInput) (PhotoResult, error) {
	scale, err := in.scale()
	if err != nil {
		return PhotoResult{}, err
	}
	e, err := outline("rim", "bore", in.Rim, leastRim)
	if err != nil {
		return PhotoResult{}, err
	}
	if e.b < flattest*e.a {
		return PhotoResult{}, noEllipse("rim", "bore", "the ellipse is only %.0f %% as wide as long", 100*e.b/e.a)
	}
	if 2*e.b < leastBore {
		return PhotoResult{}, problem.Newf(problem.Range, "rim", "the bore is only %.0f pixels across in the picture", 2*e.b).
			WithHint("At least %.0f: come closer with the camera, as near as it still sees sharp.", leastBore)
	}
	res := PhotoResult{Rim: e, Residual: e.residual(in.Rim), Covered: unit.Angle(e.covered(in.Rim)), Pixel: in.Width / unit.Length(2*scale.seen.a),
		Leaned: scale.round, LeanBound: unit.Angle(math.Acos(e.b / e.a))}
	if res.Leaned {
		res.Lean = unit.Angle(math.Round(unit.Value(scale.seen.lean(), "°"))) * unit.Degree // no finer is it told
	}
	res.Worst = e.worst(in.Rim)
	if err := in.measure(&res, scale); err != nil {
		return PhotoResult{}, err
	}
	if in.New > 0 {
		err = in.judge(&res)
	}
	return res, err
}

// judge holds the sizes against the tip's when new.
func (in PhotoInput) judge(res *PhotoResult) error {
	if err := CheckReading(in.New, res.Largest+res.LargestError); err != nil {
		return problem.From(err).WithField("new")
	}
	share := func(l unit.Length) unit.Ratio { return unit.Ratio(l / in.New) }
	res.Growth, res.GrowthError = share(res.Largest)-1, share(res.LargestError)
	res.Judged = in.Limits.judge(
		interval{is: res.Growth, low: res.Growth - res.GrowthError, high: share(res.largestHigh) - 1},
		interval{is: share(res.Out), low: share(res.Out - res.OutError), high: share(res.outHigh)})
	return nil
}
