package life

import "math"

// learner holds the history while a model is made of it, and the room that takes.
type learner struct {
	prior    Prior
	parts    []Part
	failures int // of them
	design   design
	alike    []alike
	sort     []int   // of each part, its place in alike
	arrived  float64 // roughly or closely

	x           []float64 // of each part, x of the cell at hand
	load, tried []float64 // Σ e^(x−ζ) over parts that are alike, at the mode and at a try of it
	try         []float64 // a mode
	slope, step []float64
	root        matrix
}

// alike are parts that belong to the same groups.
type alike struct {
	groups   []int
	failures float64
}

// peak is the posterior within a cell: the mode of z = b·ln e and of what the groups
// add to it. logW is the weight of the cell.
type peak struct {
	lnShape, lnStart float64
	shape, perStart  float64
	logW             float64
	mode             []float64 // z, then one for each group
	root             matrix    // of their curvature, where it was asked for
}

func newLearner(parts []Part, prior Prior) *learner {
	l := &learner{prior: prior, arrived: closely}
	for _, p := range parts {
		if (p.Minutes > 0 || p.Starts > 0) && (p.Slot == "" || p.Slot == prior.Slot) {
			l.parts = append(l.parts, p)
			if p.Failed {
				l.failures++
			}
		}
	}
	var members []member
	if prior.Groups > 0 {
		l.design, members = newDesign(l.parts)
	} else {
		members = make([]member, len(l.parts))
	}
	l.sort = make([]int, len(l.parts))
	places := map[member]int{}
	for i, m := range members {
		at, known := places[m]
		if !known {
			at = len(l.alike)
			places[m] = at
			l.alike = append(l.alike, alike{groups: m.groups()})
		}
		l.sort[i] = at
		if l.parts[i].Failed {
			l.alike[at].failures++
		}
	}
	n := 1 + len(l.design.groups)
	room := make([]float64, len(l.parts)+2*len(l.alike)+3*n)
	take := func(n int) (some []float64) {
		some, room = room[:n:n], room[n:]
		return some
	}
	l.x, l.load, l.tried = take(len(l.parts)), take(len(l.alike)), take(len(l.alike))
	l.try, l.slope, l.step = take(n), take(n), take(n)
	l.root = newMatrix(n)
	return l
}

// row is what all cells of one shape have in common.
type row struct {
	lnShape, shape float64
	a, lnRate      float64 // of the prior's e^−z
	spread, weak   float64 // of groups, and 1/spread²
	whole          float64 // a and the failures
	logW           float64 // what the weights of its cells have in common
}

func (l *learner) row(lnShape float64, before gamma) row {
	b, a, failures := math.Exp(lnShape), before.a, float64(l.failures)
	if l.prior.Fades {
		a *= math.Pow(1+failures, -2)
	}
	r := row{lnShape: lnShape, shape: b, a: a, lnRate: math.Log(a) + b*math.Log(before.mid/l.prior.Scale), spread: b * l.prior.Groups, whole: a + failures}
	lgammaA, _ := math.Lgamma(a)
	lgammaWhole, _ := math.Lgamma(r.whole)
	r.logW = failures*lnShape + a*r.lnRate - lgammaA + 0.5*math.Log(2*math.Pi) +
		lgammaWhole - (r.whole*math.Log(r.whole) - r.whole + 0.5*math.Log(2*math.Pi/r.whole)) +
		logNormal(lnShape, l.prior.Shape, l.prior.ShapeSpread)
	if groups := len(l.design.groups); groups > 0 {
		r.weak = 1 / (r.spread * r.spread)
		r.logW -= float64(groups) * math.Log(r.spread)
	}
	return r
}

// column is what all cells of one worth of a start have in common.
type column struct {
	lnStart, perStart float64
	lnUse             []float64 // of each part, held against the prior's scale
	failed            float64   // Σ lnUse of those that failed
	logW              float64
}

// column makes use of that room.
func (l *learner) column(lnStart float64, lnUse []float64) column {
	c := column{lnStart: lnStart, perStart: math.Exp(lnStart), lnUse: lnUse, logW: logNormal(lnStart, l.prior.PerStart, l.prior.PerStartSpread)}
	if l.prior.PerStart == 0 {
		c.perStart = 0
	}
	for i, part := range l.parts {
		c.lnUse[i] = math.Log(part.Equivalent(c.perStart) / l.prior.Scale)
		if part.Failed {
			c.failed += c.lnUse[i]
		}
	}
	return c
}

// logNormal is the logarithm of a prior's density, but for a constant.
func logNormal(ln, median, spread float64) float64 {
	if spread == 0 || median == 0 {
		return 0
	}
	z := (ln - math.Log(median)) / spread
	return -0.5 * z * z
}

// at returns the posterior of one shape and one worth of a start. A part that failed
// counts with the density of the logarithm of its life: on a straight path of
// minutes and starts that is the density in either, times what does not depend on
// the worth of a start (Oakes, Lifetime Data Analysis 1, 7–18, 1995). With x = b·ln
// use and ζ = z + Σ g over its groups
//
//	ln p = Σ d(ln b + x − ζ) − Σ e^(x−ζ) − a·z − B·e^−z − Σ g²/(2 b²τ²) + …
//
// is concave in z and g. Its peak is found by Newton's steps from that mode, and the
// integral taken there by Laplace's method, which is exact for no groups but for a
// factor that is put right. The curvature is left in l.root.
func (l *learner) at(r *row, c *column, mode []float64) peak {
	for i, ln := range c.lnUse {
		l.x[i] = r.shape * ln
	}
	height := l.climb(mode, r, l.level(mode, r))
	return peak{lnShape: r.lnShape, lnStart: c.lnStart, shape: r.shape, perStart: c.perStart, mode: mode,
		logW: height + r.shape*c.failed - 0.5*l.root.logDet() + r.logW + c.logW}
}

