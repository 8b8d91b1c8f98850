package fold

import "slices"

// index holds all entries, sorted into families. Each family lives in a file of
// its own (family.go).
//
// An entry that comes or goes marks what is computed from it; settle computes that
// anew and leaves the rest, so that a tap costs what it touches and not what the
// crew has ever done. An entry that changes goes and comes again.
type index struct {
	families   map[string]*family
	same       sameness
	entries    map[string]*entry
	sessions   map[string]*session
	rigs       map[string]*rig
	sites      map[string]register
	jobs       map[string]register
	stockLines map[string]*stockLine
	devices    map[string]register
	arcs       map[string]*arc
	parts      map[string]*part
	guides     map[guideKey]*guide
	cleared    map[string][]*entry // failed check → check.cleared
	faults     map[string]*fault
	watches    map[string]*watch

	stale staleViews // what may read otherwise than when it was last handed out

	// What stands now, in the order of the views.
	book         sortedList[*session]
	open         sortedList[*session]
	burning      sortedList[*arc]   // without a stop
	failedChecks sortedList[*entry] // failed checks that nothing cleared
	guidesByLast sortedList[*guide] // guides that were gone through, but for gates
	fittedParts  map[*part]bool     // parts that are in a torch
	openWatches  map[*watch]bool
	gates        gates

	// Computed; nil if something changed since.
	gate       *Gate
	faultState *faultState
	openFails  []OpenFail

	// What is to be computed anew.
	staleArcs     []*arc
	staleParts    []*part
	staleSessions []*session
	staleGuides   []*guide
	burntRigs     map[string]bool // whose timelines changed
	burntSessions map[string]bool
}

// staleViews says which views are meant.
type staleViews struct{ now, rigs, stock, settings, book, guides bool }

func newIndex(same sameness) *index {
	return &index{
		families: families(), same: same, entries: map[string]*entry{}, sessions: map[string]*session{}, rigs: map[string]*rig{},
		sites: map[string]register{}, jobs: map[string]register{}, stockLines: map[string]*stockLine{},
		devices: map[string]register{}, arcs: map[string]*arc{}, parts: map[string]*part{},
		guides: map[guideKey]*guide{}, cleared: map[string][]*entry{}, faults: map[string]*fault{}, watches: map[string]*watch{},

		stale: staleViews{true, true, true, true, true, true},
		book:  sortedList[*session]{compare: byBook}, open: sortedList[*session]{compare: byBook},
		burning: sortedList[*arc]{compare: byStart}, failedChecks: sortedList[*entry]{compare: byTime}, guidesByLast: sortedList[*guide]{compare: byLast},
		fittedParts: map[*part]bool{}, openWatches: map[*watch]bool{}, gates: newGates(),
		burntRigs: map[string]bool{}, burntSessions: map[string]bool{},
	}
}

// add takes an entry in.
func (x *index) add(e *entry) {
	x.entries[e.id] = e
	x.list(e)
	if ofGate(e) && e.in == "" {
		x.gates.add(e)
	}
	x.file(e)
	x.tally(e)
	x.stale.now = true
}

// drop takes an entry out again.
func (x *index) drop(e *entry) {
	delete(x.entries, e.id)
	x.unfile(e)
	if ofGate(e) && e.in == "" {
		x.gates.outside.remove(e)
	}
	x.unlist(e)
	x.stale.now = true
}

// settle computes anew what is marked.
func (x *index) settle() {
	for _, a := range x.staleArcs {
		x.placeArc(a)
	}
	x.staleArcs = x.staleArcs[:0]
	for _, p := range x.staleParts {
		x.locatePart(p)
	}
	x.staleParts = x.staleParts[:0]
	x.invalidateBurnt()
	x.assignGates()
	for _, g := range x.staleGuides {
		x.rankGuide(g)
	}
	x.staleGuides = x.staleGuides[:0]
	x.updateBook()
}

// invalidateBurnt drops what was computed from timelines that changed.
func (x *index) invalidateBurnt() {
	if len(x.burntRigs) == 0 {
		return
	}
	for id := range x.burntRigs {
		x.rig(id).cached = nil
	}
	for p := range x.fittedParts {
		if slices.ContainsFunc(p.stays, func(f fit) bool { return x.burntRigs[f.rig] }) {
			x.rig(p.in).cached = nil
		}
	}
	for w := range x.openWatches {
		if x.burntRigs[x.same.of(w.rig)] || x.burntSessions[x.same.of(w.started.in)] {
			w.cached = nil
		}
	}
	clear(x.burntRigs)
	clear(x.burntSessions)
}

// without returns list without e, in place.
func without(list []*entry, e *entry) []*entry {
	if i := slices.Index(list, e); i >= 0 {
		return slices.Delete(list, i, i+1)
	}
	return list
}
