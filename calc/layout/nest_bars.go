package layout

import (
	"cmp"
	"math"
	"slices"

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
		hint := "Add a bar, or leave out a piece."
		if !res.Looked {
			hint = "Add a bar. Not every plan was looked through: with fewer pieces it may still fit."
		}
		return BarsResult{}, problem.Newf(problem.Refused, "bars", "these bars do not hold all pieces: %s left over", unit.Count(len(best.left), "piece is", "pieces are")).WithHint("%s", hint)
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
	slices.SortStableFunc(p.items, func(a, b item) int { return cmp.Compare(b.size, a.size) })
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

// opens returns the sort of bar to open for a piece: the shortest that is limited, for
// off-cuts go first, else the longest; -1 for none.
func (p *packing) opens(size int64, used []bin) int {
	best := -1
	for sort, room := range p.room {
		if room < size || !p.has(sort, used) {
			continue
		}
		switch limited := p.in.Stock[sort].Count > 0; {
		case best < 0:
			best = sort
		case limited != (p.in.Stock[best].Count > 0):
			if limited {
				best = sort
			}
		case limited == (room < p.room[best]):
			best = sort
		}
	}
	return best
}

// firstFit puts each piece, longest first, into the first bar with room.
func (p *packing) firstFit() plan {
	var out plan
	for _, it := range p.items {
		i := slices.IndexFunc(out.bins, func(b bin) bool { return b.room >= it.size })
		if i < 0 {
			sort := p.opens(it.size, out.bins)
			if sort < 0 {
				out.left = append(out.left, it)
				continue
			}
			out.bins = append(out.bins, bin{sort: sort, room: p.room[sort]})
			out.cost += p.cost[sort]
			i = len(out.bins) - 1
		}
		out.bins[i].room -= it.size
		out.bins[i].items = append(out.bins[i].items, it)
	}
	return out
}

// fullest fills one bar after the other as full as can be, each with the longest piece
// that is left.
func (p *packing) fullest() plan {
	var out plan
	rest := slices.Clone(p.items)
	for len(rest) > 0 {
		sort := p.opens(rest[0].size, out.bins)
		if sort < 0 {
			out.left = append(out.left, rest[0])
			rest = rest[1:]
			continue
		}
		f := filling{items: rest[1:], room: p.room[sort] - rest[0].size}
		f.best = f.room + 1
		f.pick(0, f.room, nil)
		b := bin{sort: sort, room: f.best, items: []item{rest[0]}}
		if f.best > f.room {
			b.room = f.room
		}
		var others []item
		for i, it := range rest[1:] {
			if slices.Contains(f.picked, i) {
				b.items = append(b.items, it)
			} else {
				others = append(others, it)
			}
		}
		out.bins, out.cost, rest = append(out.bins, b), out.cost+p.cost[sort], others
	}
	return out
}

// filling looks for the pieces that leave the least room.
type filling struct {
	items  []item
	room   int64
	best   int64
	picked []int
	steps  int
}

// mostFillSteps is how many choices are looked at for one bar.
const mostFillSteps = 20_000

func (f *filling) pick(from int, room int64, picked []int) {
	if f.steps++; f.steps > mostFillSteps || f.best == 0 {
		return
	}
	if room < f.best {
		f.best, f.picked = room, slices.Clone(picked)
	}
	for i := from; i < len(f.items); i++ {
		if it := f.items[i]; it.size <= room && (i == from || f.items[i-1].size != it.size) {
			f.pick(i+1, room-it.size, append(picked, i))
		}
	}
}

// search is a branch and bound over all plans.
type search struct {
	*packing
	best  plan
	steps int
}

// branch places the i-th piece in every way that can still be better. after is the bar
// that a piece of the same length went to before: to go back from there is no new plan.
func (s *search) branch(i int, bins []bin, cost int64, after int) {
	if s.steps++; s.steps > mostSearchSteps {
		return
	}
	if i == len(s.items) {
		if p := (plan{bins: copied(bins), cost: cost}); p.better(s.best) {
			s.best = p
		}
		return
	}
	if s.best.whole() && cost+s.must(i, bins) >= s.best.cost {
		return
	}
	it := s.items[i]
	if i == 0 || s.items[i-1].size != it.size {
		after = 0
	}
	put := func(n int) {
		b := &bins[n]
		b.room -= it.size
		b.items = append(b.items, it)
		s.branch(i+1, bins, cost, n)
		b.items = b.items[:len(b.items)-1]
		b.room += it.size
	}
	for n := after; n < len(bins); n++ {
		if bins[n].room == it.size {
			put(n) // fills it: no other place is better
			return
		}
	}
	var tried []int64
	for n := after; n < len(bins); n++ {
		if room := bins[n].room; room > it.size && !slices.Contains(tried, room) {
			tried = append(tried, room)
			put(n)
		}
	}
	for sort, room := range s.room {
		if room >= it.size && s.has(sort, bins) {
			opened := append(bins, bin{sort: sort, room: room - it.size, items: []item{it}})
			s.branch(i+1, opened, cost+s.cost[sort], len(bins))
		}
	}
}

// must is how much more stock the pieces from the i-th on take at least: what does not go
// into the room of open bars, at the best price of room.
func (s *search) must(i int, bins []bin) int64 {
	need, least := int64(0), s.items[len(s.items)-1].size
	for _, it := range s.items[i:] {
		need += it.size
	}
	for _, b := range bins {
		if b.room >= least {
			need -= b.room
		}
	}
	if need <= 0 {
		return 0
	}
	if s.oneSort() {
		return (need + s.room[0] - 1) / s.room[0] * s.cost[0]
	}
	price := math.Inf(1)
	for sort, room := range s.room {
		price = min(price, float64(s.cost[sort])/float64(room))
	}
	return int64(price * float64(need))
}

func copied(bins []bin) []bin {
	out := make([]bin, len(bins))
	for i, b := range bins {
		out[i] = bin{sort: b.sort, room: b.room, items: slices.Clone(b.items)}
	}
	return out
}

// leastBySum is how many of the longest bars hold all pieces end to end.
func (p *packing) leastBySum() int {
	sum, room := int64(0), slices.Max(p.room)
	for _, it := range p.items {
		sum += it.size
	}
	return int((sum + room - 1) / room)
}

// leastByL2 is the bound of Martello and Toth for the longest bar: for each a up to half
// of it, pieces longer than L − a are alone, those longer than L/2 are apart, and what
// the latter leave does not hold all of the rest.
func (p *packing) leastByL2() int {
	room := slices.Max(p.room)
	best := p.leastBySum()
	tries := []int64{0}
	for _, it := range p.items {
		if 2*it.size <= room {
			tries = append(tries, it.size)
		}
	}
	for _, a := range tries {
		alone, apart := 0, 0
		rest := int64(0)
		for _, it := range p.items {
			switch {
			case it.size > room-a:
				alone++
			case 2*it.size > room:
				apart++
				rest -= room - it.size
			case it.size >= a:
				rest += it.size
			}
		}
		n := alone + apart
		if rest > 0 {
			n += int((rest + room - 1) / room)
		}
		best = max(best, n)
	}
	return best
}

// tell writes a plan out, the fullest bars first.
func (p *packing) tell(best plan, res *BarsResult) {
	slices.SortStableFunc(best.bins, func(a, b bin) int { return cmp.Compare(a.room, b.room) })
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
