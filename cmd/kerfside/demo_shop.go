package main

import (
	"fmt"
	"strings"
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

// demoTax is on each price, as it was typed.
const demoTax = "20%"

// number is that of the truck's next paper: the first truck has the odd ones.
func (t *demoTruck) number() string {
	n := 2*t.jobs - 1
	if t.key != demoTrucks[0] {
		n++
	}
	return fmt.Sprintf("%d-%03d", time.UnixMilli(t.at).Year(), n)
}

// quote says what a job is to cost: so much for a metre of cut, and for coming out.
func (t *demoTruck) quote(j *demoJob) {
	const perMetre, call = 900, 6500 // hundredths
	price, lines := float64(call), []string{}
	for _, c := range j.cuts {
		price += perMetre * float64(c.count) * float64(c.length) / 1e6
		lines = append(lines, fmt.Sprintf("%d × %s, %d mm %s", c.count, c.name, c.plate/1000, strings.ReplaceAll(c.metal, "-", " ")))
	}
	t.wait(20 * time.Minute)
	t.tap("job.set", body{"about": j.id}, body{"quote": body{"number": t.number(), "at": t.at + demoStep, "price": 500 * int64(price/500), "tax": 200_000, "days": 30, "lines": lines}})
}

// demoUpkeep is how often a task is done, in days. The filter of the first truck has been
// forgotten for some time.
var demoUpkeep = []struct {
	task   string
	days   int
	limits body
}{
	{task: "filter", days: 60, limits: body{"days": 60}},
	{task: "oil", days: 90, limits: body{"days": 90, "hours": (250 * time.Hour).Milliseconds()}},
	{task: "lead", days: 30, limits: body{"days": 30}},
	{task: "blow-out", days: 45, limits: body{"days": 45, "arc": (12 * time.Hour).Milliseconds()}},
	{task: "belt", days: 120, limits: body{"days": 120, "name": "Compressor belt"}},
	{task: "extinguisher", days: 365, limits: body{"days": 365}},
}

// plansUpkeep sets how often each task is due on the truck, and does all of them once.
func (t *demoTruck) plansUpkeep() {
	set := body{}
	for _, one := range demoUpkeep {
		set["upkeep."+one.task] = one.limits
	}
	t.tap("rig.set", body{"about": t.rig}, set)
	t.keepUp(demoDays)
}

// keepUp does what is due on the morning of so many days ago. In the last days that is all
// that would be due by today.
func (t *demoTruck) keepUp(ago int) {
	for _, one := range demoUpkeep {
		last, any := t.kept[one.task]
		forgotten := one.task == "filter" && t.key == "truck-1" && ago < 75
		soon := 0
		if ago <= demoLastWeek {
			soon = demoLastWeek + 4
		}
		if any && last-ago < one.days-soon || forgotten {
			continue
		}
		t.kept[one.task] = ago
		t.wait(4 * time.Minute)
		switch one.task {
		case "filter":
			t.tap("filter.changed", nil, body{"rig": t.rig})
		case "extinguisher": // by the date on its label, a few weeks ahead
			t.tap("upkeep.done", nil, body{"task": one.task, "rig": t.rig, "next": t.now.AddDate(0, 0, 24).UnixMilli(), "note": "label read"})
		default:
			t.tap("upkeep.done", nil, body{"task": one.task, "rig": t.rig})
		}
	}
}
