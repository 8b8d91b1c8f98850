package fold

import "slices"

// stockLine is a stock line: so many pieces of one kind.
type stockLine struct {
	id     string
	fields register
	moves  sortedList[*entry] // stock.moved, stock.counted, and part.fitted from it

	cached *Stock // computed; nil if something changed since
}

// maxPieces bounds one movement or count, so that a slip cannot make sums
// overflow.
const maxPieces = 1_000_000

// stockLine returns the stock line of that id, a new one if need be.
func (x *index) stockLine(id string) *stockLine {
	l := x.stockLines[id]
	if l == nil {
		l = &stockLine{id: id, fields: register{}, moves: sortedList[*entry]{compare: byPlace}}
		x.stockLines[id] = l
	}
	return l
}

var stockFamily = family{kinds: []string{"line.set", "stock.moved", "stock.counted"}, add: (*index).addStock, drop: (*index).dropStock}

// addStock takes what is said about a line.
func (x *index) addStock(e *entry) {
	l := x.stockLine(x.same.of(e.about))
	if e.kind == "line.set" {
		l.fields.set(e)
		l.cached, x.stale.stock = nil, true
		return
	}
	n, ok := e.body.IntIn("n", -maxPieces, maxPieces)
	if !ok {
		e.odd = true
		e.warn("odd", "this many pieces cannot be")
		return
	}
	e.pieces = n
	l.put(x, e)
}

// dropStock takes it out again.
func (x *index) dropStock(e *entry) {
	l := x.stockLine(x.same.of(e.about))
	if e.kind == "line.set" {
		l.fields.unset(e)
		l.cached, x.stale.stock = nil, true
		return
	}
	l.remove(x, e)
}

// put adds a movement.
func (l *stockLine) put(x *index, e *entry) {
	l.moves.put(e)
	l.cached, x.stale.stock = nil, true
}

// remove takes a movement out again.
func (l *stockLine) remove(x *index, e *entry) {
	l.moves.remove(e)
	l.cached, x.stale.stock = nil, true
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
func (l *stockLine) stock() Stock {
	if l.cached != nil {
		return *l.cached
	}
	v := Stock{ID: l.id, Fields: l.fields.view()}
	for _, e := range l.moves.all() {
		switch {
		case e.hidden:
		case e.kind == "part.fitted":
			v.N--
		case e.kind == "stock.moved":
			v.N += e.pieces
		case e.kind == "stock.counted":
			v.Counted, v.Differs, v.N = e.when(), e.pieces-v.N, e.pieces
		}
	}
	v.Again = v.N < 0
	l.cached = &v
	return v
}

// moved reports whether any piece came, went or was counted.
func (l *stockLine) moved() bool {
	return slices.ContainsFunc(l.moves.all(), func(e *entry) bool { return !e.hidden })
}
