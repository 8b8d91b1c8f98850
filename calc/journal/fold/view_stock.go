package fold

import (
	"cmp"
	"slices"
	"strconv"

	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// Stocks is the view stock.
type Stocks struct {
	Lines []Stock `json:"lines"`

	// From says from which line a part is taken that is fitted: by rig and slot, those
	// from which it may come. A rig that has no lines takes as "" does.
	From map[string]map[string][]StockPick `json:"from"`
}

// StockPick is a line to take a part from, as it is picked from. The word of one that
// comes from none is NoLine.
type StockPick struct {
	Word  string `json:"word"`
	Label string `json:"label"`
}

// Of returns the lines from which a part is taken that is fitted in a rig.
func (s Stocks) Of(rig, slot string) []StockPick {
	from, ok := s.From[rig]
	if !ok {
		from = s.From[""]
	}
	return from[slot]
}

// NoLine stands for a part that comes from no stock line.
const NoLine = "none"

// Stocks returns the view stock, by id.
func (f *Fold) Stocks() Stocks {
	x := f.settled()
	v := Stocks{Lines: []Stock{}, From: map[string]map[string][]StockPick{}}
	for _, id := range order.Keys(x.stockLines) {
		if l := x.stockLines[id]; !l.isNothing() {
			s := l.stock(x)
			s.Same = x.aliases(id)
			v.Lines = append(v.Lines, s)
		}
	}
	v.From[""] = takenFrom(v.Lines, "")
	for _, l := range v.Lines {
		if v.From[l.Rig] == nil {
			v.From[l.Rig] = takenFrom(v.Lines, l.Rig)
		}
	}
	return v
}

// takenFrom says for each slot from which lines a part is taken that is fitted in a rig:
// from those of its truck, or of the shop where there is none on the truck and some in
// the shop. Where it is one line it is taken from that; where there are several a person
// picks, or says that it came from none. Nothing is said where no line is of the slot.
func takenFrom(lines []Stock, rig string) map[string][]StockPick {
	here, shop := map[string][]Stock{}, map[string][]Stock{}
	for _, l := range lines {
		switch {
		case l.Slot == "":
		case l.Rig == rig:
			here[l.Slot] = append(here[l.Slot], l)
		case l.Rig == "":
			shop[l.Slot] = append(shop[l.Slot], l)
		}
	}
	picks := map[string][]StockPick{}
	some := func(l Stock) bool { return l.N > 0 }
	for slot, list := range shop {
		if len(here[slot]) == 0 || !slices.ContainsFunc(here[slot], some) && slices.ContainsFunc(list, some) {
			here[slot] = list
		}
	}
	for slot, list := range here {
		order.Sort(list, func(a, b Stock) int {
			return cmp.Or(cmp.Compare(a.Rating, b.Rating), cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID))
		})
		for _, l := range list {
			picks[slot] = append(picks[slot], StockPick{Word: l.ID, Label: cmp.Or(l.Rating, l.Name, "Without a rating") + ", " + strconv.FormatInt(l.N, 10) + " left"})
		}
		if len(list) > 1 {
			picks[slot] = append(picks[slot], StockPick{Word: NoLine, Label: "Not from stock"})
		}
	}
	return picks
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