// level sets z to where it is most likely for what the groups add, fills in the loads
// there and returns that of the prior, B·e^−z.
func (l *learner) level(mode []float64, r *row) float64 {
	for k, sort := range l.alike {
		l.tried[k] = 0
		for _, g := range sort.groups {
			l.tried[k] += mode[g]
		}
	}
	top := r.lnRate
	for i, k := range l.sort {
		top = max(top, l.x[i]-l.tried[k])
	}
	first := math.Exp(r.lnRate - top)
	sum := first
	clear(l.load)
	for i, k := range l.sort {
		load := math.Exp(l.x[i] - l.tried[k] - top)
		l.load[k] += load
		sum += load
	}
	mode[0] = top + math.Log(sum) - math.Log(r.whole)
	for k := range l.load {
		l.load[k] *= r.whole / sum
	}
	return first * r.whole / sum
}

// loads fills in the loads at a mode and returns that of the prior.
func (l *learner) loads(mode []float64, r *row) float64 {
	for k, sort := range l.alike {
		l.tried[k] = mode[0]
		for _, g := range sort.groups {
			l.tried[k] += mode[g]
		}
	}
	clear(l.load)
	for i, k := range l.sort {
		l.load[k] += math.Exp(l.x[i] - l.tried[k])
	}
	return math.Exp(r.lnRate - mode[0])
}

// along returns z + Σ of so much of each g, and its variance.
func (p peak) along(weights []float64) (zeta, variance float64) {
	zeta = p.mode[0]
	sum := make([]float64, len(p.mode))
	sum[0] = 1
	for k, w := range weights {
		zeta += w * p.mode[k+1]
		sum[k+1] = w
	}
	return zeta, p.root.variance(sum)
}

const (
	// roughly and closely are how close to the peak Newton's steps end, as twice what is
	// left of its height; the last step squares that.
	roughly, closely = 1e-5, 1e-7
	// far is how far loads are carried along before they are reckoned anew from the parts,
	// lest one that has come to nothing is missed.
	far = 100
)

// climb takes a mode, of these loads, to the peak, leaves the root of the curvature in
// l.root and returns the height.
func (l *learner) climb(mode []float64, r *row, first float64) float64 {
	gone := 0.0
	height := l.height(mode, l.load, first, r)
	for range 60 {
		l.bend(mode, first, r)
		l.root.cholesky()
		copy(l.step, l.slope)
		l.root.solve(l.step)
		gain, size := 0.0, 0.0
		for k, s := range l.step {
			gain += s * l.slope[k]
			size += math.Abs(s)
		}
		if gain < l.arrived {
			for k, s := range l.step {
				mode[k] += s
			}
			return height + gain/2
		}
		moved := false
		for share := 1.0; share > 1e-9 && !moved; share /= 2 {
			shrunk := l.carry(share)
			for k, s := range l.step {
				l.try[k] = mode[k] + share*s
			}
			to := l.height(l.try, l.tried, first*shrunk, r)
			if moved = to > height; moved {
				height, first = to, first*shrunk
				copy(mode, l.try)
				l.load, l.tried = l.tried, l.load
				if gone += share * size; gone > far {
					gone, first = 0, l.loads(mode, r)
				}
			}
		}
		if !moved {
			break
		}
	}
	return height
}

// carry fills in the loads that so much of the step leaves, and returns what it leaves
// of the prior's.
func (l *learner) carry(share float64) float64 {
	for k, s := range l.step {
		l.try[k] = math.Exp(-share * s)
	}
	for k, sort := range l.alike {
		left := l.try[0]
		for _, g := range sort.groups {
			left *= l.try[g]
		}
		l.tried[k] = left * l.load[k]
	}
	return l.try[0]
}

// height returns ln p at a mode of these loads, but for what does not depend on it.
func (l *learner) height(mode, loads []float64, first float64, r *row) float64 {
	sum := -r.a*mode[0] - first
	for _, g := range mode[1:] {
		sum -= 0.5 * g * g * r.weak
	}
	for k, sort := range l.alike {
		sum -= loads[k]
		if sort.failures > 0 {
			zeta := mode[0]
			for _, g := range sort.groups {
				zeta += mode[g]
			}
			sum -= sort.failures * zeta
		}
	}
	return sum
}

// bend fills in slope and curvature of ln p at a mode of these loads.
func (l *learner) bend(mode []float64, first float64, r *row) {
	h, slope := l.root, l.slope
	clear(h)
	h.row(0)[0] = first
	slope[0] = first - r.a
	for k := 1; k < len(mode); k++ {
		h.row(k)[k], slope[k] = r.weak, -mode[k]*r.weak
	}
	for k, sort := range l.alike {
		load := l.load[k]
		over := load - sort.failures
		slope[0] += over
		h[0] += load
		for j, g := range sort.groups {
			slope[g] += over
			row := h.row(g)
			row[0] += load
			for _, m := range sort.groups[:j+1] {
				row[m] += load
			}
		}
	}
}
