package layout

import (
	"cmp"
	"math"
	"slices"

	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// PlateInput are rectangles to cut from plates that are all alike.
type PlateInput struct {
	Length, Width unit.Length // of a plate
	Plates        int         // there are so many; 0 for as many as it takes
	Pieces        []PlatePiece
	Kerf          unit.Length
	Edge          unit.Length // kept off each edge of the plate
	Turn          bool        // pieces may be turned by a quarter
}

// PlatePiece is a rectangle, its length along the plate's where it is not turned.
type PlatePiece struct {
	Name          string
	Length, Width unit.Length
	Count         int
}

// PlateResult is the plan, plate by plate.
type PlateResult struct {
	Plates []PlatePlan
	Pieces unit.Area
	Used   unit.Area   // all plates, whole
	Least  int         // plates at least, by area
	Proven bool        // as few as that
	Cut    unit.Length // of all cuts, those that take the edges off too
	Cuts   int
}

// PlatePlan is one plate: its pieces and what is left, from its lower left corner, and its
// cuts in turn.
type PlatePlan struct {
	Pieces []Placed
	Left   []Placed
	Cuts   []EdgeCut
}

// EdgeCut is a cut from edge to edge of what it parts: along the plate, or up it. At is
// the edge that it leaves finished; the kerf lies beyond, to the right or above.
type EdgeCut struct {
	Up           bool
	At, From, To unit.Length
}

// Placed is a rectangle on a plate.
type Placed struct {
	Name          string
	X, Y          unit.Length
	Length, Width unit.Length // as it lies
	Turned        bool
}

// area is a free rectangle, or a piece with its kerf, in ticks.
type area struct{ x, y, w, h int64 }

// block is a piece to place.
type block struct {
	w, h int64 // with its kerf
	kind int
}

// ComputePlate lays rectangles on plates so that each can be cut free by cuts that run
// from edge to edge: a straightedge cuts no corner.
//
// With kerfs of k between pieces a plate L × W with edges of e kept off takes pieces
// (w + k) × (h + k) in (L − 2e + k) × (W − 2e + k). Each piece goes into the corner of a
// free rectangle, which two cuts part in two again. Eight orders of pieces, three ways to
// choose the rectangle and three to part it are tried, and the plan with the fewest plates
// and then the largest piece left over is told. That is no proof: only as many plates as
// the area alone takes are said to be the fewest.
func ComputePlate(in PlateInput) (PlateResult, error) {
	whole := area{w: ticks(in.Length - 2*in.Edge + in.Kerf), h: ticks(in.Width - 2*in.Edge + in.Kerf)}
	var blocks []block
	sum := 0.0
	for kind, p := range in.Pieces {
		b := block{w: ticks(p.Length + in.Kerf), h: ticks(p.Width + in.Kerf), kind: kind}
		if !(b.w <= whole.w && b.h <= whole.h) && !(in.Turn && b.h <= whole.w && b.w <= whole.h) {
			return PlateResult{}, problem.Newf(problem.Refused, "rectangles", "%s by %s does not fit on a plate", unit.In(p.Length, "mm"), unit.In(p.Width, "mm")).
				WithHint("Take a larger plate, make it of two, or let pieces be turned.")
		}
		for range p.Count {
			blocks = append(blocks, b)
			sum += float64(b.w) * float64(b.h)
		}
	}
	if len(blocks) > mostBarPieces {
		return PlateResult{}, problem.Newf(problem.TooLarge, "rectangles", "there are %d pieces", len(blocks)).WithHint("At most %d at once.", mostBarPieces)
	}
	best := laying{}
	for _, by := range orders {
		order.Stable(blocks, func(a, b block) int { return by(b, a) })
		for choice := range 3 {
			for part := range 3 {
				if l := lay(blocks, whole, in.Turn, choice, part); best.sheets == nil || l.better(best) {
					best = l
				}
			}
		}
	}
	if in.Plates > 0 && len(best.sheets) > in.Plates {
		return PlateResult{}, problem.Newf(problem.Refused, "plates", "no plan was found that gets by with these plates: the best takes %d", len(best.sheets)).
			WithHint("Not every plan was looked through. Add a plate, or leave out a piece.")
	}
	res := PlateResult{Used: unit.Area(len(best.sheets)) * unit.Area(in.Length*in.Width), Least: int(math.Ceil(sum/(float64(whole.w)*float64(whole.h)) - 1e-12))}
	res.Proven = len(best.sheets) == res.Least
	for _, s := range best.sheets {
		res.Plates = append(res.Plates, s.tell(in, &res))
	}
	return res, nil
}

// orders are ways to sort blocks, the largest first.
var orders = [...]func(a, b block) int{
	func(a, b block) int { return cmp.Or(cmp.Compare(a.w*a.h, b.w*b.h), cmp.Compare(a.w, b.w)) },
	func(a, b block) int {
		return cmp.Or(cmp.Compare(max(a.w, a.h), max(b.w, b.h)), cmp.Compare(min(a.w, a.h), min(b.w, b.h)))
	},
	func(a, b block) int {
		return cmp.Or(cmp.Compare(min(a.w, a.h), min(b.w, b.h)), cmp.Compare(max(a.w, a.h), max(b.w, b.h)))
	},
	func(a, b block) int { return cmp.Or(cmp.Compare(a.w, b.w), cmp.Compare(a.h, b.h)) },
	func(a, b block) int { return cmp.Or(cmp.Compare(a.h, b.h), cmp.Compare(a.w, b.w)) },
	func(a, b block) int { return cmp.Compare(a.w+a.h, b.w+b.h) },
	func(a, b block) int {
		return cmp.Or(cmp.Compare(max(a.w, a.h)-min(a.w, a.h), max(b.w, b.h)-min(b.w, b.h)), cmp.Compare(a.w*a.h, b.w*b.h))
	},
	func(a, b block) int { return 0 }, // as entered
}

// laid is a block where it lies.
type laid struct {
	area
	kind   int
	turned bool
}

// sheet is one plate: what lies on it, what is free, and the cuts that made it so.
type sheet struct {
	on   []laid
	free []area
	cuts []area // each with no width, at the far side of its kerf
}

type laying struct{ sheets []sheet }

// better says whether a laying takes fewer plates, or leaves a larger rectangle.
func (l laying) better(than laying) bool {
	return cmp.Or(cmp.Compare(len(l.sheets), len(than.sheets)), -cmp.Compare(l.largest(), than.largest())) < 0
}

// largest is the largest free rectangle of all plates.
func (l laying) largest() int64 {
	most := int64(0)
	for _, s := range l.sheets {
		for _, f := range s.free {
			most = max(most, f.w*f.h)
		}
	}
	return most
}

// lay places blocks in their order.
func lay(blocks []block, whole area, turn bool, choice, part int) laying {
	var l laying
	for _, b := range blocks {
		s, f, turned := l.find(b, turn, choice)
		if s < 0 {
			l.sheets = append(l.sheets, sheet{free: []area{whole}})
			s, f = len(l.sheets)-1, 0
			turned = b.w > whole.w || b.h > whole.h
		}
		l.sheets[s].put(b, f, turned, part)
	}
	return l
}

// find looks for the free rectangle that suits a block best: that leaves the least area,
// the least along its shorter side, or the first there is.
func (l laying) find(b block, turn bool, choice int) (in, free int, turned bool) {
	in, best := -1, int64(math.MaxInt64)
	for i, s := range l.sheets {
		for j, f := range s.free {
			for _, quarter := range []bool{false, true} {
				w, h := b.w, b.h
				if quarter {
					if w, h = h, w; !turn || w == h {
						continue
					}
				}
				if w > f.w || h > f.h {
					continue
				}
				loss := [...]int64{f.w*f.h - w*h, min(f.w-w, f.h-h), int64(i)}[choice]
				if loss < best {
					in, free, turned, best = i, j, quarter, loss
				}
			}
		}
	}
	return in, free, turned
}

// put lays a block into the corner of a free rectangle, and cuts it free: first along or
// first across, so that the longer rest stays whole, the shorter one does, or the larger.
func (s *sheet) put(b block, free int, turned bool, part int) {
	f := s.free[free]
	w, h := b.w, b.h
	if turned {
		w, h = h, w
	}
	s.on = append(s.on, laid{area: area{x: f.x, y: f.y, w: w, h: h}, kind: b.kind, turned: turned})
	s.free = slices.Delete(s.free, free, free+1)
	right, above := f.w-w, f.h-h
	var along bool // the first cut runs the whole length of the rectangle, above the block
	switch part {
	case 0:
		along = right <= above
	case 1:
		along = right > above
	default:
		along = f.w*above >= right*f.h
	}
	add := func(a area) {
		if a.w > 0 && a.h > 0 {
			s.free = append(s.free, a)
		}
	}
	if along {
		add(area{x: f.x + w, y: f.y, w: right, h: h})
		add(area{x: f.x, y: f.y + h, w: f.w, h: above})
	} else {
		add(area{x: f.x + w, y: f.y, w: right, h: f.h})
		add(area{x: f.x, y: f.y + h, w: w, h: above})
	}
	over, beside := area{x: f.x, y: f.y + h, w: w}, area{x: f.x + w, y: f.y, h: f.h}
	if along {
		over.w, beside.h = f.w, h
	}
	if along && above > 0 {
		s.cuts = append(s.cuts, over)
	}
	if right > 0 {
		s.cuts = append(s.cuts, beside)
	}
	if !along && above > 0 {
		s.cuts = append(s.cuts, over)
	}
}

// tell writes a plate out, without the kerfs that belong to pieces and rests.
func (s sheet) tell(in PlateInput, res *PlateResult) PlatePlan {
	var p PlatePlan
	kerf := ticks(in.Kerf)
	place := func(a area) Placed {
		return Placed{X: in.Edge + unit.Length(a.x)*tick, Y: in.Edge + unit.Length(a.y)*tick, Length: unit.Length(a.w-kerf) * tick, Width: unit.Length(a.h-kerf) * tick}
	}
	for _, o := range s.on {
		one := place(o.area)
		one.Name, one.Turned = in.Pieces[o.kind].Name, o.turned
		res.Pieces += unit.Area(one.Length * one.Width)
		p.Pieces = append(p.Pieces, one)
	}
	for _, f := range s.free {
		if f.w > kerf && f.h > kerf {
			p.Left = append(p.Left, place(f))
		}
	}
	order.Stable(p.Left, func(a, b Placed) int { return cmp.Compare(b.Length*b.Width, a.Length*a.Width) })
	for _, c := range s.cuts {
		o := place(c)
		cut := EdgeCut{At: o.Y - in.Kerf, From: o.X, To: o.X + o.Length}
		if c.w == 0 {
			cut = EdgeCut{Up: true, At: o.X - in.Kerf, From: o.Y, To: o.Y + o.Width}
		}
		res.Cut += cut.To - cut.From
		p.Cuts = append(p.Cuts, cut)
	}
	res.Cuts += len(s.cuts)
	if in.Edge > 0 { // two whole sides, and two between them
		res.Cut += 2*in.Length + 2*(in.Width-2*in.Edge)
		res.Cuts += 4
	}
	return p
}
