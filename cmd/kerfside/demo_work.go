package main

import (
	"fmt"
	"maps"
	"math"
	"time"
)

// demoTruck writes what one truck does, with what is in its torch and on its shelf.
type demoTruck struct {
	*demoCrew
	key, rig       string
	parts          map[string]*demoPart   // by slot
	stock          map[string]int         // pieces by slot
	undrained      float64                // minutes of arc
	kept           map[string]int         // by task of upkeep, how many days ago it was done last
	slips          bool                   // the next starts are counted wrong
	jobs, sessions int                    // so many were told
	lives          map[string]*demoSpread // by slot
	speeds, hands  *demoSpread            // of the cuts that were tried
}

// demoPart is a part in the torch. life and used are shares of the scale of its law.
type demoPart struct {
	id         string
	life, used float64
}

// demoSession is a day's work: of a job, else of cuts that stand on no list.
type demoSession struct {
	ago         int // days
	site, title string
	job         *demoJob
	cuts        []demoCut
	most        int // minutes of arc after which no new piece is begun
	note        string
	drain, open bool // the trap is drained whatever the minutes, and starts are counted wrong once; it goes on
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

// look writes the inspection before the day's work.
func (t *demoTruck) look() {
	const guide = "torch-inspection"
	t.tap("guide.opened", nil, body{"guide": guide})
	for _, one := range demoLook {
		answer := body{"guide": guide, "step": one.step, "result": "done"}
		if one.slot != "" {
			answer["slot"], answer["result"] = one.slot, "good"
		}
		if p := t.parts[one.slot]; p != nil {
			answer["part"] = p.id
			if p.used > 0.55 && (one.slot == "tip" || one.slot == "electrode") {
				answer["result"] = "worn"
			}
		}
		t.tap("check.answered", nil, answer)
		if one.step == "tip-size" || one.step == "electrode-pit" {
			t.read(one.slot, nil, nil)
		}
	}
	t.wait(6 * time.Minute)
}

// glance writes a quick look, of which each step was done.
func (t *demoTruck) glance() {
	t.tap("guide.opened", nil, body{"guide": "quick-look"})
	for _, step := range demoGlance {
		t.tap("check.answered", nil, body{"guide": "quick-look", "step": step, "result": "done"})
	}
}

// gate answers what could kill, and clears what it stopped for. Today nothing stops it.
func (t *demoTruck) gate(site string, today bool) {
	answers := body{"what": "open", "behind": "open", "near": "clear", "place": "open", "coating": "bare", "wet": "no"}
	told := body{"step": "asked", "result": "go"}
	switch {
	case today:
	case t.likely(0.12):
		answers["behind"] = "unknown"
		told = body{"step": "behind", "result": "fail", "says": "not known what is behind", "by": "you"}
	case t.likely(0.1):
		answers["wet"] = "yes"
		told = body{"step": "wet", "result": "fail", "says": "something is wet", "by": "you"}
	case t.likely(0.3):
		answers["coating"] = "painted"
		told["result"] = "conditions"
	case site == "yard":
		answers["place"] = "workshop"
		told["result"] = "conditions"
	}
	maps.Copy(told, body{"guide": "may-i-cut", "rig": t.rig, "site": t.demoCrew.id(site), "answers": answers, "took": t.in(25, 80) * 1000})
	asked := t.tap("check.answered", nil, told)
	if told["result"] == "fail" {
		t.wait(4 * time.Minute)
		done := map[any]string{"behind": "Looked: nothing behind it", "wet": "Moved to a dry place"}[told["step"]]
		t.tap("check.cleared", nil, body{"of": asked, "why": done})
	}
}

// day writes one session from its gate to the end of its fire watch.
func (t *demoTruck) day(s demoSession) {
	t.sessions++
	session := t.id(fmt.Sprint(t.key, " session ", t.sessions))
	if !s.open { // that one has begun with its inspection
		t.morning(s.ago)
		t.wait(time.Duration(t.in(0, 50)) * time.Minute)
		t.restock()
		t.keepUp(s.ago)
		if t.likely(0.3) {
			t.glance()
		}
	}
	t.gate(s.site, s.open)
	opened := body{"rig": t.rig, "site": t.demoCrew.id(s.site), "title": s.title}
	left := make([]int, len(s.cuts))
	cuts := s.cuts
	if s.job != nil {
		cuts, left = s.job.cuts, s.job.left
		opened["job"], opened["planned"] = s.job.id, t.planned(s.job)
	} else {
		opened["plan_metal"], opened["plan_start"] = cuts[0].metal, "edge"
		for i, c := range cuts {
			left[i] = c.count
		}
	}
	t.tap("session.opened", body{"about": session}, opened)
	in := body{"in": session}
	if s.note == "" && t.likely(0.3) {
		s.note = of(t.demoChance, demoNotes...)
	}
	if s.note != "" {
		t.tap("note.added", in, body{"text": s.note})
	}
	minutes, heard := 0.0, !s.open && !s.drain && t.sessions%4 > 0
	t.slips = s.drain
	lot := 1 // pieces that are told together
	if heard {
		lot = 5
	}
	for i, c := range cuts {
		told := 0
		for left[i] > 0 && minutes < float64(s.most) {
			minutes += t.piece(in, c, heard)
			left[i]--
			told++
			if s.job != nil && (told == lot || left[i] == 0 || minutes >= float64(s.most)) {
				t.tap("cut.done", body{"in": session, "about": s.job.id}, body{"cut": c.key, "n": told})
				told = 0
			}
			t.between(in)
		}
	}
	if s.drain && t.undrained > 0 {
		t.drain(in)
	}
	t.try(in, cuts[0])
	if s.open {
		return
	}
	if t.likely(0.12) {
		t.trouble(session)
	}
	t.measure(in)
	watch := t.tap("watch.started", in, body{"ms": time.Hour.Milliseconds()})
	t.wait(time.Hour)
	t.tap("watch.ended", in, body{"of": watch})
	t.tap("session.closed", body{"about": session}, body{})
}

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

// between is what lies between two pieces: handling, waits, the trap.
func (t *demoTruck) between(in body) {
	t.wait(time.Duration(t.in(40, 110)) * time.Second)
	waits := map[string]float64{"truck-1": 0.12, "truck-2": 0.05}[t.key]
	if t.likely(waits) {
		why := of(t.demoChance, "air", "air", "cooling", "marking", "moving")
		paused := t.tap("pause.started", in, body{"rig": t.rig, "why": why})
		t.wait(time.Duration(t.in(60, 300)) * time.Second)
		t.tap("pause.ended", in, body{"of": paused})
	}
	if t.undrained > float64(t.in(15, 24)) {
		t.drain(in)
	}
}

func (t *demoTruck) drain(in body) {
	t.tap("trap.drained", in, body{"rig": t.rig})
	t.undrained = 0
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

// trouble writes what went wrong, what it was, and that it is mended.
func (t *demoTruck) trouble(session string) {
	one := of(t.demoChance, demoTroubles...)
	about := body{"in": session, "about": t.id(session + " fault")}
	t.tap("fault.seen", about, body{"signs": []string{one.sign}, "symptom": one.sign, "rig": t.rig})
	t.wait(5 * time.Minute)
	t.tap("fault.found", about, body{"cause": one.cause})
	t.tap("fault.mended", about, body{"how": one.how})
	if one.cause == "air-wet" {
		t.drain(body{"in": session})
	}
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

// demoUsual is the share of the speed that just severs at which the crew cuts.
const demoUsual = 0.7

// planned is what the plan of a job says of what is left, in whole s. It takes the
// reckoning as it is, and so is off where the truck is.
func (t *demoTruck) planned(j *demoJob) body {
	const handling = 90
	cuts, elapsed := body{}, 0.0
	for i, c := range j.cuts {
		reckoned, err := demoReckoned(t.key, c.metal, c.plate)
		if err != nil || j.left[i] == 0 {
			continue
		}
		n := float64(j.left[i])
		arc := n * float64(c.length) / (demoUsual * reckoned)
		whole := func(x float64) int64 { return int64(math.Round(x)) }
		takes := arc + n*handling
		elapsed += takes
		cuts[c.key] = body{"n": j.left[i], "arc": whole(arc), "arcLow": whole(0.75 * arc), "arcHigh": whole(1.35 * arc), "starts": whole(n * (1.4 + float64(c.pierces))),
			"elapsed": whole(takes), "low": whole(0.8 * takes), "high": whole(1.4 * takes)}
	}
	return body{"elapsed": int64(elapsed), "low": int64(0.8 * elapsed), "high": int64(1.4 * elapsed), "cuts": cuts}
}
