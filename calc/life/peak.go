package life

import (
	"math"
	"slices"

	"kerfside/calc/order"
)

// learner holds the history while a model is made of it.
type learner struct {
	prior    Prior
	parts    []Part
	failures int // of them
	design   design
}

// peak is the posterior within a cell: the mode of z = b·ln e and of what the groups
// add to it, and their covariance. logW is the weight of the cell.
type peak struct {
	shape, perStart float64
	logW            float64
	mode            []float64   // z, then one for each group
	cov             [][]float64 // of these, once the cell is kept
	root            matrix      // of their curvature
}

func newLearner(parts []Part, prior Prior) *learner {
	l := &learner{prior: prior}
	for _, p := range parts {
		if (p.Minutes > 0 || p.Starts > 0) && (p.Slot == "" || p.Slot == prior.Slot) {
			l.parts = append(l.parts, p)
			if p.Failed {
				l.failures++
			}
		}
	}
	if prior.Groups > 0 {
		l.design = newDesign(l.parts)
	} else {
		l.design = design{only: make([]string, len(factors)), member: make([][]int, len(l.parts))}
	}
	return l
}

// at returns the posterior of one shape and one worth of a start. A part that failed
// counts with the density of the logarithm of its life: on a straight path of
// minutes and starts that is the density in either, times what does not depend on
// the worth of a start (Oakes, Lifetime Data Analysis 1, 7–18, 1995). With x = b·ln
// use and ζ = z + Σ g over its groups
//
//	ln p = Σ d(ln b + x − ζ) − Σ e^(x−ζ) − a·z − B·e^−z − Σ g²/(2 b²τ²) + …
//
// is concave in z and g. Its peak is found by Newton's steps, and the integral
// taken there by Laplace's method, which is exact for no groups but for a factor
// that is put right.
func (l *learner) at(lnShape, lnStart float64, before gamma, from []float64) peak {
	b, c := math.Exp(lnShape), math.Exp(lnStart)
	if l.prior.PerStart == 0 {
		c = 0
	}
	a := before.a
	if l.prior.Fades {
		a *= math.Pow(1+float64(l.failures), -2)
	}
	n := 1 + len(l.design.groups)
	p := peak{shape: b, perStart: c, mode: make([]float64, n)}
	x := make([]float64, len(l.parts))
	sum := 0.0
	for i, part := range l.parts {
		x[i] = b * math.Log(part.Equivalent(c)/l.prior.Scale)
		if part.Failed {
			sum += math.Log(b) + x[i]
		}
	}
	failures := float64(l.failures)
	rate := a * math.Pow(before.mid/l.prior.Scale, b)
	lgammaA, _ := math.Lgamma(a)
	spread := b * l.prior.Groups
	if n > 1 {
		sum -= float64(n-1) * math.Log(spread)
	}
	copy(p.mode, from)
	p.mode[0] = l.level(p.mode, x, math.Log(rate)) - math.Log(a+failures)
	h := newMatrix(n)
	value := l.climb(&p, h, x, a, rate, spread)
	logDet := h.cholesky()
	p.root = h
	whole := a + failures
	lgammaWhole, _ := math.Lgamma(whole)
	p.logW = value + sum + a*math.Log(rate) - lgammaA + 0.5*math.Log(2*math.Pi) - 0.5*logDet +
		lgammaWhole - (whole*math.Log(whole) - whole + 0.5*math.Log(2*math.Pi/whole)) +
		logNormal(lnShape, l.prior.Shape, l.prior.ShapeSpread) + logNormal(lnStart, l.prior.PerStart, l.prior.PerStartSpread)
	return p
}

// logNormal is the logarithm of a prior's density, but for a constant.
func logNormal(ln, median, spread float64) float64 {
	if spread == 0 || median == 0 {
		return 0
	}
	z := (ln - math.Log(median)) / spread
	return -0.5 * z * z
}

// level is ln(B + Σ e^x/e^g), the level z of the prior and all parts where the groups
// add what they do at that point.
func (l *learner) level(at, x []float64, lnRate float64) float64 {
	each := append(make([]float64, 0, 1+len(x)), lnRate)
	for i, x := range x {
		for _, k := range l.design.member[i] {
			x -= at[k+1]
		}
		each = append(each, x)
	}
	top, sum := slices.Max(each), 0.0
	for _, x := range each {
		sum += math.Exp(x - top)
	}
	return top + math.Log(sum)
}

// along returns z + Σ of so much of each g, and its variance.
func (p peak) along(weights []float64) (zeta, variance float64) {
	zeta, variance = p.mode[0], p.cov[0][0]
	for k, x := range weights {
		if x == 0 {
			continue
		}
		zeta += x * p.mode[k+1]
		variance += 2 * x * p.cov[0][k+1]
		for j, y := range weights {
			variance += x * y * p.cov[k+1][j+1]
		}
	}
	return zeta, variance
}

// arrived is how close to the peak Newton's steps end, as twice what is left of its height;
// the last step squares that.
const arrived = 1e-7

