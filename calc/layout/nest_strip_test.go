package layout

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kerfside/calc/unit"
)

const millimetre = unit.Millimetre

// drawBars draws pieces and stock, with lengths that meet now and then.
func drawBars(t *rapid.T, most int) BarsInput {
	in := BarsInput{Kerf: unit.Length(rapid.IntRange(0, 3).Draw(t, "kerf")) * millimetre, Trim: unit.Length(rapid.SampledFrom([]int{0, 0, 10}).Draw(t, "trim")) * millimetre}
	in.Stock = []Bar{{Length: 1000 * millimetre}}
	if rapid.Bool().Draw(t, "an off-cut") {
		in.Stock = append(in.Stock, Bar{Length: unit.Length(rapid.IntRange(3, 9).Draw(t, "off-cut")*100) * millimetre, Count: rapid.IntRange(1, 2).Draw(t, "there")})
	}
	for range rapid.IntRange(1, most).Draw(t, "pieces") {
		in.Pieces = append(in.Pieces, BarPiece{Length: unit.Length(rapid.IntRange(2, 19).Draw(t, "length")*50) * millimetre, Count: 1})
	}
	return in
}

// TestBarsLaws: every piece is cut once, none over another or over the end, a kerf lies
// between, no bar is used that is not there, and the plan is no worse than the simple one
// and no better than the bounds.
func TestBarsLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawBars(t, 14)
		res, err := ComputeBars(in)
		if err != nil {
			t.Fatal(err)
		}
		var want, got []string
		for _, p := range in.Pieces {
			want = append(want, fmt.Sprintf("%.3f", p.Length))
		}
		used := map[unit.Length]int{}
		for _, b := range res.Bars {
			used[b.Length]++
			at := in.Trim
			for _, p := range b.Pieces {
				got = append(got, fmt.Sprintf("%.3f", p.To-p.From))
				if math.Abs(float64(p.From-at)) > 1e-9 || p.To > b.Length+1e-9 {
					t.Errorf("a piece lies from %v to %v of %v, want it to begin at %v", p.From, p.To, b.Length, at)
				}
				at = p.To + in.Kerf
			}
			if want := max(0, b.Length-at); math.Abs(float64(b.Left-want)) > 1e-9 {
				t.Errorf("%v is left of a bar, want %v", b.Left, want)
			}
		}
		slices.Sort(want)
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("pieces %v, want %v", got, want)
		}
		for _, s := range in.Stock {
			if s.Count > 0 && used[s.Length] > s.Count {
				t.Errorf("%d bars of %v are used, there are %d", used[s.Length], s.Length, s.Count)
			}
		}
		if len(in.Stock) == 1 && (res.Simple < len(res.Bars) || len(res.Bars) < res.Least || res.Least < res.LeastSum) {
			t.Errorf("simple %d, told %d, least %d, by the sum %d: want them to fall", res.Simple, len(res.Bars), res.Least, res.LeastSum)
		}
	})
}

// TestBarsLeast: where it is said that no plan takes less, a search of another kind, over
// all ways to part the pieces among bars, finds none.
func TestBarsLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawBars(t, 7)
		res, err := ComputeBars(in)
		if err != nil {
			t.Fatal(err)
		}
		if !res.Proven {
			t.Fatalf("%d pieces were not looked through", len(in.Pieces))
		}
		if least := leastStock(in); math.Abs(float64(res.Used-least)) > 1e-9 {
			t.Errorf("it takes %v, and can be done with %v", res.Used, least)
		}
	})
}

