package book

import (
	"fmt"
	"strconv"
	"strings"

	"kerfside/calc/journal/fold"
	"kerfside/calc/problem"
	"kerfside/calc/sheet"
	"kerfside/calc/unit"
)

// stockColumns are what is read of a file of stock: the columns of stockTable, of which
// part and pieces have to be there.
var stockColumns = []sheet.Column{
	{Key: "part", Title: "Part", Need: true}, {Key: "rating", Title: "Rating"}, {Key: "name", Title: "Name"}, {Key: "truck", Title: "Truck"},
	{Key: "pieces", Title: "Pieces", Type: sheet.Integer, Need: true}, {Key: "least", Title: "Lowest count", Type: sheet.Integer}, {Key: "price", Title: "Price", Type: sheet.Decimal}, {Key: "counted", Title: "Counted"},
}

// importAction reads a file of stock.
func importAction() Action {
	return Action{Label: "Read a list (CSV)", Act: "stock-read", File: ".csv"}
}

// stockChange is what a line of a file changes.
type stockChange struct {
	title   string
	says    []string
	entries []Entry
}

// stockFile is what a file of stock comes to.
type stockFile struct {
	changes  []stockChange
	fresh    int // of these, lines that are new
	same     int // lines that change nothing
	cautions []string
	bad      int // lines
}

// readStock reads a file of stock beside what there is.
func (b *book) readStock(text string) (stockFile, error) {
	var f stockFile
	s, err := sheet.Read(text, stockColumns)
	if err != nil {
		return f, err
	}
	seen := map[string]int{}
	for _, row := range s.Rows {
		c, p := b.stockRow(row, len(f.changes), seen)
		switch {
		case p != nil:
			s.Troubles.Add(row.Line, p)
		case len(c.entries) == 0:
			f.same++
		default:
			if strings.HasPrefix(c.entries[0].About, NewThing) {
				f.fresh++
			}
			f.changes = append(f.changes, c)
		}
	}
	f.cautions, f.bad = cautionsOf(s), len(troublesOf(&s.Troubles))
	return f, nil
}

// stockRow is what one line of the file changes; seen are the lines before it, by what
// they are of.
func (b *book) stockRow(row sheet.Row, n int, seen map[string]int) (stockChange, *problem.Error) {
	cell := func(i int) string { return strings.TrimSpace(row.Cells[i].Text) }
	slot, ok := slotOf(cell(0))
	if !ok {
		return stockChange{}, problem.Newf(problem.Unknown, "part", "%.40q is no part that is known", cell(0)).WithHint("Write tip, electrode, swirl ring, cup, o-ring or head; or other, and its name.")
	}
	rig, p := b.truckOf(cell(3))
	if p != nil {
		return stockChange{}, p
	}
	rating, name, count := cell(1), cell(2), row.Cells[4].Int()
	if slot == "" && name == "" {
		return stockChange{}, problem.New(problem.Missing, "name", "the part has no name", "Write what it is under Name.")
	}
	key := strings.Join([]string{slot, plainRating(rating), rig}, "\n")
	if slot == "" {
		key += "\n" + strings.ToLower(name)
	}
	if line, twice := seen[key]; twice {
		return stockChange{}, problem.Newf(problem.Conflict, "part", "the same part, rating and truck stand on line %d", line).WithHint("Put both into one line.")
	}
	seen[key] = row.Line
	least, price := row.Cells[5].Int(), halfUp(row.Cells[6].Float()*100)
	l, isNew := b.sameLine(slot, name, rating, rig), false
	if l == nil {
		l, isNew = &fold.Stock{Slot: slot, Name: name, Rating: rating, Rig: rig}, true
	}
	switch {
	case count > mostPieces || count < 0 && (isNew || count != l.N):
		return stockChange{}, problem.Newf(problem.Range, "pieces", "%d pieces cannot be", count).WithHint("Write 0 to %d.", mostPieces)
	case least < 0 || least > mostPieces:
		return stockChange{}, problem.Newf(problem.Range, "least", "a lowest count of %d cannot be", least).WithHint("Write 0 to %d.", mostPieces)
	case price < 0 || price > mostMoney:
		return stockChange{}, problem.New(problem.Range, "price", "that price cannot be", "Write an amount of 0 or more.")
	}
	about, body, set := l.ID, map[string]any{}, []string{}
	if isNew {
		about, body = NewThing+strconv.Itoa(n), lineBody(slot, name, rating, rig)
		set = append(set, "New, "+b.at(rig))
	}
	if name != l.Name && name != "" {
		body["name"] = name
		set = append(set, "Name: "+name)
	}
	if row.Cells[5].Type != sheet.None && least != l.Least {
		body["least"] = least
		set = append(set, fmt.Sprintf("Lowest count: %d", least))
	}
	if row.Cells[6].Type != sheet.None && price != l.Price {
		body["price"] = price
		set = append(set, "Price: "+b.money(price))
	}
	c := stockChange{title: lineTitle(l)}
	if !isNew {
		c.title += ", " + placeIn(b.place(rig))
	}
	if len(body) > 0 {
		c.entries = append(c.entries, Entry{Kind: "line.set", About: about, Body: body})
	}
	if isNew || count != l.N {
		c.entries = append(c.entries, Entry{Kind: "stock.counted", About: about, Body: map[string]any{"n": count}})
		said := fmt.Sprintf("Pieces: %d", count)
		if !isNew {
			said = fmt.Sprintf("Pieces: %d, now %d", count, l.N)
		}
		set = append(set, said)
	}
	c.says = set
	return c, nil
}