// climb takes p.mode to the peak, leaves the curvature there in h and returns the
// height.
func (l *learner) climb(p *peak, h matrix, x []float64, a, rate, spread float64) float64 {
	n := len(p.mode)
	slope, step := make([]float64, n), make([]float64, n)
	try, factored := make([]float64, n), newMatrix(n)
	height := l.height(p.mode, slope, h, x, a, rate, spread)
	for range 60 {
		copy(step, slope)
		factored.copy(h)
		factored.cholesky()
		factored.solve(step)
		gain := 0.0
		for k := range step {
			gain += step[k] * slope[k]
		}
		moved := false
		for share := 1.0; share > 1e-9 && !moved; share /= 2 {
			for k := range try {
				try[k] = p.mode[k] + share*step[k]
			}
			to := l.height(try, slope, h, x, a, rate, spread)
			if moved = to > height || gain < arrived && share == 1; moved {
				height = to
				copy(p.mode, try)
			}
		}
		if !moved {
			return l.height(p.mode, slope, h, x, a, rate, spread)
		}
		if gain < arrived {
			break
		}
	}
	return height
}

// height returns ln p at a point but for what does not depend on it, and
// fills in slope and curvature there.
func (l *learner) height(at, slope []float64, h matrix, x []float64, a, rate, spread float64) float64 {
	first := rate * math.Exp(-at[0])
	sum := -a*at[0] - first
	weak := 0.0
	if spread > 0 {
		weak = 1 / (spread * spread)
	}
	for _, g := range at[1:] {
		sum -= 0.5 * g * g * weak
	}
	h.clear()
	h[0][0] = first
	slope[0] = first - a
	for k := 1; k < len(at); k++ {
		h[k][k], slope[k] = weak, -at[k]*weak
	}
	for i, part := range l.parts {
		member := l.design.member[i]
		zeta := at[0]
		for _, k := range member {
			zeta += at[k+1]
		}
		load := math.Exp(x[i] - zeta)
		sum -= load
		over := load
		if part.Failed {
			sum -= zeta
			over--
		}
		slope[0] += over
		h[0][0] += load
		for j, k := range member {
			slope[k+1] += over
			h[k+1][0] += load
			for _, m := range member[:j+1] {
				h[k+1][m+1] += load
			}
		}
	}
	return sum
}

// axis is one of the two that cells lie on, as logarithms. It never goes past least
// and most: lives that are all alike, as rounded ones may be, would take the shape
// further than any part deserves.
type axis struct{ low, high, least, most float64 }

func newAxis(median, spread, most float64) axis {
	if median == 0 || spread == 0 {
		at := math.Log(max(median, 1e-300))
		return axis{low: at, high: at}
	}
	at := math.Log(median)
	return axis{low: at - 4*spread, high: at + 4*spread, least: at - most, most: at + most}
}

func (a axis) nodes(n int) []float64 {
	if a.low == a.high {
		return []float64{a.low}
	}
	list := make([]float64, n)
	for i := range list {
		list[i] = a.low + (a.high-a.low)*float64(i)/float64(n-1)
	}
	return list
}

const (
	coarse     = 7 // nodes of an axis while looking
	fineShape  = 9
	fineStart  = 7
	negligible = 7 // a cell with e^−7 of the greatest weight tells nothing
)

// peaks returns the cells that matter, their logW turned so that the weights make 1.
// The grid is laid anew around what matters until that fills it.
func (l *learner) peaks() []peak {
	shape, start := newAxis(l.prior.Shape, l.prior.ShapeSpread, 3.5), newAxis(l.prior.PerStart, l.prior.PerStartSpread, 6)
	for range 12 {
		grid := l.lay(shape.nodes(coarse), start.nodes(coarse))
		shapeTo, full1 := shape.narrow(grid, func(p peak) float64 { return math.Log(p.shape) })
		startTo, full2 := start.narrow(grid, func(p peak) float64 { return math.Log(p.perStart) })
		shape, start = shapeTo, startTo
		if full1 && full2 {
			break
		}
	}
	list := l.lay(shape.nodes(fineShape), start.nodes(fineStart))
	order.Sort(list, func(a, b peak) int { return sign(b.logW - a.logW) })
	total, kept := 0.0, 0
	for _, p := range list {
		if p.logW < list[0].logW-negligible {
			break
		}
		total += math.Exp(p.logW - list[0].logW)
		kept++
	}
	list = list[:kept]
	top := list[0].logW + math.Log(total)
	for i := range list {
		list[i].logW -= top
		list[i].cov, list[i].root = list[i].root.inverse(), nil
	}
	return list
}

func sign(x float64) int {
	switch {
	case x < 0:
		return -1
	case x > 0:
		return 1
	}
	return 0
}

func (l *learner) lay(shapes, starts []float64) []peak {
	var list []peak
	for _, b := range shapes {
		var from []float64
		before := l.prior.quickRate(math.Exp(b))
		if len(shapes) == 1 {
			before = l.prior.rate(math.Exp(b))
		}
		for _, c := range starts {
			p := l.at(b, c, before, from)
			from = p.mode
			list = append(list, p)
		}
	}
	return list
}

// narrow returns the axis around the cells that matter, and whether those fill it.
func (a axis) narrow(grid []peak, of func(peak) float64) (axis, bool) {
	if a.low == a.high {
		return a, true
	}
	top := math.Inf(-1)
	for _, p := range grid {
		top = max(top, p.logW)
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range grid {
		if p.logW >= top-negligible {
			low, high = min(low, of(p)), max(high, of(p))
		}
	}
	step := (a.high - a.low) / (coarse - 1)
	full := (low > a.low+step/2 || low <= a.least) && (high < a.high-step/2 || high >= a.most) && high-low > 3.5*step
	a.low, a.high = max(low-step, a.least), min(high+step, a.most)
	return a, full
}
