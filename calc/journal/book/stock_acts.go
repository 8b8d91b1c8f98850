package book

import (
	"cmp"
	"math"
	"strconv"

	"kerfside/calc/journal/fold"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// goneWhy are the reasons for which pieces go that no torch was fitted with.
var goneWhy = []Option{{Word: "lost", Label: "Lost"}, {Word: "damaged", Label: "Damaged"}, {Word: "given", Label: "Given or sold"}, {Word: "used", Label: "Used, not entered"}}

// lineActions are what is seldom done with a line.
func (b *book) lineActions(l *fold.Stock) []Action {
	with := map[string]string{"line": l.ID}
	price := ""
	if l.Price > 0 {
		price = strconv.FormatFloat(float64(l.Price)/100, 'f', 2, 64)
	}
	all := []Action{
		{Label: "Bought", Act: "stock-bought", With: with, Ask: []Ask{{Key: "n", Label: "How many came in?", Count: true}}},
		{Label: "Gone", Act: "stock-gone", With: with, Ask: []Ask{{Key: "n", Label: "How many went?", Count: true}, {Key: "why", Label: "Why?", Options: goneWhy}}},
		{Label: "Its price", Act: "stock-price", With: with, Ask: []Ask{{Key: "price", Label: "What does one cost?", Count: true, Value: price}}},
		{Label: "Lowest count wanted", Act: "stock-least", With: with, Ask: []Ask{{Key: "n", Label: "How many should always be there? 0 leaves it to the list", Count: true, Value: strconv.FormatInt(l.Least, 10)}}},
	}
	if places := b.placesBut(l.Rig); len(places) > 0 {
		all = append(all, Action{Label: "Move to another truck", Act: "stock-move", With: with, Ask: []Ask{{Key: "to", Label: "Where to?", Options: places}, {Key: "n", Label: "How many?", Count: true}}})
	}
	return all
}

// mostPieces bounds a count, so that a slip stands out.
const mostPieces = 100_000

// pieces reads a count of at least so many.
func pieces(text string, least float64) (int64, error) {
	n, err := unit.ReadNumber(text)
	if err != nil || n != math.Trunc(n) || n < least || n > mostPieces {
		return 0, problem.Newf(problem.Range, "n", "%.20q is no whole number from %g to %d", text, least, mostPieces).WithHint("Enter a whole number.")
	}
	return int64(n), nil
}

// ofLine answers a button of a line that wants a count of at least so many.
func (b *book) ofLine(in Act, least float64) (l *fold.Stock, n int64, err error) {
	v, err := b.fold.Line(in.of("line"))
	if err != nil {
		return nil, 0, err
	}
	n, err = pieces(in.of("n"), least)
	return &v.Line, n, err
}

func (b *book) countLine(in Act) (Done, error) {
	l, n, err := b.ofLine(in, 0)
	if err != nil {
		return Done{}, err
	}
	said := lineTitle(l) + " counted: " + strconv.FormatInt(n, 10)
	switch off := n - l.N; {
	case off < 0:
		said += ", " + strconv.FormatInt(-off, 10) + " fewer than entered"
	case off > 0:
		said += ", " + strconv.FormatInt(off, 10) + " more than entered"
	}
	return Done{Said: said + ".", Entries: []Entry{{Kind: "stock.counted", About: l.ID, Body: map[string]any{"n": n}}}}, nil
}

func (b *book) boughtLine(in Act) (Done, error) {
	l, n, err := b.ofLine(in, 1)
	if err != nil {
		return Done{}, err
	}
	return Done{Said: times(n, lower(lineTitle(l))) + " came in.", Entries: []Entry{moved(l.ID, n, "bought")}}, nil
}

func (b *book) goneLine(in Act) (Done, error) {
	l, n, err := b.ofLine(in, 1)
	if err != nil {
		return Done{}, err
	}
	return Done{Said: times(n, lower(lineTitle(l))) + " went.", Entries: []Entry{moved(l.ID, -n, cmp.Or(in.of("why"), "used"))}}, nil
}

func moved(line string, n int64, why string) Entry {
	return Entry{Kind: "stock.moved", About: line, Body: map[string]any{"n": n, "why": why}}
}

// moveLine answers that pieces go to another truck, where a line is made for them if
// there is none.
func (b *book) moveLine(in Act) (Done, error) {
	l, n, err := b.ofLine(in, 1)
	if err != nil {
		return Done{}, err
	}
	to := rigOf(in.of("to"))
	d := Done{Said: times(n, lower(lineTitle(l))) + " moved to " + placeIn(b.place(to)) + ".", Entries: []Entry{moved(l.ID, -n, "moved")}}
	if there := b.sameLine(l.Slot, l.Name, l.Rating, to); there != nil {
		d.Entries = append(d.Entries, moved(there.ID, n, "moved"))
		return d, nil
	}
	body := lineBody(l.Slot, l.Name, l.Rating, to)
	if l.Price > 0 {
		body["price"] = l.Price
	}
	d.Entries = append(d.Entries, Entry{Kind: "line.set", About: NewThing, Body: body}, moved(NewThing, n, "moved"))
	return d, nil
}

func (b *book) priceLine(in Act) (Done, error) {
	v, err := b.fold.Line(in.of("line"))
	if err != nil {
		return Done{}, err
	}
	price, err := hundredthsOf("price", in.of("price"))
	if err != nil {
		return Done{}, err
	}
	return Done{Said: lineTitle(&v.Line) + ": " + b.money(price) + ".", Entries: []Entry{{Kind: "line.set", About: v.Line.ID, Body: map[string]any{"price": price}}}}, nil
}

func (b *book) leastLine(in Act) (Done, error) {
	l, n, err := b.ofLine(in, 0)
	if err != nil {
		return Done{}, err
	}
	said := ": no fewer than " + strconv.FormatInt(n, 10) + " wanted."
	if n == 0 {
		said = ": the lowest count is left to the shopping list."
	}
	return Done{Said: lineTitle(l) + said, Entries: []Entry{{Kind: "line.set", About: l.ID, Body: map[string]any{"least": n}}}}, nil
}
