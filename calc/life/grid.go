package life

import (
	"math"
	"slices"
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

// lay returns the cells that matter of a grid, the heaviest first. It begins with one of
// each shape, for there may be two peaks of it, and goes on from cell to cell, past none
// that does not matter. Roots are kept of what is looked at closely.
func (l *learner) lay(shapes, starts []float64, best peak, close bool) []peak {
	if l.arrived = roughly; close {
		l.arrived = closely
	}
	n := len(shapes) * len(starts)
	g := grid{learner: l, shapes: shapes, starts: starts, cells: make([]peak, n), passed: make([]bool, n), rows: make([]row, len(shapes)), columns: make([]column, len(starts)),
		modes: make([]float64, n*len(best.mode)), lnUses: make([]float64, len(starts)*len(l.parts)), top: math.Inf(-1)}
	row, column := nearest(shapes, best.lnShape), nearest(starts, best.lnStart)
	g.reach(row*len(starts)+column, &best, &best)
	for i := row; i > 0; i-- {
		g.step(i, column, -1, 0)
	}
	for i := row; i < len(shapes)-1; i++ {
		g.step(i, column, 1, 0)
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
	kept := g.cells[:0]
	for i := range g.cells {
		if p := &g.cells[i]; p.mode != nil && p.logW >= g.top-negligible {
			if kept = append(kept, *p); p.logW == g.top {
				kept[0], kept[len(kept)-1] = kept[len(kept)-1], kept[0]
			}
		}
	}
	return kept
}

// grid is a grid while it is laid, and the room that takes.
type grid struct {
	*learner
	shapes, starts []float64
	rows           []row
	columns        []column
	cells          []peak // by shape, then start; one not come to has no mode
	passed         []bool // its neighbours are known
	modes, lnUses  []float64
	top            float64 // the greatest weight
}

// next returns the heaviest cell whose neighbours are not known yet; −1 if none of them
// matters.
func (g *grid) next() int {
	next := -1
	for i := range g.cells {
		if p := &g.cells[i]; p.mode != nil && !g.passed[i] && p.logW >= g.top-negligible && (next < 0 || p.logW > g.cells[next].logW) {
			next = i
		}
	}
	return next
}

// known returns the cell in a row and a column, if there is one and somebody was there.
func (g *grid) known(i, j int) *peak {
	if i < 0 || i >= len(g.shapes) || j < 0 || j >= len(g.starts) || g.cells[i*len(g.starts)+j].mode == nil {
		return nil
	}
	return &g.cells[i*len(g.starts)+j]
}

// step goes from a cell to a neighbour, if nobody was there.
func (g *grid) step(i, j, down, right int) {
	if i+down < 0 || i+down >= len(g.shapes) || j+right < 0 || j+right >= len(g.starts) || g.known(i+down, j+right) != nil {
		return
	}
	from, before := g.known(i, j), g.known(i-down, j-right)
	if before == nil {
		before = from
	}
	g.reach((i+down)*len(g.starts)+j+right, from, before)
}

// reach fills in a cell. Its mode lies about where two cells on a line with it point.
func (g *grid) reach(at int, from, before *peak) {
	i, j := at/len(g.starts), at%len(g.starts)
	row, column := &g.rows[i], &g.columns[j]
	if row.shape == 0 {
		rate := g.prior.quickRate(math.Exp(g.shapes[i]))
		if len(g.shapes) == 1 {
			rate = g.prior.rate(math.Exp(g.shapes[i]))
		}
		*row = g.row(g.shapes[i], rate)
	}
	if column.lnUse == nil {
		n := len(g.parts)
		*column = g.column(g.starts[j], g.lnUses[j*n:(j+1)*n])
	}
	n := len(from.mode)
	mode := g.modes[at*n : (at+1)*n]
	for k := range mode {
		mode[k] = row.shape * (2*from.mode[k]/from.shape - before.mode[k]/before.shape)
	}
	g.cells[at] = g.at(row, column, mode)
	g.top = max(g.top, g.cells[at].logW)
	if g.arrived == closely {
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
