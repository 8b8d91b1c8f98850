package book

import (
	"strconv"
	"strings"

	"kerfside/calc/journal/fold"
	"kerfside/calc/unit"
)

// shopping is what is short, and where it comes from.
type shopping struct {
	needs []need
	items []item
}

// item is a line of the shopping list.
type item struct {
	line  string // its id; "" if there is none yet
	title string
	rig   string // for which truck; "" is the shop
	n     int64  // to buy
	move  int64  // that the shop has for it
	why   []string
	price int64 // of one; 0 if it is not known
}

// bought are the items of which something is to be bought.
func (s shopping) bought() []item {
	var list []item
	for _, i := range s.items {
		if i.n > 0 {
			list = append(list, i)
		}
	}
	return list
}

// shopping finds what is short: by line below the lowest count that the crew wants; by
// truck and kind of part below what the jobs ahead want, and where the crew wants
// nothing, below what a usual day does, and one full set at least. What the shop has over
// its own lowest count is moved, and only the rest bought.
func (b *book) shopping() (shopping, error) {
	places, lines := b.stockByPlace()
	needs, err := b.needs(lines)
	if err != nil {
		return shopping{}, err
	}
	list := shopping{needs: needs}
	spare := map[string]int64{} // that the shop can give, by line
	for _, l := range lines[""] {
		spare[l.ID] = max(l.N-l.Least, 0)
	}
	for k := range needs {
		n := &needs[k]
		for _, i := range b.short(n, lines[n.rig]) {
			for _, l := range lines[""] {
				if give := min(spare[l.ID], i.n); give > 0 && i.of(l) {
					i.move, i.n = i.move+give, i.n-give
					spare[l.ID] -= give
				}
			}
			list.items = append(list.items, i.item)
		}
	}
	for _, at := range places {
		if _, known := b.thing(at); at != "" && known {
			continue // it is among the needs
		}
		for _, l := range lines[at] {
			if l.N < l.Least {
				list.items = append(list.items, item{line: l.ID, title: lineTitle(l), rig: at, n: l.Least - max(l.N, 0), price: l.Price, why: []string{belowLeast(l)}})
			}
		}
	}
	return list, nil
}

func belowLeast(l *fold.Stock) string {
	return "below the lowest count of " + strconv.FormatInt(l.Least, 10)
}

// wanted is an item with what serves for it.
type wanted struct {
	item
	slot, name, rating string
}

// of reports whether a line of the shop holds the same parts.
func (w *wanted) of(l *fold.Stock) bool {
	return l.Slot == w.slot && (l.Slot != "" || strings.EqualFold(l.Name, w.name)) && (plainRating(l.Rating) == plainRating(w.rating) || w.rating == "" && w.line == "")
}

// short is what a truck is short of.
func (b *book) short(n *need, lines []*fold.Stock) []wanted {
	var all []wanted
	at := map[string]int{} // a line's place among them
	add := func(l *fold.Stock, pieces int64, why string) {
		key := l.ID + l.Slot // a kind of part may have no line yet
		i, ok := at[key]
		if !ok {
			i = len(all)
			at[key] = i
			all = append(all, wanted{item: item{line: l.ID, title: lineTitle(l), rig: n.rig, price: l.Price}, slot: l.Slot, name: l.Name, rating: l.Rating})
		}
		w := &all[i]
		w.n, w.why = max(w.n, pieces), append(w.why, why)
	}
	for _, l := range lines {
		if l.N < l.Least {
			add(l, l.Least-max(l.N, 0), belowLeast(l))
		}
	}
	for i, slot := range spareSlots {
		line, least := n.lineOf(slot, lines)
		have := int64(n.have[i])
		if n.buy != nil && n.buy[i] > 0 {
			_, odds, _ := n.told.Told("enough")
			add(line, int64(n.buy[i]), "for "+jobNames(n.jobs)+": then enough in "+odds)
		}
		if least > 0 { // what the crew wants counts
			continue
		}
		if day := int64(n.day[i]); have < day {
			add(line, day-have, b.dayWhy(n, day))
		}
	}
	return all
}

// lineOf is the line that a kind of part of a truck is bought into, the first that
// fits: one without an id if there is none. Least is the highest count that the crew
// wants of that kind.
func (n *need) lineOf(slot string, lines []*fold.Stock) (line *fold.Stock, least int64) {
	line = &fold.Stock{Slot: slot}
	if slot == "tip" && n.rated != "" {
		line.Rating = n.ratedSays()
	}
	found := false
	for _, l := range lines {
		if l.Slot == slot && n.fits(l) {
			least = max(least, l.Least)
			if !found {
				line, found = l, true
			}
		}
	}
	return line, least
}

