package life

import (
	"cmp"
	"math"
	"slices"

	"kerfside/calc/order"
)

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
	best := peak{lnShape: (shape.low + shape.high) / 2, lnStart: (start.low + start.high) / 2, shape: 1, mode: make([]float64, 1+len(l.design.groups))}
	for range 12 {
		grid := l.lay(shape.nodes(coarse), start.nodes(coarse), best, false)
		best = grid[0]
		shapeTo, full1 := shape.narrow(grid, func(p peak) float64 { return p.lnShape })
		startTo, full2 := start.narrow(grid, func(p peak) float64 { return p.lnStart })
		shape, start = shapeTo, startTo
		if full1 && full2 {
			break
		}
	}
	list := l.lay(shape.nodes(fineShape), start.nodes(fineStart), best, true)
	total := 0.0
	for _, p := range list {
		total += math.Exp(p.logW - list[0].logW)
	}
	top := list[0].logW + math.Log(total)
	for i := range list {
		list[i].logW -= top
	}
	return list
}

// lay returns the cells that matter of a grid, the greatest weight first. It begins with
// one of each shape, for there may be two peaks of it, and goes on from cell to cell,
// past none that does not matter.
func (l *learner) lay(shapes, starts []float64, best peak, roots bool) []peak {
	g := grid{learner: l, roots: roots, shapes: shapes, starts: starts, cells: make([]peak, len(shapes)*len(starts)), rows: make([]row, len(shapes)), columns: make([]column, len(starts)), passed: make([]bool, len(shapes)*len(starts))}
	for i := range g.cells {
		g.cells[i].logW = math.Inf(-1)
	}
	column := nearest(starts, best.lnStart)
	for i := range shapes {
		g.reach(i*len(starts)+column, best, best)
	}
	for at := g.next(); at >= 0; at = g.next() {
		g.passed[at] = true
		i, j := at/len(starts), at%len(starts)
		for down := -1; down <= 1; down++ {
			for right := -1; right <= 1; right++ {
				g.step(i, j, down, right)
			}
		}
	}
	order.Sort(g.cells, func(a, b peak) int { return cmp.Compare(b.logW, a.logW) })
	kept := 0
	for kept < len(g.cells) && g.cells[kept].logW >= g.cells[0].logW-negligible {
		kept++
	}
	return g.cells[:kept:kept]
}

// grid is a grid while it is laid.
type grid struct {
	*learner
	roots          bool
	shapes, starts []float64
	rows           []row
	columns        []column
	cells          []peak // by shape, then start; one not come to has no mode
	passed         []bool // its neighbours are known
}

// next returns the best cell whose neighbours are not known yet; −1 if none of them
// matters.
func (g *grid) next() int {
	top, best := math.Inf(-1), -1
	for i, p := range g.cells {
		top = max(top, p.logW)
		if p.mode != nil && !g.passed[i] && (best < 0 || p.logW > g.cells[best].logW) {
			best = i
		}
	}
	if best >= 0 && g.cells[best].logW < top-negligible {
		return -1
	}
	return best
}

// step goes from a cell to a neighbour, if nobody was there.
func (g *grid) step(i, j, down, right int) {
	to := (i+down)*len(g.starts) + j + right
	if i+down < 0 || i+down >= len(g.shapes) || j+right < 0 || j+right >= len(g.starts) || g.cells[to].mode != nil {
		return
	}
	from := g.cells[i*len(g.starts)+j]
	before := from
	if i-down >= 0 && i-down < len(g.shapes) && j-right >= 0 && j-right < len(g.starts) {
		if p := g.cells[(i-down)*len(g.starts)+j-right]; p.mode != nil {
			before = p
		}
	}
	g.reach(to, from, before)
}

// reach fills in a cell. Its mode lies about where two cells on a line with it point.
func (g *grid) reach(at int, from, before peak) {
	i, j := at/len(g.starts), at%len(g.starts)
	if g.rows[i].shape == 0 {
		rate := g.prior.quickRate(math.Exp(g.shapes[i]))
		if len(g.shapes) == 1 {
			rate = g.prior.rate(math.Exp(g.shapes[i]))
		}
		g.rows[i] = g.row(g.shapes[i], rate)
	}
	if g.columns[j].lnUse == nil {
		g.columns[j] = g.column(g.starts[j])
	}
	mode := make([]float64, len(from.mode))
	for k, g1 := range from.mode {
		mode[k] = g.rows[i].shape * (2*g1/from.shape - before.mode[k]/before.shape)
	}
	g.cells[at] = g.at(g.rows[i], g.columns[j], mode)
	if g.roots {
		g.cells[at].root = slices.Clone(g.root)
	}
}

// nearest returns the place of what lies nearest.
func nearest(list []float64, x float64) int {
	best := 0
	for i, y := range list {
		if math.Abs(y-x) < math.Abs(list[best]-x) {
			best = i
		}
	}
	return best
}

// narrow returns the axis around the cells that matter, and whether those fill it.
func (a axis) narrow(cells []peak, of func(peak) float64) (axis, bool) {
	if a.low == a.high {
		return a, true
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range cells {
		low, high = min(low, of(p)), max(high, of(p))
	}
	step := (a.high - a.low) / (coarse - 1)
	full := (low > a.low+step/2 || low <= a.least) && (high < a.high-step/2 || high >= a.most) && high-low > 3.5*step
	a.low, a.high = max(low-step, a.least), min(high+step, a.most)
	return a, full
}
