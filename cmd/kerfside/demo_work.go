package main

import (
	"fmt"
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
