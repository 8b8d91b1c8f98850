package main

import (
	"fmt"
	"time"
)

// demoLine is a stock line of each truck: what a piece costs in hundredths, the lowest
// count that the crew wants, and how many are bought at once.
type demoLine struct {
	name                string
	price, least, packs int
}

var demoLines = map[string]demoLine{
	"tip":       {name: "Cutting tip", price: 390, least: 3, packs: 10},
	"electrode": {name: "Electrode", price: 620, least: 2, packs: 5},
	"diffuser":  {name: "Swirl ring", price: 1450, least: 1, packs: 2},
	"cup":       {name: "Cup", price: 1890, least: 1, packs: 2},
	"o-ring":    {name: "O-ring", price: 80, least: 4, packs: 10},
}

// line is the id of the truck's stock line of a slot.
func (t *demoTruck) line(slot string) string { return t.id("line " + t.key + slot) }

// stockUp fills the truck's shelf.
func (t *demoTruck) stockUp() {
	for _, slot := range demoSlots {
		line, rating := demoLines[slot], fmt.Sprintf("%d A", demoTips[t.key].amps)
		t.tap("line.set", body{"about": t.line(slot)}, body{"name": line.name + ", " + rating, "slot": slot, "rating": rating, "rig": t.rig, "price": line.price, "least": line.least})
		t.stock[slot] = line.least + line.packs
		t.tap("stock.counted", body{"about": t.line(slot)}, body{"n": t.stock[slot]})
	}
}

// restock buys what has run low, and counts a line now and then.
func (t *demoTruck) restock() {
	for _, slot := range demoSlots {
		line := demoLines[slot]
		if t.stock[slot] <= line.least {
			t.stock[slot] += line.packs
			t.tap("stock.moved", body{"about": t.line(slot)}, body{"n": line.packs, "why": "bought"})
		}
		if t.likely(0.04) {
			if t.stock[slot] > 1 && t.likely(0.3) { // one went without an entry
				t.stock[slot]--
			}
			t.wait(time.Minute)
			t.tap("stock.counted", body{"about": t.line(slot)}, body{"n": t.stock[slot]})
		}
	}
}

// wantMore sets the lowest count of a line above what lies there: the next job takes more
// than usual.
func (t *demoTruck) wantMore(slot string) {
	t.tap("line.set", body{"about": t.line(slot)}, body{"least": t.stock[slot] + 2})
}
