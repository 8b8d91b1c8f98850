package main

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"kerfside/calc/journal/exchange"
)

// body is short for the many literals below.
type body = map[string]any

// demoDays is how far back the demo goes.
const demoDays = 182

// demoLastWeek is how many days ago the days begin that are told in full.
const demoLastWeek = 8

// demoTrucks are the trucks by their keys.
var demoTrucks = []string{"truck-1", "truck-2"}

// demoRigs are the two trucks, each with its machine, compressor, hose and cord.
var demoRigs = map[string]body{
	"truck-1": {
		"name": "Truck 1, 45 A", "min_current": "15A", "max_current": "45A", "tips": "25A:0.8mm,45A:1.05mm", "fitted": "45A",
		"pressure_kind": "fixed", "pressure": "5bar", "plate_volts": "230V", "duty_points": "45A:40%,35A:60%", "power_factor": "0.95", "machine_efficiency": "85%", "least_volts": "207V",
		"air_need": "170l/min", "air_least": "4.5bar", "free_air": "220l/min", "tank": "50l", "cut_in": "6bar", "cut_out": "8bar",
		"hose_length": "15m", "bore": "9.5mm", "couplers": "2", "size": "2.5mm2", "cord_length": "20m",
	},
	"truck-2": {
		"name": "Truck 2, 60 A", "min_current": "20A", "max_current": "60A", "tips": "40A:1mm,60A:1.2mm", "fitted": "60A",
		"pressure_kind": "fixed", "pressure": "5.2bar", "plate_volts": "230V", "duty_points": "60A:50%", "power_factor": "0.95", "machine_efficiency": "85%", "least_volts": "207V",
		"air_need": "190l/min", "air_least": "4.7bar", "free_air": "300l/min", "tank": "100l", "cut_in": "6.5bar", "cut_out": "9bar",
		"hose_length": "10m", "bore": "9.5mm", "couplers": "2", "size": "6mm2", "cord_length": "15m",
	},
}

// demoSites are where they work. At the hill gate a long thin cord carries less than
// the plan asks for, and the phone says what helps. It
// comes first by its id, so a phone that has picked none takes it.
var demoSites = map[string]body{
	"yard": {"name": "Own yard", "volts": "230V", "breaker": "32A"},
	"hill": {"name": "Hill gate, far socket", "volts": "230V", "breaker": "16A", "size": "2.5mm2", "cord_length": "40m", "drop_advice": "5%"},
	"pit":  {"name": "Quarry shed", "volts": "232V", "breaker": "32A", "size": "4mm2", "cord_length": "25m"},
}

// demoCut is a cut of a list: so many pieces, each so long, of such plate, in µm.
type demoCut struct {
	key, name, metal string
	plate, length    int64
	count, pierces   int // pieces, and holes in each that are begun by piercing
}

// row is the cut as it was typed, at its place on the list.
func (c demoCut) row(at int) body {
	row := body{"name": c.name, "metal": c.metal, "thickness": demoMM(c.plate), "length": demoMM(c.length), "count": fmt.Sprint(c.count), "at": at}
	if c.pierces > 0 {
		row["pierces"] = fmt.Sprint(c.pierces)
	}
	return row
}

// demoMM writes a length as it is typed.
func demoMM(um int64) string { return fmt.Sprintf("%dmm", um/1000) }

// demoSort is a sort of job that comes again and again; its metal is the truck's of the
// season.
type demoSort struct {
	title string
	cuts  []demoCut
	also  demoCut // in the other metal; none where count is 0
}