// TestSearchAlone: the search finds the least stock without a plan to begin with, where
// many pieces are alike and one of them fills a bar to its end.
func TestSearchAlone(t *testing.T) {
	alone := func(bars []Bar, tenths ...int) (got, least unit.Length) {
		in := BarsInput{Stock: bars}
		for _, l := range tenths {
			in.Pieces = append(in.Pieces, BarPiece{Length: unit.Length(l) * metre / 10, Count: 1})
		}
		p, err := newPacking(in)
		if err != nil {
			t.Fatal(err)
		}
		s := &search{packing: p, best: plan{left: p.items}}
		s.branch(0, nil, 0, 0)
		return unit.Length(s.best.cost) * tick, leastStock(in)
	}
	for _, c := range []struct {
		bars   []Bar
		tenths []int
	}{
		{bars: []Bar{{Length: 0.9 * metre}}, tenths: []int{6, 4, 4, 1, 1}},
		{bars: []Bar{{Length: 2.3 * metre}}, tenths: []int{13, 13, 11, 11, 4, 4, 1, 1}},
		{bars: []Bar{{Length: 1.9 * metre}, {Length: 1.2 * metre, Count: 2}}, tenths: []int{11, 9, 9, 1, 1, 1}},
	} {
		if got, least := alone(c.bars, c.tenths...); math.Abs(float64(got-least)) > 1e-9 {
			t.Fatalf("%v of %v take %v, and can do with %v", c.tenths, c.bars, got, least)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		long := rapid.IntRange(6, 26).Draw(t, "bar")
		bars := []Bar{{Length: unit.Length(long) * metre / 10}}
		if rapid.Bool().Draw(t, "an off-cut") {
			bars = append(bars, Bar{Length: unit.Length(rapid.IntRange(3, long).Draw(t, "off-cut")) * metre / 10, Count: rapid.IntRange(1, 2).Draw(t, "there")})
		}
		lengths := rapid.SliceOfN(rapid.IntRange(1, long*2/3), 2, 4).Draw(t, "lengths")
		pieces := rapid.SliceOfN(rapid.SampledFrom(lengths), 5, 8).Draw(t, "pieces")
		if got, least := alone(bars, pieces...); math.Abs(float64(got-least)) > 1e-9 {
			t.Errorf("it takes %v, and can be done with %v", got, least)
		}
	})
}

// leastStock tries every set of pieces for the next bar, by dynamic programming over sets.
func leastStock(in BarsInput) unit.Length {
	n := len(in.Pieces)
	type key struct{ set, off int }
	memo := map[key]float64{}
	var least func(set, off int) float64
	least = func(set, off int) float64 {
		if set == 0 {
			return 0
		}
		if v, ok := memo[key{set, off}]; ok {
			return v
		}
		best := math.Inf(1)
		for part := set; part > 0; part = (part - 1) & set {
			sum := in.Trim - in.Kerf
			for i := range n {
				if part&(1<<i) != 0 {
					sum += in.Pieces[i].Length + in.Kerf
				}
			}
			for sort, s := range in.Stock {
				if sum > s.Length+1e-9 || s.Count > 0 && off >= s.Count {
					continue
				}
				best = min(best, float64(s.Length)+least(set&^part, off+min(sort, 1)))
			}
		}
		memo[key{set, off}] = best
		return best
	}
	return unit.Length(least(1<<n-1, 0))
}

// TestPlateLaws: pieces have their sizes, lie on the plate, off its edges and a kerf apart,
// and can be cut free edge to edge.
func TestPlateLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := PlateInput{Length: 2000 * millimetre, Width: 1000 * millimetre, Kerf: 2 * millimetre, Edge: unit.Length(rapid.SampledFrom([]int{0, 15}).Draw(t, "edge")) * millimetre, Turn: rapid.Bool().Draw(t, "turn")}
		n := rapid.IntRange(1, 14).Draw(t, "pieces")
		sum := unit.Area(0)
		for range n {
			p := PlatePiece{Length: unit.Length(rapid.IntRange(1, 18).Draw(t, "length")*50) * millimetre, Width: unit.Length(rapid.IntRange(1, 18).Draw(t, "width")*50) * millimetre, Count: 1}
			in.Pieces = append(in.Pieces, p)
			sum += unit.Area(p.Length * p.Width)
		}
		res, err := ComputePlate(in)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(res.Pieces-sum)) > 1e-6 {
			t.Errorf("pieces of %v are laid, want %v", res.Pieces, sum)
		}
		count := 0
		for _, p := range res.Plates {
			count += len(p.Pieces)
			for _, o := range p.Pieces {
				if o.Turned && !in.Turn {
					t.Error("a piece is turned that may not be")
				}
				if o.X < in.Edge-1e-9 || o.Y < in.Edge-1e-9 || o.X+o.Length > in.Length-in.Edge+1e-9 || o.Y+o.Width > in.Width-in.Edge+1e-9 {
					t.Errorf("a piece lies over the edge: %+v", o)
				}
			}
			if parts := cutInTurn(t, in, p); parts != len(p.Cuts)+1 {
				t.Errorf("%d cuts in turn part the plate in %d", len(p.Cuts), parts)
			}
			if !edgeToEdge(p.Pieces, in.Kerf) {
				t.Errorf("these cannot be cut free edge to edge: %+v", p.Pieces)
			}
		}
		if count != n || len(res.Plates) < res.Least {
			t.Errorf("%d pieces on %d plates, want %d on %d or more", count, len(res.Plates), n, res.Least)
		}
	})
}

