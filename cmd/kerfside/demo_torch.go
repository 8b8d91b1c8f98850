package main

import (
	"maps"
	"math"
	"time"
)

// demoPart is a part in the torch. life and used are shares of the scale of its law.
type demoPart struct {
	id         string
	life, used float64
}

// fit puts a new part from the shelf into the torch. in is the session, if there is one.
func (t *demoTruck) fit(slot string, in body) {
	p := &demoPart{life: t.lives[slot].life(demoLaws[slot].shape)}
	if old := t.parts[slot]; old != nil {
		p.id = t.id(t.key + slot + old.id)
	} else {
		p.id = t.id(t.key + slot)
	}
	t.parts[slot] = p
	t.stock[slot]--
	about := body{"about": p.id}
	maps.Copy(about, in)
	t.tap("part.fitted", about, body{"slot": slot, "rig": t.rig, "line": t.line(slot)})
}

// pull takes a part out.
func (t *demoTruck) pull(slot, why string, in body) {
	about := body{"about": t.parts[slot].id}
	maps.Copy(about, in)
	t.tap("part.pulled", about, body{"why": why, "rig": t.rig})
}

// read enters how far a part has worn, as far as hand and gauge tell it.
func (t *demoTruck) read(slot string, in body, more body) {
	p, readings := t.parts[slot], body{}
	switch slot {
	case "tip":
		fresh := float64(demoTips[t.key].bore)
		widest := fresh * (1 + demoGrowth*p.used)
		narrowest := fresh * (1 + demoRound*demoGrowth*p.used)
		high := math.Round((widest+demoReadBore*t.NormFloat64())/5) * 5
		readings["dmax"] = int64(high)
		readings["dmin"] = int64(min(high, math.Round((narrowest+demoReadBore*t.NormFloat64())/5)*5))
	case "electrode":
		readings["pit"] = int64(max(0, math.Round((demoPit*p.used+demoReadPit*t.NormFloat64())/10)*10))
	default:
		return
	}
	maps.Copy(readings, more)
	about := body{"about": p.id}
	maps.Copy(about, in)
	t.tap("part.reading", about, readings)
}

// change writes what was seen of a part that has lasted its life, and puts a new one in.
// A tip or an electrode past so much of what such parts last goes out with the other.
func (t *demoTruck) change(in body, slot string) {
	const past = 0.85
	t.wait(2 * time.Minute)
	about := body{"in": in["in"], "about": t.id("fault " + t.parts[slot].id)}
	t.tap("fault.seen", about, body{"signs": []string{demoWorn[slot].sign}, "symptom": demoWorn[slot].sign, "rig": t.rig})
	t.wait(9 * time.Minute)
	t.tap("fault.found", about, body{"cause": demoWorn[slot].cause})
	t.read(slot, in, nil)
	t.pull(slot, "worn", in)
	t.fit(slot, in)
	t.tap("fault.mended", about, body{"how": "Part changed"})
	if other := map[string]string{"tip": "electrode", "electrode": "tip"}[slot]; other != "" && t.parts[other].used > past {
		t.read(other, in, nil)
		t.pull(other, "inspection", in)
		t.fit(other, in)
	}
	t.wait(4 * time.Minute)
}

// measure reads tip and electrode at the end of the day, some of the time.
func (t *demoTruck) measure(in body) {
	if t.likely(0.15) {
		t.read("tip", in, body{"by": "photo", "photo": t.photo(in), "error": 25})
	} else if t.likely(0.45) {
		t.read("tip", in, nil)
	}
	if t.likely(0.35) {
		t.read("electrode", in, nil)
	}
}
