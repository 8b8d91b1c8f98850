package wear

import (
	"fmt"
	"math"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// outline puts an ellipse through the marks on the edge of a thing. Field is
// the one to blame.
func outline(field, thing string, marks []spot, least int) (ellipse, error) {
	if len(marks) < least {
		return ellipse{}, problem.Newf(problem.Missing, field, "the edge of the %s has %s", thing, unit.Count(len(marks), "mark", "marks")).WithHint("Mark at least %d, all around.", least)
	}
	for i, a := range marks {
		for j, b := range marks[:i] {
			if gap(a, b) < apart {
				return ellipse{}, problem.Newf(problem.Conflict, field, "marks %d and %d are the same place", j+1, i+1).WithHint("Move one of them to a place of its own on the edge.")
			}
		}
	}
	first, ok := fitEllipse(marks)
	if !ok {
		return ellipse{}, noEllipse(field, thing, "the marks lie on no ellipse")
	}
	if covered := unit.Angle(first.covered(marks)); covered < leastCovered {
		return ellipse{}, problem.Newf(problem.Refused, field, "the marks cover only %s of the edge of the %s", unit.In(covered, "°"), thing).
			WithHint("Mark it all around, over %s at the least.", unit.In(leastCovered, "°"))
	}
	e, ok := first.refined(marks)
	if !ok || math.Abs(e.a-first.a) > mostError*first.a {
		return ellipse{}, noEllipse(field, thing, "the marks do not settle on one ellipse")
	}
	return e, nil
}

func noEllipse(field, thing, format string, args ...any) error {
	return problem.Newf(problem.Refused, field, "%s", fmt.Sprintf(format, args...)).
		WithHint("Mark the edge of the %s itself, all around, and nothing beside it.", thing)
}

func gap(a, b spot) float64 { return math.Hypot(a.x-b.x, a.y-b.y) }

// worst returns the number of the mark that is furthest off, from 1.
func (e ellipse) worst(points []spot) int {
	which, far := 0, -1.0
	for i, p := range points {
		if _, d := e.foot(e.own(p)); math.Abs(d) > far {
			which, far = i+1, math.Abs(d)
		}
	}
	return which
}

// lean is how far from square on something round is seen that looks like e.
func (e ellipse) lean() unit.Angle { return unit.Angle(math.Acos(e.b / e.a)) }

// yardstick is the object beside the tip, in the picture.
type yardstick struct {
	seen  ellipse // its outline; a circle as wide as two marks are apart
	round bool    // the outline was marked, so that it tells the lean
}

// scale returns what the marks on the object tell.
func (in PhotoInput) scale() (yardstick, error) {
	n := len(in.Scale)
	var y yardstick
	switch {
	case n == 2:
		d := gap(in.Scale[0], in.Scale[1])
		y.seen = newEllipse(0, 0, d/2, d/2, 0)
	case n < 5:
		return y, problem.Newf(problem.Missing, "scale", "the scale has %s", unit.Count(n, "mark", "marks")).
			WithHint("Mark something round at six places, all around. Or mark both ends of a width: two marks.")
	default:
		e, err := outline("scale", "object", in.Scale, 5)
		if err != nil {
			return y, err
		}
		y = yardstick{e, true}
	}
	if short := 2 * y.seen.b; short < leastScale {
		return y, problem.Newf(problem.Range, "scale", "the object is only %.0f pixels across in the picture", short).
			WithHint("At least %.0f, better some hundreds: come closer with the camera.", leastScale)
	}
	if lean := y.seen.lean(); lean > mostLean {
		return y, problem.Newf(problem.Refused, "scale", "the camera leans by %.0f°", unit.Value(lean, "°")).
			WithHint("Hold it straight above, within %s, and take another picture.", unit.In(mostLean, "°"))
	}
	return y, nil
}