// slotOf reads a part by its word or as it is called.
func slotOf(text string) (string, bool) {
	text = strings.ToLower(text)
	if text == other || text == "something else" {
		return "", true
	}
	for _, word := range slotOrder {
		if text == word || text == strings.ToLower(slot(word)) {
			return word, true
		}
	}
	return "", false
}

// truckOf reads where a line lies: a truck by its name, or the shop.
func (b *book) truckOf(text string) (string, *problem.Error) {
	low := strings.ToLower(text)
	if low == "" || low == shop || low == "the shop" {
		return "", nil
	}
	found := ""
	var names []string
	for _, id := range b.rigIDs() {
		name := b.rig(id)
		names = append(names, name)
		if strings.ToLower(name) != low {
			continue
		}
		if found != "" {
			return "", problem.Newf(problem.Conflict, "truck", "two trucks are called %.40q", text).WithHint("Give one of them another name first.")
		}
		found = id
	}
	if found == "" {
		return "", problem.Newf(problem.Unknown, "truck", "there is no truck %.40q", text).WithHint("%s", "Write shop, or one of: "+strings.Join(names, ", ")+".")
	}
	return found, nil
}

// stockRead answers a file of stock with what it would change.
func (b *book) stockRead(in Act) (Done, error) {
	f, err := b.readStock(in.of("file"))
	if err != nil {
		return Done{}, err
	}
	r := Report{Title: "Read a stock list", Cautions: f.cautions}
	r.Says = []string{readSays(len(f.changes), f.fresh, f.same, f.bad)}
	s := Section{Title: "What changes"}
	for _, c := range f.changes {
		s.Rows = append(s.Rows, Row{Title: c.title, Says: c.says})
	}
	if len(f.changes) > 0 {
		r.Sections = []Section{s}
		r.Actions = []Action{{Label: "Enter " + unit.Count(len(f.changes), "change", "changes"), Act: "stock-enter", With: map[string]string{"file": in.of("file")}}}
	}
	r.Sections = append(r.Sections, Section{Title: "How such a file looks", Says: []string{
		"The first line names the columns, in any order: part, rating, name, truck, pieces, least, price, counted.",
		"Part and pieces have to be there. Part is tip, electrode, swirl ring, cup, o-ring, head, or other with a name. Truck is its name, or shop.",
		"A line is the one of that part, rating and truck. Its pieces are a count; least and price stay as they are where nothing stands.",
		"Counted is written and not read: what is read is counted now."}})
	return Done{Report: &r}, nil
}

// readSays is what a file comes to, in a sentence.
func readSays(changes, fresh, same, bad int) string {
	said := "Nothing is entered yet: " + unit.Count(changes-fresh, "line changes", "lines change") + ", " + unit.Count(fresh, "is new", "are new") + ", " + unit.Count(same, "stays as it is", "stay as they are")
	if changes == 0 {
		said = "This file changes nothing"
	}
	if bad > 0 {
		said += "; " + unit.Count(bad, "trouble stands", "troubles stand") + " below, and those lines are left out"
	}
	return said + "."
}

// stockEnter answers that what a file changes be entered.
func (b *book) stockEnter(in Act) (Done, error) {
	f, err := b.readStock(in.of("file"))
	if err != nil {
		return Done{}, err
	}
	d := Done{Said: unit.Count(len(f.changes), "change", "changes") + " entered.", Href: "/book/stock"}
	for _, c := range f.changes {
		d.Entries = append(d.Entries, c.entries...)
	}
	return d, nil
}