// dayWhy says why so many are the fewest to carry.
func (b *book) dayWhy(n *need, day int64) string {
	if n.dayFrom == 0 || day <= 1 {
		return "one full set to spare, common practice"
	}
	return "for a usual day: " + sayMinutes(n.dayUse.Minutes) + " of arc and " + starts(int64(n.dayUse.Starts)) + ", the middle of the last " + strconv.Itoa(n.dayFrom) + " sessions"
}

// shoppingList reports what to buy, by truck, and what that costs.
func (b *book) shoppingList() (Report, error) {
	r := Report{Title: "Shopping list", Paper: true}
	list, err := b.shopping()
	if err != nil {
		return r, err
	}
	r.Says = []string{b.costSays(list)}
	var moves Section
	last := "-"
	for _, i := range list.bought() {
		if i.rig != last {
			r.Sections = append(r.Sections, Section{Title: "For " + placeIn(b.place(i.rig))})
			last = i.rig
		}
		s := &r.Sections[len(r.Sections)-1]
		row := Row{Title: times(i.n, i.title), Says: []string{capital(strings.Join(i.why, "; ")) + "."}}
		if i.price > 0 {
			row.Says = append(row.Says, b.money(i.price*i.n)+", "+b.money(i.price)+" each")
		}
		if i.line != "" {
			row.Href = "/book/line/" + i.line
		}
		s.Rows = append(s.Rows, row)
	}
	for _, i := range list.items {
		if i.move > 0 {
			moves.Rows = append(moves.Rows, Row{Title: times(i.move, i.title) + " to " + b.rig(i.rig), Says: []string{capital(strings.Join(i.why, "; ")) + "."}})
		}
	}
	if len(moves.Rows) > 0 {
		moves.Title = "Move from the shop"
		r.Sections = append(r.Sections, moves)
	}
	for _, n := range list.needs {
		r.Cautions = append(r.Cautions, n.cause...)
	}
	r.Sections = append(r.Sections, Section{Title: "How it is reckoned", Says: b.reckoned(list)})
	if len(list.items) > 0 {
		r.Actions = []Action{{Label: "Send it", Act: "shopping-words"}, {Label: "Print", Print: true}}
	}
	return r, nil
}

// costSays is the answer of the list: how much, and what it costs.
func (b *book) costSays(list shopping) string {
	buys := list.bought()
	var pieces, cost, unpriced int64
	for _, i := range buys {
		pieces += i.n
		cost += i.n * i.price
		if i.price == 0 {
			unpriced++
		}
	}
	switch {
	case len(buys) == 0 && len(list.items) > 0:
		return "Nothing to buy: the shop has what the trucks lack."
	case len(buys) == 0:
		return "Nothing to buy."
	}
	said := "Buy " + unit.Count(pieces, "piece", "pieces") + " of " + unit.Count(len(buys), "line", "lines")
	switch {
	case cost == 0:
		return said + ". No price is known."
	case unpriced > 0:
		return said + ": " + b.money(cost) + ", and " + unit.Count(unpriced, "line", "lines") + " without a price."
	}
	return said + ": " + b.money(cost) + "."
}

// reckoned says what the list rests on, by truck.
func (b *book) reckoned(list shopping) []string {
	says := []string{"The lowest count that you wrote on a line counts first."}
	for _, n := range list.needs {
		if n.dayFrom > 0 {
			says = append(says, "Else, "+b.rig(n.rig)+": what is enough on 19 of 20 usual days, whatever is in the torch: "+sayMinutes(n.dayUse.Minutes)+" of arc and "+starts(int64(n.dayUse.Starts))+", the middle of its last "+strconv.Itoa(n.dayFrom)+" sessions; one full set at least, common practice.")
		} else {
			says = append(says, "Else, "+b.rig(n.rig)+": one full set to spare, common practice. Too few sessions tell of a usual day.")
		}
	}
	return says
}

// shoppingWords answers the list as words to send.
func (b *book) shoppingWords(Act) (Done, error) {
	list, err := b.shopping()
	if err != nil {
		return Done{}, err
	}
	var t strings.Builder
	t.WriteString("Shopping list, " + b.date(b.Now) + "\n")
	last := "-"
	for _, i := range list.bought() {
		if i.rig != last {
			t.WriteString("\nFor " + placeIn(b.place(i.rig)) + ":\n")
			last = i.rig
		}
		t.WriteString(times(i.n, i.title))
		if i.price > 0 {
			t.WriteString(", " + b.money(i.price*i.n))
		}
		t.WriteString("\n")
	}
	t.WriteString("\n" + b.costSays(list) + "\n")
	return Done{Text: t.String()}, nil
}