var demoSorts = []demoSort{
	{title: "Field gate", cuts: []demoCut{{name: "Braces", plate: 6000, length: 1_800_000, count: 6}, {name: "Hinge plates", plate: 8000, length: 700_000, count: 4}}},
	{title: "Hopper patch", cuts: []demoCut{{name: "Patch", plate: 6000, length: 2_500_000, count: 3}, {name: "Old plate out", plate: 6000, length: 2_400_000, count: 3}}},
	{title: "Trailer ramp", cuts: []demoCut{{name: "Deck", plate: 8000, length: 1_700_000, count: 4}, {name: "Ribs", plate: 8000, length: 1_300_000, count: 6}}},
	{title: "Feed trough", cuts: []demoCut{{name: "Ends", plate: 4000, length: 2_100_000, count: 8}}, also: demoCut{name: "Lip", plate: 3000, length: 800_000, count: 2}},
	{title: "Chute liner", cuts: []demoCut{{name: "Liner plates", plate: 5000, length: 2_700_000, count: 9}}},
	{title: "Guard rail", cuts: []demoCut{{name: "Posts", plate: 8000, length: 800_000, count: 10}, {name: "Feet", plate: 8000, length: 1_000_000, count: 6}}},
	{title: "Wash bay grate", cuts: []demoCut{{name: "Frame", plate: 5000, length: 2_200_000, count: 6}, {name: "Bars", plate: 4000, length: 1_400_000, count: 8}}},
	{title: "Conveyor side plates", cuts: []demoCut{{name: "Sides", plate: 8000, length: 2_200_000, count: 6}, {name: "Slots", plate: 8000, length: 600_000, count: 6}}, also: demoCut{name: "Wear strip", plate: 4000, length: 1_000_000, count: 2}},
	{title: "Bucket lip", cuts: []demoCut{{name: "Lip", plate: 10_000, length: 2_000_000, count: 3}, {name: "Gussets", plate: 10_000, length: 800_000, count: 4}}},
	{title: "Sign frame", cuts: []demoCut{{name: "Frame", plate: 4000, length: 2_400_000, count: 7}}},
	{title: "Drain covers", cuts: []demoCut{{name: "Covers", plate: 6000, length: 2_000_000, count: 8}}, also: demoCut{name: "Handles", plate: 3000, length: 700_000, count: 4}},
	{title: "Screen plates", cuts: []demoCut{{name: "Slots", plate: 5000, length: 1_300_000, count: 10, pierces: 9}}},
	{title: "Mounting plates", cuts: []demoCut{{name: "Holes", plate: 6000, length: 900_000, count: 8, pierces: 8}, {name: "Outlines", plate: 6000, length: 1_600_000, count: 4}}},
	{title: "Louvres", cuts: []demoCut{{name: "Louvres", plate: 4000, length: 1_200_000, count: 12, pierces: 10}}},
}

// demoWhole is more minutes of arc than any job has.
const demoWhole = 90

// demoGlance are the steps of the quick look.
var demoGlance = []string{"drain", "clamp", "cup-holes", "tip", "electrode", "back"}

// demoMetal is what a truck mostly cuts so many days ago: the second has had a contract
// in stainless for three months.
func demoMetal(truck string, ago int) string {
	if truck == "truck-2" && ago < 91 {
		return "stainless"
	}
	return "mild-steel"
}

func demoOther(metal string) string {
	if metal == "stainless" {
		return "mild-steel"
	}
	return "stainless"
}

// demoNotes are what is noted, demoTroubles what goes wrong besides worn parts.
var (
	demoNotes = []string{
		"Galvanised: zinc ground back 100 mm from the cut first.", "Ramp springs taken off and put aside before the cut.", "Both ends of each tube opened before heat.",
		"Clamp moved to the part that stays.", "Straightedge 6 mm off the line for the cup.", "Wind from the west: screens turned.", "Edges ground for 10 min after.", "Customer marks the next ones until Monday.",
	}
	demoTroubles = []struct{ sign, cause, how string }{
		{sign: "spits", cause: "air-wet", how: "Tank and trap drained"}, {sign: "cuts-out", cause: "clamp-poor", how: "Clamped to bright metal"},
		{sign: "heavy-dross", cause: "too-slow", how: "Went faster"}, {sign: "unsteady", cause: "pressure-low", how: "Pressure set while air flowed"},
		{sign: "heat-light", cause: "duty-passed", how: "Left on to cool"}, {sign: "hard-bead", cause: "too-fast", how: "Went slower"},
	}
	// demoWorn are what is seen when the part of a slot has lasted its life, and why it is.
	demoWorn = map[string]struct{ sign, cause string }{
		"tip": {"wide-cut", "tip-worn"}, "electrode": {"hard-start", "electrode-pitted"}, "diffuser": {"unsteady", "diffuser-bad"},
		"cup": {"top-spatter", "cup-clogged"}, "o-ring": {"hiss", "o-ring-bad"},
	}
)

