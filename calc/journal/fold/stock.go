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
	Name    string `json:"name"`
	Slot    string `json:"slot"`
	Rating  string `json:"rating"`
	Rig     string `json:"rig"`   // whose truck it lies in, "" is the shop
	Price   int64  `json:"price"` // of a piece, hundredths of the crew's currency; 0 if it is not said
	Least   int64  `json:"least"` // the fewest pieces that the crew wants
	Used    int64  `json:"used"`  // fitted since stockDays before the day of the crew's last arc
	N       int64  `json:"n"`
	Counted int64  `json:"counted"` // when it was last counted
	Differs int64  `json:"differs"` // that count minus what was expected
	Again   bool   `json:"again"`   // below zero: count again
}

// stock goes through what was moved and counted in order. It is never held at
// zero: a line below it says that something was not entered.
func (l *stockLine) stock(x *index) Stock {
	if l.cached != nil {
		return *l.cached
	}
	v := Stock{ID: l.id, Fields: l.fields.view(), Name: l.fields.text("name"), Slot: l.fields.text("slot"), Rating: l.fields.text("rating"), Rig: x.same.of(l.fields.text("rig")),
		Price: l.fields.count("price"), Least: l.fields.count("least"), Used: l.used(x.usedFrom)}
	first := true
	for _, e := range l.moves.all() {
		if n := v.N; !e.hidden {
			v.N = after(n, e)
			if e.kind == "stock.counted" {
				v.Counted, v.Differs = e.when(), v.N-n
				if first { // nothing was expected
					v.Differs = 0
				}
			}
			first = false
		}
	}
	v.Again = v.N < 0
	l.cached = &v
	return v
}

// after returns how many pieces there are after a movement, of n before it.
func after(n int64, e *entry) int64 {
	switch e.kind {
	case "part.fitted":
		return n - 1
	case "stock.moved":
		return n + e.pieces
	}
	return e.pieces // they were counted
}

// used returns how many pieces were fitted from the line since then.
func (l *stockLine) used(from int64) int64 {
	n := int64(0)
	for _, e := range slices.Backward(l.moves.all()) {
		if e.when() < from {
			break
		}
		if e.kind == "part.fitted" && !e.hidden {
			n++
		}
	}
	return n
}

// stockDays is how many days before the crew's last arc what is used is counted from: a
// winter without work does not say that nothing is used. A day is one of UTC, so that the
// view does not change with each arc.
const stockDays = 90

const day = 24 * 3600 * 1000 // ms

// noteUsed finds from when on what is used is counted, after arcs came or went.
func (x *index) noteUsed() {
	last := int64(0)
	for _, r := range x.rigs {
		last = max(last, r.timeline.end())
	}
	from := (last/day + 1 - stockDays) * day
	if from == x.usedFrom {
		return
	}
	x.usedFrom, x.stale.stock = from, true
	for _, l := range x.stockLines {
		l.cached = nil
	}
}

// isNothing reports whether nothing of the line stands.
func (l *stockLine) isNothing() bool {
	return l.fields.empty() && !slices.ContainsFunc(l.moves.all(), func(e *entry) bool { return !e.hidden })
}
