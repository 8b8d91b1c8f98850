package layout

import (
	"cmp"
	"math"

	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// BarsInput are pieces to cut from bars.
type BarsInput struct {
	Pieces []BarPiece
	Stock  []Bar
	Kerf   unit.Length
	Trim   unit.Length // cut off the end of each bar first, with its kerf
}

// BarPiece is a piece of that length.
type BarPiece struct {
	Name   string
	Length unit.Length
	Count  int
}

// Bar is a length of stock.
type Bar struct {
	Length unit.Length
	Count  int // there are so many; 0 for as many as it takes
}

// BarsResult is the plan, bar by bar.
type BarsResult struct {
	Bars     []BarPlan
	Used     unit.Length // stock, all bars as long as they are
	Pieces   unit.Length // all pieces
	Simple   int         // bars that first fit decreasing takes
	LeastSum int         // bars at least, by the sum of lengths, where one sort of bar is had in any number
	Least    int         // bars at least, by the better bound L2
	Proven   bool        // no plan uses less stock
	Looked   bool        // all were looked through, or a bound is met; else the search stopped
}

// BarPlan is one bar: its pieces in the order to cut.
type BarPlan struct {
	Length unit.Length
	Pieces []BarCut
	Left   unit.Length // of the bar when all are cut
}

// BarCut is a piece with the places of its ends, from the bar's end.
type BarCut struct {
	Name     string
	From, To unit.Length
}

// tick is the unit in which lengths are packed, so that sums are exact: a 64th of an
// inch is 3968.75 of them.
const tick = 0.1e-6 * unit.Metre

func ticks(l unit.Length) int64 { return int64(math.Round(float64(l / tick))) }

// Limits of the sum.
const (
	mostBarPieces   = 200
	exactPieces     = 25      // for more, the search tells the best that it found
	mostSearchSteps = 400_000 // branches: a second or two on an old phone
)

// ComputeBars packs pieces into bars so that the least stock is used.
//
// With kerfs of k between pieces a bar of length L takes pieces wᵢ where
// Σ(wᵢ + k) ≤ L − trim + k. First fit decreasing gives a plan (it takes at most 11/9 of
// the best number of bars and 6/9 of a bar); filling one bar after the other as full as
// can be gives another. Up to 25 pieces, every plan is then looked through by branch and
// bound: longest piece first, into each bar that has room, bars with the same room and
// pieces of the same length once, and never where what is open and what must still be
// opened can be no better.
//
// That no plan is better is said only where all were looked through or the plan meets a
// bound: the sum of lengths over that of a bar, or L2, which counts apart the pieces that
// no two of which share a bar. Sources: S. Martello and P. Toth's bound, from memory;
// the bound of first fit decreasing, Theoretical Computer Science 510 (2013).
func ComputeBars(in BarsInput) (BarsResult, error) {
	p, err := newPacking(in)
	if err != nil {
		return BarsResult{}, err
	}
	simple := p.firstFit()
	best := simple
	if full := p.fullest(); full.better(best) {
		best = full
	}
	res := BarsResult{LeastSum: p.leastBySum(), Least: p.leastByL2()}
	bounded := best.whole() && p.oneSort() && len(best.bins) == res.Least
	if !bounded && len(p.items) <= exactPieces {
		search := &search{packing: p, best: best}
		search.branch(0, nil, 0, 0)
		best, res.Looked = search.best, search.steps <= mostSearchSteps
	}
	res.Looked = res.Looked || bounded
	res.Proven = res.Looked && best.whole()
	if !best.whole() {
		left := unit.Count(len(best.left), "piece is", "pieces are")
		if !res.Looked {
			return BarsResult{}, problem.Newf(problem.Refused, "bars", "no plan was found that puts all pieces into these bars: in the best, %s left over", left).
				WithHint("Not every plan was looked through. Add a bar, or leave out a piece.")
		}
		return BarsResult{}, problem.Newf(problem.Refused, "bars", "these bars do not hold all pieces: in the best plan found, %s left over", left).WithHint("Add a bar, or leave out a piece.")
	}
	if simple.whole() {
		res.Simple = len(simple.bins)
	}
	p.tell(best, &res)
	return res, nil
}

// item is one piece to pack; pieces that are alike have the same kind.
type item struct {
	size int64 // with its kerf
	kind int
}

// bin is one bar: its sort of stock, the room that it still has, and what is in it.
type bin struct {
	sort  int
	room  int64
	items []item
}

// packing is what is to be packed into what.
type packing struct {
	in    BarsInput
	items []item  // longest first
	room  []int64 // of each sort of stock
	cost  []int64 // its length
}

// plan is a way to pack.
type plan struct {
	bins []bin
	left []item // that found no room
	cost int64
}

func (p plan) whole() bool { return len(p.left) == 0 }

// better says whether a plan leaves fewer pieces over, or uses less stock, or fewer bars.
func (p plan) better(than plan) bool {
	return cmp.Or(cmp.Compare(len(p.left), len(than.left)), cmp.Compare(p.cost, than.cost), cmp.Compare(len(p.bins), len(than.bins))) < 0
}

func newPacking(in BarsInput) (*packing, error) {
	p := &packing{in: in}
	longest := int64(0)
	for _, b := range in.Stock {
		p.room = append(p.room, ticks(b.Length-in.Trim+in.Kerf))
		p.cost = append(p.cost, ticks(b.Length))
		longest = max(longest, p.room[len(p.room)-1])
	}
	for kind, piece := range in.Pieces {
		size := ticks(piece.Length + in.Kerf)
		if size > longest {
			return nil, problem.Newf(problem.Refused, "lengths", "%s is longer than any bar", unit.In(piece.Length, "mm")).WithHint("Take longer stock, or make it of two.")
		}
		for range piece.Count {
			p.items = append(p.items, item{size: size, kind: kind})
		}
	}
	if len(p.items) > mostBarPieces {
		return nil, problem.Newf(problem.TooLarge, "lengths", "there are %d pieces", len(p.items)).WithHint("At most %d at once.", mostBarPieces)
	}
	order.Stable(p.items, func(a, b item) int { return cmp.Compare(b.size, a.size) })
	return p, nil
}

// oneSort says whether there is one sort of bar, in any number: then bounds count bars.
func (p *packing) oneSort() bool { return len(p.in.Stock) == 1 && p.in.Stock[0].Count == 0 }

// has says whether another bar of that sort is there.
func (p *packing) has(sort int, used []bin) bool {
	n := 0
	for _, b := range used {
		if b.sort == sort {
			n++
		}
	}
	return p.in.Stock[sort].Count == 0 || n < p.in.Stock[sort].Count
}

// tell writes a plan out, the fullest bars first.
func (p *packing) tell(best plan, res *BarsResult) {
	order.Stable(best.bins, func(a, b bin) int { return cmp.Compare(a.room, b.room) })
	for _, b := range best.bins {
		stock := p.in.Stock[b.sort]
		one := BarPlan{Length: stock.Length}
		at := p.in.Trim
		for _, it := range b.items {
			piece := p.in.Pieces[it.kind]
			one.Pieces = append(one.Pieces, BarCut{Name: piece.Name, From: at, To: at + piece.Length})
			res.Pieces += piece.Length
			at += piece.Length + p.in.Kerf
		}
		one.Left = max(0, stock.Length-at)
		res.Used += stock.Length
		res.Bars = append(res.Bars, one)
	}
}