// demoSlots are the places in a torch, in the order in which it is put together.
var demoSlots = []string{"o-ring", "electrode", "diffuser", "tip", "cup"}

// demoLook is what this morning's inspection looked at, step by step.
var demoLook = []struct{ step, slot string }{
	{step: "after-flow"}, {step: "unplug"}, {step: "cool"}, {step: "bleed"},
	{step: "cup-holes", slot: "cup"}, {step: "cup-face", slot: "cup"}, {step: "tip-edge", slot: "tip"}, {step: "tip-size", slot: "tip"},
	{step: "diffuser", slot: "diffuser"}, {step: "electrode-pit", slot: "electrode"}, {step: "electrode-fit", slot: "electrode"},
	{step: "o-ring", slot: "o-ring"}, {step: "head", slot: "head"}, {step: "cup-switch"}, {step: "lead"}, {step: "pair"}, {step: "same-family"}, {step: "assemble"}, {step: "test"},
}

// write tells half a year of the two trucks, up to an hour ago.
func (d *demoCrew) write() {
	d.device = "demo-truck-1"
	d.morning(demoDays)
	d.tap("setting.set", body{"about": "prices"}, body{"currency": "EUR", "tax": demoTax, "labour": "48", "overhead": "14", "energy_price": "0.32", "margin": "15%"})
	for _, site := range []string{"yard", "hill", "pit"} {
		d.tap("site.set", body{"about": d.id(site)}, demoSites[site])
	}
	for _, key := range demoTrucks {
		d.device = "demo-" + key
		t := &demoTruck{demoCrew: d, key: key, rig: d.id(key), parts: map[string]*demoPart{}, stock: map[string]int{}, kept: map[string]int{}, lives: map[string]*demoSpread{},
			speeds: &demoSpread{step: demoGolden}, hands: &demoSpread{step: demoSilver}}
		t.begin()
		t.season()
		t.lastDays()
	}
	slices.SortStableFunc(d.events, func(a, b exchange.Push) int { return cmp.Compare(a.O, b.O) })
}

// begin sets the truck up, with new parts in its torch.
func (t *demoTruck) begin() {
	t.morning(demoDays)
	t.tap("rig.set", body{"about": t.rig}, demoRigs[t.key])
	t.plansUpkeep()
	t.stockUp()
	for _, slot := range demoSlots {
		t.lives[slot] = &demoSpread{at: t.Float64(), step: demoGolden}
		t.fit(slot, nil)
	}
}

// season goes through the days up to the last week, job by job.
func (t *demoTruck) season() {
	for ago := demoDays - 2; ago > demoLastWeek; {
		t.morning(ago)
		if t.likely(0.2) { // work that nobody planned
			one := of(t.demoChance, demoSorts...)
			cuts := t.list(one, ago)[:1]
			t.day(demoSession{ago: ago, site: "yard", title: fmt.Sprintf("%s, %d mm", one.title, cuts[0].plate/1000), cuts: cuts, most: t.in(8, 16)})
			ago -= t.in(4, 8)
			continue
		}
		job := t.newJob(of(t.demoChance, demoSorts...), ago)
		for !job.isDone() && ago > 2 {
			most := t.in(12, 22)
			if ago <= demoLastWeek+6 {
				most = demoWhole
			}
			t.day(demoSession{ago: ago, site: job.site, title: job.title, job: job, most: most})
			ago -= t.in(4, 8)
		}
	}
}

