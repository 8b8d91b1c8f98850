package fold

import (
	"cmp"
	"slices"

	"kerfside/calc/journal/event"
)

// guideKey names the going through a guide in a session; in is "" outside one.
type guideKey struct{ in, guide string }

// guide is one going through a guide.
type guide struct {
	key     guideKey
	opened  []*entry
	answers []*entry

	stale  bool      // its place on the list is to be found anew
	cached *Progress // as last computed; nil if something changed since
	listed bool      // it is on the list of guides
	last   int64     // ms: its place on that list
}

// byLast orders guides by when they were last gone on with, the last first.
func byLast(a, b *guide) int {
	return cmp.Or(cmp.Compare(b.last, a.last), cmp.Compare(a.key.in, b.key.in), cmp.Compare(a.key.guide, b.key.guide))
}

var guideFamily = family{kinds: []string{"guide.opened", "check.answered", "check.cleared"}, add: (*index).addGuide, drop: (*index).dropGuide}

// addGuide takes an opened guide, an answer, or a cleared fail.
func (x *index) addGuide(e *entry) {
	if e.kind == "check.cleared" {
		of := e.body.Text("of")
		x.cleared[of] = append(x.cleared[of], e)
		x.invalidateCheck(of)
		return
	}
	g := x.guide(e)
	if e.kind == "guide.opened" {
		g.opened = append(g.opened, e)
	} else {
		g.answers = append(g.answers, e)
	}
}

// dropGuide takes one of these out again.
func (x *index) dropGuide(e *entry) {
	if e.kind == "check.cleared" {
		of := e.body.Text("of")
		x.cleared[of] = without(x.cleared[of], e)
		x.invalidateCheck(of)
		return
	}
	g := x.guide(e)
	g.opened, g.answers = without(g.opened, e), without(g.answers, e)
}

// invalidateCheck makes stale what shows the check of, which was cleared or is so no
// more.
func (x *index) invalidateCheck(of string) {
	if e := x.entries[of]; e != nil {
		x.tally(e)
		if e.counts("check.answered") {
			x.guide(e)
		}
	}
}

// guide returns the going through a guide that an entry belongs to, a new one if need
// be. It becomes stale.
func (x *index) guide(e *entry) *guide {
	key := guideKey{x.same.of(e.in), e.body.Text("guide")}
	g := x.guides[key]
	if g == nil {
		g = &guide{key: key}
		x.guides[key] = g
	}
	if key.guide == gateGuide {
		x.gate = nil
	}
	if g.cached = nil; !g.stale {
		g.stale = true
		x.staleGuides = append(x.staleGuides, g)
	}
	return g
}

// rankGuide puts a guide in its place on the list.
func (x *index) rankGuide(g *guide) {
	x.stale.guides = true
	if g.stale = false; g.listed {
		x.guidesByLast.remove(g)
	}
	last, any := latest(visible(slices.Concat(g.opened, g.answers)))
	if g.listed = any && g.key.guide != gateGuide; g.listed {
		g.last = last
		x.guidesByLast.put(g)
	}
}

// isFailed reports whether e is a failed check that nothing has cleared by name.
// A later good answer does not clear it.
func (x *index) isFailed(e *entry) bool {
	return e.counts("check.answered") && !e.hidden && event.FailsCheck(e.body.Text("result")) && x.clearing(e) == nil
}

// setFailing notes whether an entry is a failed check that nothing has cleared.
func (x *index) setFailing(e *entry, fails bool) {
	if e.failing == fails {
		return
	}
	e.failing, x.openFails = fails, nil
	if fails {
		x.failedChecks.put(e)
	} else {
		x.failedChecks.remove(e)
	}
}

// failsNow returns the failed checks that nothing has cleared, oldest first.
func (x *index) failsNow() []OpenFail {
	if x.openFails == nil {
		x.openFails = []OpenFail{}
		for _, e := range x.failedChecks.all() {
			b := e.body
			x.openFails = append(x.openFails, OpenFail{ID: e.id, Guide: b.Text("guide"), Step: b.Text("step"), Result: b.Text("result"), Slot: b.Text("slot"), In: x.same.of(e.in), At: e.when()})
		}
	}
	return x.openFails
}

// clearing returns what cleared e first, nil if nothing did.
func (x *index) clearing(e *entry) *entry {
	list := visible(x.cleared[e.id])
	if len(list) == 0 {
		return nil
	}
	return slices.MinFunc(list, byPlace)
}
