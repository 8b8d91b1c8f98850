package main

import (
	"maps"
	"math"
	"time"
)

// piece cuts one piece and returns the minutes of arc. Where a part has lasted its life
// it is changed, and the cut goes on.
func (t *demoTruck) piece(in body, c demoCut, heard bool) float64 {
	reckoned, err := demoReckoned(t.key, c.metal, c.plate)
	if err != nil && t.err == nil {
		t.err = err
	}
	seconds := float64(c.length) / (demoUsual * demoSevers[t.key] * reckoned) * t.off(demoHandSpeed)
	starts := 1 + c.pierces
	for starts < 4+2*c.pierces && t.likely(0.3) { // struck again
		starts++
	}
	all := seconds / 60
	for seconds > 0 {
		burnt, struck, gone := t.untilWorn(c.metal, seconds, starts)
		t.arc(in, c, burnt, struck, heard)
		if gone != "" {
			t.change(in, gone)
		}
		seconds -= burnt
		starts = max(1, starts-struck)
	}
	return all
}

// untilWorn returns how much of such an arc passes until a part has lasted its life, and
// the slot of that, "" if none has. Starts are spread over the arc.
func (t *demoTruck) untilWorn(metal string, seconds float64, starts int) (burnt float64, struck int, gone string) {
	share := 1.0
	for _, slot := range demoSlots {
		law, p := demoLaws[slot], t.parts[slot]
		left := (p.life - p.used) * law.on(t.key, metal)
		if at := left / (seconds/60 + law.perStart*float64(starts)); at < share {
			share, gone = at, slot
		}
	}
	burnt, struck = math.Ceil(max(share*seconds, min(seconds, 5))), max(1, int(math.Round(share*float64(starts))))
	for _, slot := range demoSlots {
		law := demoLaws[slot]
		t.parts[slot].used += (burnt/60 + law.perStart*float64(struck)) / law.on(t.key, metal)
	}
	t.undrained += burnt / 60
	return burnt, struck, gone
}

// arc enters one arc: tapped, or heard by the phone.
func (t *demoTruck) arc(in body, c demoCut, seconds float64, starts int, heard bool) {
	arc := body{"rig": t.rig}
	if c.key != "" {
		arc["cut"] = c.key
	}
	ms := int64(1000 * seconds)
	if heard {
		t.wait(time.Duration(ms) * time.Millisecond)
		maps.Copy(arc, body{"start": t.at - ms, "stop": t.at, "starts": starts})
		t.tap("arc.run", in, arc)
		return
	}
	started := t.tap("arc.started", in, arc)
	t.at += ms - demoStep
	stopped := t.tap("arc.stopped", in, body{"of": started, "starts": starts})
	if t.slips { // counted wrong, and put right
		t.slips = false
		t.tap("amend", in, body{"of": stopped, "set": body{"starts": starts + 1}, "why": "slip"})
	}
}

// try enters a cut that was judged: what the metal said follows from how fast the truck
// really severs, and from the hand.
func (t *demoTruck) try(in body, c demoCut) {
	reckoned, err := demoReckoned(t.key, c.metal, c.plate)
	if err != nil && t.err == nil {
		t.err = err
	}
	share := 0.4 + 0.75*t.speeds.next()
	speed := math.Round(share*demoSevers[t.key]*reckoned/100) * 100
	verdict := "did-not-sever"
	switch meant := share * t.hands.off(demoHandSpeed); {
	case meant < 0.5:
		verdict = "too-slow"
	case meant < 0.9:
		verdict = "good"
	case meant < 1:
		verdict = "too-fast"
	}
	t.tap("cut.tried", in, body{"rig": t.rig, "metal": c.metal, "thickness": c.plate, "speed": int64(speed), "amps": demoTips[t.key].amps, "verdict": verdict})
}