// cutInTurn makes the cuts of a plan one after the other: each parts what it crosses from
// edge to edge, and in the end each piece is a part. It returns how many parts there are.
func cutInTurn(t *rapid.T, in PlateInput, p PlatePlan) int {
	type part struct{ x, y, right, top unit.Length }
	near := func(a, b unit.Length) bool { return math.Abs(float64(a-b)) < 1e-9 }
	parts := []part{{x: in.Edge, y: in.Edge, right: in.Length - in.Edge, top: in.Width - in.Edge}}
	for _, c := range p.Cuts {
		i := slices.IndexFunc(parts, func(o part) bool {
			if c.Up {
				return near(o.y, c.From) && near(o.top, c.To) && o.x < c.At && c.At < o.right-1e-9
			}
			return near(o.x, c.From) && near(o.right, c.To) && o.y < c.At && c.At < o.top-1e-9
		})
		if i < 0 {
			t.Fatalf("%+v does not run from edge to edge of any of %+v", c, parts)
		}
		low, high := parts[i], parts[i]
		if c.Up {
			low.right, high.x = c.At, min(c.At+in.Kerf, high.right)
		} else {
			low.top, high.y = c.At, min(c.At+in.Kerf, high.top)
		}
		parts[i] = low
		parts = append(parts, high)
	}
	for _, o := range p.Pieces {
		if !slices.ContainsFunc(parts, func(q part) bool {
			return near(q.x, o.X) && near(q.y, o.Y) && near(q.right, o.X+o.Length) && near(q.top, o.Y+o.Width)
		}) {
			t.Errorf("%+v is not cut free: %+v", o, parts)
		}
	}
	return len(parts)
}

// edgeToEdge says whether some cut as wide as the kerf parts the pieces in two, and each
// part can be parted on. Pieces that overlap cannot.
func edgeToEdge(pieces []Placed, kerf unit.Length) bool {
	if len(pieces) <= 1 {
		return true
	}
	for _, upright := range []bool{true, false} {
		from := func(p Placed) unit.Length { return map[bool]unit.Length{true: p.X, false: p.Y}[upright] }
		to := func(p Placed) unit.Length {
			return from(p) + map[bool]unit.Length{true: p.Length, false: p.Width}[upright]
		}
		for _, at := range pieces {
			var before, after []Placed
			for _, p := range pieces {
				switch {
				case to(p) <= to(at)+1e-9:
					before = append(before, p)
				case from(p) >= to(at)+kerf-1e-9:
					after = append(after, p)
				}
			}
			if len(after) > 0 && len(before)+len(after) == len(pieces) {
				return edgeToEdge(before, kerf) && edgeToEdge(after, kerf)
			}
		}
	}
	return false
}

// TestEdgeToEdge: the check itself finds what cannot be parted: four pieces round a hole.
func TestEdgeToEdge(t *testing.T) {
	wheel := []Placed{{X: 0, Y: 0, Length: 2, Width: 1}, {X: 2, Y: 0, Length: 1, Width: 2}, {X: 1, Y: 2, Length: 2, Width: 1}, {X: 0, Y: 1, Length: 1, Width: 2}}
	if edgeToEdge(wheel, 0) {
		t.Error("four pieces round a hole are said to part edge to edge")
	}
	if !edgeToEdge(wheel[:3], 0) {
		t.Error("three of them are said not to")
	}
}

// TestPlateTwoSquares: squares that fill a square without a cut through it take more than
// one plate (A. J. W. Duijvestijn, Simple perfect squared square of lowest order, Journal
// of Combinatorial Theory B 25, 1978, from memory; the areas add up).
func TestPlateTwoSquares(t *testing.T) {
	in := PlateInput{Length: 112 * millimetre * 10, Width: 112 * millimetre * 10}
	area := 0
	for _, s := range []int{50, 42, 37, 35, 33, 29, 27, 25, 24, 19, 18, 17, 16, 15, 11, 9, 8, 7, 6, 4, 2} {
		in.Pieces = append(in.Pieces, PlatePiece{Length: unit.Length(s) * 10 * millimetre, Width: unit.Length(s) * 10 * millimetre, Count: 1})
		area += s * s
	}
	if area != 112*112 {
		t.Fatalf("the squares have %d, want %d", area, 112*112)
	}
	res, err := ComputePlate(in)
	if err != nil {
		t.Fatal(err)
	}
	if len(res.Plates) < 2 || res.Least != 1 || res.Proven {
		t.Errorf("%d plates, least %d, proven %v; want more than one, 1, false", len(res.Plates), res.Least, res.Proven)
	}
}
