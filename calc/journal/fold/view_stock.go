package fold

import (
	"slices"

	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// Stocks is the view stock.
type Stocks struct {
	Lines []Stock `json:"lines"`
}

// Stocks returns the view stock, by id.
func (f *Fold) Stocks() Stocks {
	x := f.settled()
	v := Stocks{Lines: []Stock{}}
	for _, id := range order.Keys(x.stockLines) {
		if l := x.stockLines[id]; !l.isNothing() {
			s := l.stock(x)
			s.Same = x.aliases(id)
			v.Lines = append(v.Lines, s)
		}
	}
	return v
}

// StockLine is a stock line with what came and went.
type StockLine struct {
	Line  Stock       `json:"line"`
	Moves []StockMove `json:"moves"` // the last of them, the newest first
}

// StockMove is one movement of a stock line.
type StockMove struct {
	ID     string `json:"id"`
	At     int64  `json:"at"`
	Kind   string `json:"kind"`
	N      int64  `json:"n"`     // pieces, negative for out; of a count those there were
	After  int64  `json:"after"` // pieces there are after it
	Why    string `json:"why"`
	Part   string `json:"part"` // that was fitted
	Rig    string `json:"rig"`  // in which it was
	Device string `json:"device"`
}

// stockMoves is how many movements of a line are shown.
const stockMoves = 20

// Line returns a stock line. Its error is a problem.
func (f *Fold) Line(id string) (StockLine, error) {
	x := f.settled()
	l := x.stockLines[x.same.of(id)]
	if l == nil || id == "" || l.isNothing() {
		return StockLine{}, problem.New(problem.NotFound, "id", "there is no such stock line on this phone", "It may come with the next sync.")
	}
	v := StockLine{Line: l.stock(x), Moves: []StockMove{}}
	v.Line.Same = x.aliases(l.id)
	moves, n := visible(l.moves.all()), int64(0)
	for i, e := range moves {
		n = after(n, e)
		if i < len(moves)-stockMoves {
			continue
		}
		m := StockMove{ID: e.id, At: e.when(), Kind: e.kind, N: e.pieces, After: n, Why: e.body.Text("why"), Device: e.device}
		if e.kind == "part.fitted" {
			m.N, m.Part, m.Rig = -1, x.same.of(e.about), x.rigOf(e)
		}
		v.Moves = append(v.Moves, m)
	}
	slices.Reverse(v.Moves)
	return v, nil
}
