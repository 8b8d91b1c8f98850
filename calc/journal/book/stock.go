package book

import (
	"cmp"
	"math"
	"strconv"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/journal/fold"
	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// shop is the word for where a line lies that is on no truck.
const shop = "shop"

// other is the word for a line that fits no slot of a torch.
const other = "other"

// place names where a line lies.
func (b *book) place(rig string) string {
	if rig == "" {
		return "The shop"
	}
	return b.rig(rig)
}

// at is where a line lies, within a sentence.
func (b *book) at(rig string) string {
	if rig == "" {
		return "in the shop"
	}
	return "on " + b.rig(rig)
}

// lineTitle is a stock line as people call it.
func lineTitle(l *fold.Stock) string {
	title := l.Name
	if title == "" {
		title = capital(slot(l.Slot))
	}
	if l.Rating != "" && !strings.Contains(title, l.Rating) {
		title += " " + l.Rating
	}
	return cmp.Or(title, "A line without a name")
}

// stockByPlace are the stock lines by where they lie, and the places in their order: the
// trucks by name, then the shop.
func (b *book) stockByPlace() (places []string, lines map[string][]*fold.Stock) {
	lines = map[string][]*fold.Stock{}
	all := b.fold.Stocks().Lines
	for i := range all {
		l := &all[i]
		if len(lines[l.Rig]) == 0 && l.Rig != "" {
			places = append(places, l.Rig)
		}
		lines[l.Rig] = append(lines[l.Rig], l)
	}
	order.Sort(places, func(x, y string) int { return cmp.Or(cmp.Compare(b.rig(x), b.rig(y)), cmp.Compare(x, y)) })
	if len(lines[""]) > 0 {
		places = append(places, "")
	}
	for _, list := range lines {
		order.Sort(list, func(x, y *fold.Stock) int {
			return cmp.Or(cmp.Compare(slotPlace(x.Slot), slotPlace(y.Slot)), cmp.Compare(lineTitle(x), lineTitle(y)), cmp.Compare(x.ID, y.ID))
		})
	}
	return places, lines
}

func slotPlace(word string) int {
	for i, s := range slotOrder {
		if s == word {
			return i
		}
	}
	return len(slotOrder)
}

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

func placeIn(place string) string {
	if place == "The shop" {
		return "the shop"
	}
	return place
}

// more says that there is more of a sort than the one that was told.
func more(n int) string {
	if n <= 0 {
		return ""
	}
	return ", and " + strconv.Itoa(n) + " more"
}

// lineRow is a line in the list.
func (b *book) lineRow(l *fold.Stock) Row {
	row := Row{Title: lineTitle(l), Href: "/book/line/" + l.ID, Says: b.lineSays(l)}
	switch {
	case l.Again:
		row.Tag = "count again"
	case l.N < l.Least:
		row.Tag = "low"
	}
	return row
}

// lineSays is how many there are, how sure that is, and what goes.
func (b *book) lineSays(l *fold.Stock) []string {
	says := []string{strconv.FormatInt(l.N, 10) + " left"}
	switch {
	case l.Again:
		says[0] = "Should be " + strconv.FormatInt(l.N, 10) + ": something was not entered."
	case l.Least > 0:
		says[0] += ", no fewer than " + strconv.FormatInt(l.Least, 10) + " wanted"
	}
	if l.Counted == 0 {
		says = append(says, "Never counted")
	} else {
		counted := "Counted " + b.day(l.Counted)
		switch {
		case l.Differs < 0:
			counted += ": " + strconv.FormatInt(-l.Differs, 10) + " fewer than entered"
		case l.Differs > 0:
			counted += ": " + strconv.FormatInt(l.Differs, 10) + " more than entered"
		}
		says = append(says, counted)
	}
	if l.Used > 0 {
		says = append(says, strconv.FormatInt(l.Used, 10)+" fitted in the last 90 days of work")
	}
	return says
}

// stockTable is the stock as a table, and the file of it. What it has is read again from
// a file, by these keys: see readStock.
func (b *book) stockTable() Table {
	t := Table{Columns: []Column{
		{Key: "part", Title: "Part"}, {Key: "rating", Title: "Rating"}, {Key: "name", Title: "Name"}, {Key: "truck", Title: "Truck"},
		{Key: "pieces", Title: "Pieces", Number: true}, {Key: "least", Title: "Lowest count", Number: true}, {Key: "price", Title: "Price", Unit: b.setting("currency"), Number: true}, {Key: "counted", Title: "Counted", Number: true},
	}}
	places, lines := b.stockByPlace()
	for _, at := range places {
		for _, l := range lines[at] {
			row := []Cell{{Text: capital(slot(l.Slot)), Plain: l.Slot, Href: "/book/line/" + l.ID}, {Text: l.Rating}, {Text: l.Name}, {Text: b.place(at), Plain: b.truckWord(at)},
				number(l.N), {}, {}, {}}
			if l.Slot == "" {
				row[0].Text, row[0].Plain = "Something else", other
			}
			if l.Least > 0 {
				row[5] = number(l.Least)
			}
			if l.Price > 0 {
				row[6] = Cell{Text: b.money(l.Price), Value: float64(l.Price), Plain: strconv.FormatFloat(float64(l.Price)/100, 'f', 2, 64)}
			}
			if l.Counted > 0 {
				row[7] = Cell{Text: b.day(l.Counted), Value: float64(l.Counted), Plain: b.stamp(l.Counted)}
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// truckWord is a place in a file: the truck's name, and "shop".
func (b *book) truckWord(rig string) string {
	if rig == "" {
		return shop
	}
	return b.rig(rig)
}

func number(n int64) Cell { return Cell{Text: strconv.FormatInt(n, 10), Value: float64(n)} }

// line reports a stock line: what there is, what came and went, and its buttons.
func (b *book) line() (Report, error) {
	v, err := b.fold.Line(b.ID)
	if err != nil {
		return Report{}, err
	}
	l := &v.Line
	r := Report{Title: lineTitle(l), Says: []string{strconv.FormatInt(l.N, 10) + " left " + b.at(l.Rig) + "."}}
	if l.Again {
		r.Says = []string{"Count again: there should be " + strconv.FormatInt(l.N, 10) + " " + b.at(l.Rig) + ", so something was not entered."}
	}
	figures := Section{}
	for _, said := range b.lineSays(l)[1:] {
		figures.Says = append(figures.Says, said+".")
	}
	if l.Least > 0 {
		figures.Figures = append(figures.Figures, Figure{Label: "Lowest count wanted", Text: strconv.FormatInt(l.Least, 10)})
	}
	if l.Price > 0 {
		figures.Figures = append(figures.Figures, Figure{Label: "Price of one", Text: b.money(l.Price)}, Figure{Label: "What lies there costs", Text: b.money(l.Price * max(l.N, 0))})
	}
	history := Section{Title: "Came and went"}
	for _, m := range v.Moves {
		history.Rows = append(history.Rows, b.moveRow(m))
	}
	if len(v.Moves) == 0 {
		history.Says = []string{"Nothing yet."}
	}
	figures.Actions = b.lineActions(l)
	r.Sections = []Section{figures, history}
	with := map[string]string{"line": l.ID}
	r.Actions = []Action{
		{Label: "Count it", Act: "stock-count", With: with, Ask: []Ask{{Key: "n", Label: "How many are there?", Count: true}}},
	}
	return r, nil
}

// goneWhy are the reasons for which pieces go that no torch was fitted with.
var goneWhy = []Option{{Word: "lost", Label: "Lost"}, {Word: "damaged", Label: "Damaged"}, {Word: "given", Label: "Given or sold"}, {Word: "used", Label: "Used, not entered"}}

// moveWords say why pieces came or went.
var moveWords = map[string]string{"bought": "Bought", "moved": "Moved", "lost": "Lost", "damaged": "Damaged", "given": "Given or sold", "used": "Used"}

func (b *book) moveRow(m fold.StockMove) Row {
	title := moveWords[m.Why]
	if title == "" {
		title = cmp.Or(capital(spaced(m.Why)), "Moved")
	}
	switch {
	case m.Kind == "stock.counted":
		title = "Counted: " + strconv.FormatInt(m.N, 10)
	case m.Kind == "part.fitted":
		title = "Fitted to " + b.rig(m.Rig)
	case m.N < 0:
		title += ": " + strconv.FormatInt(-m.N, 10) + " out"
	default:
		title += ": " + strconv.FormatInt(m.N, 10) + " in"
	}
	row := Row{Title: title, Says: []string{b.when(m.At), strconv.FormatInt(m.After, 10) + " left after it"}}
	if m.Part != "" {
		row.Href = "/book/part/" + m.Part
	}
	return row
}

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

// placesBut are the trucks and the shop without one of them.
func (b *book) placesBut(rig string) []Option {
	var all []Option
	for _, id := range b.rigIDs() {
		if id != rig {
			all = append(all, Option{Word: id, Label: b.rig(id)})
		}
	}
	if rig != "" {
		all = append(all, Option{Word: shop, Label: "The shop"})
	}
	return all
}

// newLineAction asks for all of a line that has to be known.
func (b *book) newLineAction() Action {
	which := Ask{Key: "slot", Label: "Which part?"}
	for _, word := range slotOrder[:5] {
		which.Options = append(which.Options, Option{Word: word, Label: capital(slot(word))})
	}
	which.Options = append(which.Options, Option{Word: other, Label: "Something else"})
	asks := []Ask{which, {Key: "name", Label: "What is it?", Only: form.When("slot", other)},
		{Key: "rating", Label: "For what current or size, such as 45 A? Leave it empty if there is only one."}}
	if places := b.placesBut("-"); len(places) > 1 {
		asks = append(asks, Ask{Key: "rig", Label: "Where does it lie?", Options: places, Value: b.Rig})
	}
	return Action{Label: "A new line", Act: "stock-new", Ask: append(asks, Ask{Key: "n", Label: "How many are there?", Count: true})}
}

// rigOf reads where a line lies.
func rigOf(word string) string {
	if word == shop {
		return ""
	}
	return word
}

// sameLine is the line of that part and rating there, nil if there is none.
func (b *book) sameLine(slot, name, rating, rig string) *fold.Stock {
	all := b.fold.Stocks().Lines
	for i := range all {
		if l := &all[i]; l.Rig == rig && l.Slot == slot && (slot != "" || strings.EqualFold(l.Name, name)) && plainRating(l.Rating) == plainRating(rating) {
			return l
		}
	}
	return nil
}

// plainRating is a rating as it is compared: 45 A is 45a.
func plainRating(text string) string { return strings.ToLower(strings.Join(strings.Fields(text), "")) }

// newLine answers a new line.
func (b *book) newLine(in Act) (Done, error) {
	slot, name, rating, rig := in.of("slot"), strings.TrimSpace(in.of("name")), strings.TrimSpace(in.of("rating")), rigOf(in.of("rig"))
	if slot == other {
		slot = ""
		if name == "" {
			return Done{}, problem.New(problem.Missing, "name", "the line has no name", "Write what it is, such as: Wipes.")
		}
	}
	n, err := pieces(in.of("n"), 0)
	if err != nil {
		return Done{}, err
	}
	if l := b.sameLine(slot, name, rating, rig); l != nil {
		return Done{}, problem.Newf(problem.Conflict, "rating", "%s is a line already, %s", lineTitle(l), b.at(rig)).WithHint("Enter another rating, or leave this and count that line.")
	}
	body := lineBody(slot, name, rating, rig)
	return Done{Said: lineTitle(&fold.Stock{Slot: slot, Name: name, Rating: rating}) + ": " + strconv.FormatInt(n, 10) + " " + b.at(rig) + ".", Entries: []Entry{
		{Kind: "line.set", About: NewThing, Body: body}, {Kind: "stock.counted", About: NewThing, Body: map[string]any{"n": n}}}}, nil
}

func lineBody(slot, name, rating, rig string) map[string]any {
	body := map[string]any{}
	for key, text := range map[string]string{"slot": slot, "name": name, "rating": rating, "rig": rig} {
		if text != "" {
			body[key] = text
		}
	}
	return body
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
