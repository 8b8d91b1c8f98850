package book

import (
	"cmp"
	"strconv"
	"strings"

	"kerfside/calc/journal/fold"
)

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