// lastDays are told in full: what stands on the screens is from them.
func (t *demoTruck) lastDays() {
	mild := func(name string, plate, length int64, count int) demoCut {
		return demoCut{name: name, metal: "mild-steel", plate: plate, length: length, count: count}
	}
	if t.key == "truck-2" {
		job := t.setJob("Rack uprights, 3 mm", "hill", 3, []demoCut{mild("Uprights", 3000, 1_100_000, 8), {name: "Trim", metal: "stainless", plate: 3000, length: 900_000, count: 4}})
		t.day(demoSession{ago: 2, site: "hill", title: job.title, job: job, most: demoWhole, note: demoNotes[2]})
		return
	}
	t.day(demoSession{ago: 6, site: "yard", title: "Bucket lip, 10 mm", cuts: []demoCut{mild("", 10_000, 1_400_000, 3)}, most: demoWhole, drain: true})
	t.wantMore("tip")
	t.setJob("Stair stringers", "pit", 2, []demoCut{mild("Stringers", 10_000, 2_400_000, 4), mild("Treads", 6000, 800_000, 12), {name: "Nosings", metal: "stainless", plate: 3000, length: 800_000, count: 12}})
	t.day(demoSession{ago: 1, site: "yard", title: "Drawbar, 12 mm", cuts: []demoCut{mild("", 12_000, 1_300_000, 2)}, most: demoWhole, drain: true})
	job := t.setJob("Hill gate, new latch post", "hill", 4, []demoCut{mild("Post", 6000, 900_000, 3), mild("Latch plates", 6000, 500_000, 6), {name: "Cover", metal: "stainless", plate: 3000, length: 600_000, count: 2}})
	t.morning(0)
	t.look()
	t.day(demoSession{site: "hill", title: job.title, job: job, most: 3, open: true})
}

// list is what a sort of job asks for so many days ago.
func (t *demoTruck) list(of demoSort, ago int) []demoCut {
	metal := demoMetal(t.key, ago)
	var list []demoCut
	for _, c := range of.cuts {
		c.metal = metal
		list = append(list, c)
	}
	if c := of.also; c.count > 0 {
		c.metal = demoOther(metal)
		list = append(list, c)
	}
	return list
}

// demoJob is a job with what is left of it.
type demoJob struct {
	id, title, site string
	cuts            []demoCut
	left            []int
}

func (j *demoJob) isDone() bool {
	return !slices.ContainsFunc(j.left, func(n int) bool { return n > 0 })
}

// newJob is the next job of a sort.
func (t *demoTruck) newJob(of demoSort, ago int) *demoJob {
	return t.setJob(of.title, []string{"yard", "hill", "pit"}[t.IntN(3)], ago+t.in(2, 6), t.list(of, ago))
}

// setJob enters a job so many days ago, with its cuts and for whom it is.
func (t *demoTruck) setJob(title, site string, ago int, cuts []demoCut) *demoJob {
	t.jobs++
	j := &demoJob{id: t.id(fmt.Sprint("job ", t.key, t.jobs)), title: title, site: site}
	t.morning(min(ago, demoDays))
	t.wait(-time.Hour) // before work
	set := body{"name": title, "number": t.number(), "customer": fmt.Sprintf("Customer %d", t.in(1, 9)), "site": t.demoCrew.id(site), "rig": t.rig, "window": fmt.Sprintf("%d h", t.in(4, 8)), "tax": demoTax}
	for i, c := range cuts {
		c.key = fmt.Sprintf("k%d", i+1)
		j.cuts, j.left = append(j.cuts, c), append(j.left, c.count)
		set["cut."+c.key] = c.row(1000 * (i + 1))
	}
	t.tap("job.set", body{"about": j.id}, set)
	t.quote(j)
	return j
}
