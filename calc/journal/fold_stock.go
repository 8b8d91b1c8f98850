package journal

import (
	"kerfside/calc/order"
)

// line is a stock line: so many pieces of one kind.
type line struct {
	id     string
	fields register
	moves  []*entry // stock.moved, stock.counted, and part.fitted from it
}

// maxPieces bounds one movement or count, so that a slip cannot make sums
// overflow.
const maxPieces = 1_000_000

// line returns the stock line of that id, a new one if need be.
func (x *index) line(id string) *line {
	l := x.lines[id]
	if l == nil {
		l = &line{id: id, fields: register{}}
		x.lines[id] = l
	}
	return l
}

// addStock takes what is said about a line.
func (x *index) addStock(e *entry) {
	l := x.line(x.same.of(e.about))
	if e.kind == "line.set" {
		l.fields.set(e)
		return
	}
	if _, ok := e.body.wholeIn("n", -maxPieces, maxPieces); !ok {
		e.odd = true
		e.warn("odd", "this many pieces cannot be")
		return
	}
	l.moves = append(l.moves, e)
}

// Stock is a stock line as a screen shows it.
type Stock struct {
	ID   string   `json:"id"`
	Same []string `json:"same,omitempty"`
	Fields
	N       int64 `json:"n"`
	Counted int64 `json:"counted"` // when it was last counted
	Differs int64 `json:"differs"` // that count minus what was expected
	Again   bool  `json:"again"`   // below zero: count again
}

// stock goes through what was moved and counted in order. It is never held at
// zero: a line below it says that something was not entered.
func (l *line) stock() Stock {
	v := Stock{ID: l.id, Fields: l.fields.view()}
	moves := standing(l.moves)
	order.Sort(moves, byPlace)
	for _, e := range moves {
		n, _ := e.body.whole("n")
		switch e.kind {
		case "part.fitted":
			v.N--
		case "stock.moved":
			v.N += n
		case "stock.counted":
			v.Counted, v.Differs, v.N = e.when(), n-v.N, n
		}
	}
	v.Again = v.N < 0
	return v
}
