package book

import (
	"strconv"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/journal/fold"
	"kerfside/calc/problem"
)

// other is the word for a line that fits no slot of a torch.
const other = "other"

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
