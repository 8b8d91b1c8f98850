package wear

import (
	"math"

	"kerfside/calc/chance"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// How the errors come about (JCGM 100:2008, 5.1.2, with what follows).
//
// A fit tells the ellipse's stretches along its axes and its shear, and their
// covariance s²·(XᵀX)⁻¹, which grows by itself where the marks leave a gap
// (ellipse.pulls). s is the scatter of the marks over n − 5, at least what
// PhotoInput.Mark says. Both ellipses' strains reach the bore's size through
// ellipse.unleaned, whose derivatives are taken by differences. To them comes
// the object's width.
//
// Half of the width of an interval is t·s·√h with Student's t for n − 5. That
// alone would hold the largest diameter of a round bore in 92 of 100 pictures,
// and its ovality in 86: which way is the largest is told by the same marks, so
// scatter only ever makes it larger, the smallest smaller, and the bore more
// oval. How oval a bore is and which way are two unknowns, whose joint interval
// takes the F distribution with 2 and n − 5: √(2·F) for t, where the marks do
// not tell the bore from a round one.
//
// What no marks tell is added in full. A camera that leans sees bore and object
// at different distances, by what lies between them along the lean; which of
// them is nearer, and by which share, is open (ComputePhoto's lean tells only
// how much). With two marks on the object the lean itself is.

// nearestCamera is from how near a phone still sees sharp. The authors' judgement.
const nearestCamera = 100 * unit.Millimetre

// reach is how far off a mark is: s by one standard deviation, one in all but
// few pictures, and two as one of two unknowns that are told together.
type reach struct{ s, one, two float64 }

// bothSides and oneSide are the chances of an interval's ends that leave out
// 5 in 100, on both sides together or on one.
const bothSides, oneSide = 0.975, 0.95

// reachOf is t·s and √(2·F)·s, at least what a mark is off by, where the scatter
// s has so many degrees of freedom. F's quantile with two in the numerator is
// free/2·(0.05^(−2/free) − 1). To one side there is no second unknown: scatter
// makes a bore look more oval, never less.
func (in PhotoInput) reachOf(s, free, p float64) reach {
	off := reach{s: max(s, in.Mark), one: max(chance.StudentQuantile(p, free)*s, chance.NormalQuantile(p)*in.Mark)}
	off.two = off.one
	if p == bothSides {
		off.two = max(math.Sqrt(free*(math.Pow(0.05, -2/free)-1))*s, math.Sqrt(-2*math.Log(0.05))*in.Mark)
	}
	return off
}

// tensor is a symmetric 2 × 2 matrix (p q / q r).
type tensor struct{ p, q, r float64 }

// axes are the square roots of its eigenvalues and the first one's direction.
func (t tensor) axes() (a, b, turn float64) {
	mean, half := (t.p+t.r)/2, math.Hypot((t.p-t.r)/2, t.q)
	return math.Sqrt(mean + half), math.Sqrt(max(mean-half, 0)), math.Atan2(2*t.q, t.p-t.r) / 2
}

// across is v·T·w for the unit vectors in those directions.
func (t tensor) across(v, w float64) float64 {
	sv, cv := math.Sincos(v)
	sw, cw := math.Sincos(w)
	return cv*(t.p*cw+t.q*sw) + sv*(t.q*cw+t.r*sw)
}

// unleaned is the shape of e as it is seen square on, when c is something round
// seen by the same camera, with c's radius for the unit: N·E·N with
// N = R·diag(1/a, 1/b)·Rᵀ of c and E, whose eigenvalues are the squares of e's
// semi-axes. It turns with neither of them, so that it is smooth where c is a
// circle.
func (e ellipse) unleaned(c ellipse) tensor {
	m := newTensor(e.a*e.a, e.b*e.b, e.turn)
	n := newTensor(1/c.a, 1/c.b, c.turn)
	u, v, w, x := n.p*m.p+n.q*m.q, n.p*m.q+n.q*m.r, n.q*m.p+n.r*m.q, n.q*m.q+n.r*m.r
	return tensor{p: u*n.p + v*n.q, q: u*n.q + v*n.r, r: w*n.q + x*n.r}
}

// newTensor has the eigenvalue k in the direction turn and l across.
func newTensor(k, l, turn float64) tensor {
	sin, cos := math.Sincos(turn)
	return tensor{p: k*cos*cos + l*sin*sin, q: (k - l) * sin * cos, r: k*sin*sin + l*cos*cos}
}

// strained is the ellipse stretched by k along its axes and sheared.
func (e ellipse) strained(i int, k float64) ellipse {
	move := make([]float64, 5)
	move[2+i] = k
	return e.moved(move)
}

// bands are what is open about the semi-axes and their difference, in units of
// the object's radius; sigma is the standard deviation of the difference.
type bands struct{ a, b, out, sigma float64 }

// together is by how much a sum of a normal error and of one that only ever adds
// is wider at 95 % than the root of their squares, for marks all around: 1.01 to
// 1.03 by drawing 400,000 of them, the more the more marks.
const together = 1.03

// spreads is what the marks of one ellipse leave open: inner is of its fit,
// reach how far off its marks are in 95 of 100, slopes how its strains reach
// the bore.
func (t tensor) spreads(inner [][]float64, off reach, slopes [3]tensor) bands {
	a, b, turn := t.axes()
	var ga, gb, gd, gw [3]float64 // of the axes, of their difference, and across, by the strains
	for i, d := range slopes {
		ga[i], gb[i] = d.across(turn, turn)/(2*a), d.across(turn+math.Pi/2, turn+math.Pi/2)/(2*b)
		gd[i], gw[i] = ga[i]-gb[i], d.across(turn, turn+math.Pi/2)/(a+b)*2
	}
	oval := max(open(inner, gd), open(inner, gw))
	out, more := off.one*oval, 0.0
	if a-b <= off.two*oval { // as far as the marks tell, it is round
		out = off.two * oval
	}
	if a-b <= 2*off.two*oval {
		more = (off.two*off.two - off.one*off.one) * oval * oval / 4
	}
	axis := func(g [3]float64) float64 {
		h := off.one * open(inner, g)
		if more > 0 {
			return together * math.Sqrt(h*h+more)
		}
		return h
	}
	return bands{a: axis(ga), b: axis(gb), out: out, sigma: off.s * oval}
}

// open is √(g·V·g) with V the strains' part of a fit's (XᵀX)⁻¹.
func open(inner [][]float64, g [3]float64) float64 {
	v := 0.0
	for i := range 3 {
		for j := range 3 {
			v += g[i] * inner[2+i][2+j] * g[j]
		}
	}
	return math.Sqrt(max(v, 0))
}

// slopes are the derivatives of the bore's shape by the strains of one ellipse.
func slopes(shape func(i int, k float64) tensor) (list [3]tensor) {
	const h = 1e-4
	for i := range list {
		more, less := shape(i, h), shape(i, -h)
		list[i] = tensor{p: (more.p - less.p) / (2 * h), q: (more.q - less.q) / (2 * h), r: (more.r - less.r) / (2 * h)}
	}
	return list
}

// measure fills in the sizes and their errors.
func (in PhotoInput) measure(res *PhotoResult, y yardstick) error {
	radius := in.Width / 2
	shape := res.Rim.unleaned(y.seen)
	a, b, _ := shape.axes()
	res.Largest, res.Smallest, res.Out = unit.Length(2*a)*radius, unit.Length(2*b)*radius, unit.Length(2*(a-b))*radius
	if least, most := 0.3*unit.Millimetre, 10*unit.Millimetre; res.Largest < least || res.Largest > most {
		return problem.Newf(problem.Conflict, "width", "the bore comes out %s wide, and no hand torch's tip has such a one", bothUnits(res.Largest)).
			WithHint("From %s to %s. Check what lies beside the tip and where it is marked.", bothUnits(least), bothUnits(most))
	}
	both, err := in.marksLeave(res, y, shape, bothSides)
	if err != nil {
		return err
	}
	if share := max(both.rim.a/a, both.rim.b/b); share > mostError {
		return in.tooOpen(res, share)
	}
	if share := max(both.scale.a/a, both.scale.b/b); share > mostError {
		return problem.Newf(problem.Refused, "scale", "the marks on the object leave the size open by %.0f %%", 100*share).
			WithHint("It is only %.0f pixels across in the picture. Come closer, and mark its edge where it is sharp.", 2*y.seen.a)
	}
	one, _ := in.marksLeave(res, y, shape, oneSide)
	lean := in.leanLeaves(res.Rim, y, bands{a: a, b: b, out: a - b})
	width := float64(in.WidthError / in.Width)
	size := func(rim, scale, lean, by float64) unit.Length {
		return unit.Length(2*(math.Hypot(math.Hypot(rim, scale), by*width)+lean)) * radius
	}
	res.LargestError, res.SmallestError = size(both.rim.a, both.scale.a, lean.a, a), size(both.rim.b, both.scale.b, lean.b, b)
	res.OutError = size(both.rim.out, both.scale.out, lean.out, a-b)
	res.largestHigh = res.Largest + size(one.rim.a, one.scale.a, lean.a, a)
	// Scatter across makes the difference larger by about σ²/2 of it.
	fair := unit.Length(2*math.Sqrt(max((a-b)*(a-b)-one.rim.sigma*one.rim.sigma, 0))) * radius
	res.outHigh = fair + size(one.rim.out, one.scale.out, lean.out, a-b)
	res.byLean = lean.a > both.rim.a
	return nil
}

// left is what the marks on the rim and those on the object leave open.
type left struct{ rim, scale bands }

// marksLeave looks at both fits; p is bothSides or oneSide.
func (in PhotoInput) marksLeave(res *PhotoResult, y yardstick, shape tensor, p float64) (left, error) {
	e, scatter, free := res.Rim, res.Residual, float64(len(in.Rim)-5)
	columns, d := e.pulls(in.Rim)
	fitted, ok := fit(columns, d)
	if !ok {
		return left{}, noEllipse("rim", "bore", "the marks do not settle on one ellipse")
	}
	off := in.reachOf(scatter, free, p)
	rim := shape.spreads(fitted.inner, off, slopes(func(i int, k float64) tensor { return e.strained(i, k).unleaned(y.seen) }))
	if !y.round { // two marks, each as far off as those on the rim
		a, b, _ := shape.axes()
		share := math.Sqrt2 * off.one / (2 * y.seen.a)
		return left{rim, bands{a: a * share, b: b * share, out: (a - b) * share}}, nil
	}
	columns, d = y.seen.pulls(in.Scale)
	if fitted, ok = fit(columns, d); !ok {
		return left{}, noEllipse("scale", "object", "the marks do not settle on one ellipse")
	}
	// So few marks hardly tell their own scatter: that of the rim's counts with it.
	own, more := y.seen.residual(in.Scale), float64(len(in.Scale)-5)
	off = in.reachOf(math.Sqrt((own*own*more+scatter*scatter*free)/(more+free)), more+free, p)
	return left{rim, shape.spreads(fitted.inner, off, slopes(func(i int, k float64) tensor { return e.unleaned(y.seen.strained(i, k)) }))}, nil
}

// leanLeaves is what the lean leaves open beyond what the object's edge tells.
// With two marks that is all: they are a way across any ellipse that something
// round may look like, up to unknownLean.
func (in PhotoInput) leanLeaves(e ellipse, y yardstick, is bands) (off bands) {
	if y.round {
		return is.farther(in, e, y.seen)
	}
	one, other := in.Scale[0], in.Scale[1]
	way := math.Atan2(other.y-one.y, other.x-one.x)
	cos := math.Cos(float64(unknownLean))
	const ways = 36
	for i := range ways {
		turn := math.Pi * float64(i) / ways
		sin, along := math.Sincos(way - turn)
		long := y.seen.a * math.Hypot(along, sin/cos) // the ellipse that has the marks' distance along that way
		seen := newEllipse((one.x+other.x)/2, (one.y+other.y)/2, long, long*cos, turn)
		a, b, _ := e.unleaned(seen).axes()
		more := bands{a: a, b: b, out: a - b}.farther(in, e, seen)
		off = bands{a: max(off.a, math.Abs(a-is.a)+more.a), b: max(off.b, math.Abs(b-is.b)+more.b), out: max(off.out, math.Abs(a-b-is.out)+more.out)}
	}
	return off
}

// farther is how wrong the sizes may be because the lean that c shows puts bore
// and object at different distances from the camera: by the share of the
// distance; along the lean, which shortens what is farther once more, by twice
// that; and askew by as much where they lie beside each other across it.
func (is bands) farther(in PhotoInput, e, c ellipse) bands {
	between := math.Hypot(e.x-c.x, e.y-c.y) / c.b * float64(in.Width/2)
	share := between * math.Sin(float64(c.lean())) / float64(nearestCamera)
	share /= 1 - min(share, 0.5)
	return bands{a: is.a * 2 * share, b: is.b * 2 * share, out: is.out*share + is.a*share}
}

// tooOpen says why the marks on the rim leave the size open by that share, and
// what would help most.
func (in PhotoInput) tooOpen(res *PhotoResult, share float64) error {
	p := problem.Newf(problem.Refused, "rim", "the marks on the rim leave the size open by %.0f %%", 100*share)
	n := len(in.Rim)
	rest := append(append([]spot(nil), in.Rim[:res.Worst-1]...), in.Rim[res.Worst:]...)
	if e, err := outline("rim", "bore", rest, leastRim-1); err == nil {
		// One of n marks lies so far off by scatter alone in one picture of a hundred.
		far := 1.5 * chance.StudentQuantile(1-0.005/float64(n), float64(n-6)) * max(e.residual(rest), in.Mark)
		if _, off := e.foot(e.own(in.Rim[res.Worst-1])); math.Abs(off) > far {
			return p.WithHint("Mark %d lies %.0f pixels beside the ellipse of the others: move it onto the edge.", res.Worst, math.Abs(off))
		}
	}
	const many = 16
	now, then := chance.StudentQuantile(0.975, float64(n-5)), chance.StudentQuantile(0.975, many-5)
	switch gap := 2*math.Pi - float64(res.Covered); {
	case gap > math.Pi/2:
		return p.WithHint("Mark the part of the rim that has no mark yet, %.0f° of it.", unit.Value(unit.Angle(gap), "°"))
	case n < many && share*then/now*math.Sqrt(float64(n)/many) <= mostError:
		return p.WithHint("Mark more places on the rim: %d are few for marks that scatter by %.2g pixels.", n, res.Residual)
	}
	return p.WithHint("The marks scatter by %.2g pixels, and the bore is only %.0f across. Come as close as the camera still sees sharp.", res.Residual, 2*res.Rim.a)
}
