package book

import (
	"cmp"

	"kerfside/calc/journal/fold"
	"kerfside/calc/order"
)

// shop is the word for where a line lies that is on no truck.
const shop = "shop"

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

func placeIn(place string) string {
	if place == "The shop" {
		return "the shop"
	}
	return place
}

// truckWord is a place in a file: the truck's name, and "shop".
func (b *book) truckWord(rig string) string {
	if rig == "" {
		return shop
	}
	return b.rig(rig)
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

// rigOf reads where a line lies.
func rigOf(word string) string {
	if word == shop {
		return ""
	}
	return word
}
