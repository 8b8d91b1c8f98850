package book

import (
	"strconv"

	"kerfside/calc/journal/fold"
	"kerfside/calc/order"
)

// stock reports what lies where, and what the jobs ahead want of it.
func (b *book) stock() (Report, error) {
	r := Report{Title: "Stock", Actions: []Action{b.newLineAction()}}
	places, lines := b.stockByPlace()
	if len(places) == 0 {
		r.Says = []string{"No stock is entered yet.", "Enter a line for each part of each rating, and for each truck that it lies in."}
		r.Actions = append(r.Actions, importAction())
		return r, nil
	}
	shopping, err := b.shopping()
	if err != nil {
		return r, err
	}
	r.Says = []string{b.stockSays(lines, shopping)}
	r.Sections = []Section{{Rows: []Row{{Title: "Shopping list", Says: []string{b.costSays(shopping)}, Href: "/book/shopping"}}}}
	for _, at := range places {
		s := Section{Title: b.place(at)}
		for _, l := range lines[at] {
			s.Rows = append(s.Rows, b.lineRow(l))
		}
		r.Sections = append(r.Sections, s)
	}
	for i := range shopping.needs {
		n := &shopping.needs[i]
		if len(n.jobs)+len(n.cause)+n.old == 0 {
			continue
		}
		r.Sections = append(r.Sections, b.needSections(n)...)
	}
	table := b.stockTable()
	r.Sections = append(r.Sections, Section{Title: "All lines", Folded: true, Table: &table, Actions: []Action{importAction()}})
	return r, nil
}

// stockSays is what of the stock wants doing, in a sentence.
func (b *book) stockSays(lines map[string][]*fold.Stock, list shopping) string {
	var again []string
	for _, at := range order.Keys(lines) {
		for _, l := range lines[at] {
			if l.Again {
				again = append(again, lineTitle(l)+" "+b.at(at))
			}
		}
	}
	switch buys := list.bought(); {
	case len(again) > 0:
		return "Count again: " + lower(again[0]) + more(len(again)-1) + "."
	case len(buys) > 0:
		return "Buy for " + placeIn(b.place(buys[0].rig)) + ": " + times(buys[0].n, lower(buys[0].title)) + more(len(buys)-1) + "."
	case len(list.items) > 0:
		return "Move from the shop to " + b.rig(list.items[0].rig) + ": " + times(list.items[0].move, lower(list.items[0].title)) + more(len(list.items)-1) + "."
	}
	return "Nothing is short."
}

// times is so many of a thing: 3 × cutting tip 45 A.
func times(n int64, what string) string { return strconv.FormatInt(n, 10) + " × " + what }

// more says that there is more of a sort than the one that was told.
func more(n int) string {
	if n <= 0 {
		return ""
	}
	return ", and " + strconv.Itoa(n) + " more"
}
