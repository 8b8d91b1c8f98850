package fold

import "slices"

// index holds all entries by what they are about: arcs, parts, sessions and so on. Each
// of these families has a file of its own; family.go lists them.
//
// An entry that comes or goes makes stale what is computed from it, and settle computes
// that anew. So a tap costs what it touches and not what the crew has ever done. An
// entry that changes is dropped and added again.
type index struct {
	families   map[string]*family
	same       sameness
	entries    map[string]*entry
	sessions   map[string]*session
	rigs       map[string]*rig
	sites      map[string]register
	jobs       map[string]*job
	pauses     map[string]*pause
	stockLines map[string]*stockLine
	devices    map[string]register
	arcs       map[string]*arc
	parts      map[string]*part
	guides     map[guideKey]*guide
	cleared    map[string][]*entry // failed check → check.cleared
	faults     map[string]*fault
	watches    map[string]*watch

	stale staleViews // views that may differ from those last handed out

	// What stands now, in the order of the views.
	book         sortedList[*session]
	outside      sortedList[*entry] // what was entered outside of any session, oldest first
	tried        sortedList[*entry] // judged cuts, oldest first
	open         sortedList[*session]
	burning      sortedList[*arc]   // without a stop
	failedChecks sortedList[*entry] // failed checks that nothing cleared
	guidesByLast sortedList[*guide] // guides that were gone through, the gate's left out
	fittedParts  map[*part]bool     // parts that are in a torch
	openWatches  map[*watch]bool
	gates        gates
	usedFrom     int64 // ms: since when pieces are counted as used

	// Computed; nil if something changed since.
	gate       *Gate
	faultState *faultState
	openFails  []OpenFail

	// What is to be computed anew.
	staleArcs       []*arc
	staleParts      []*part
	staleSessions   []*session
	staleGuides     []*guide
	changedRigs     map[string]bool // rigs whose timelines changed
	changedSessions map[string]bool // sessions whose timelines changed
}

// staleViews has one flag for each view.
type staleViews struct{ now, rigs, stock, settings, book, days, guides, jobs bool }

func newIndex(same sameness) *index {
	return &index{
		families: families(), same: same, entries: map[string]*entry{}, sessions: map[string]*session{}, rigs: map[string]*rig{},
		sites: map[string]register{}, jobs: map[string]*job{}, pauses: map[string]*pause{}, stockLines: map[string]*stockLine{},
		devices: map[string]register{}, arcs: map[string]*arc{}, parts: map[string]*part{},
		guides: map[guideKey]*guide{}, cleared: map[string][]*entry{}, faults: map[string]*fault{}, watches: map[string]*watch{},

		stale: staleViews{now: true, rigs: true, stock: true, settings: true, book: true, days: true, guides: true, jobs: true},
		book:  sortedList[*session]{compare: byBook}, outside: sortedList[*entry]{compare: byTime}, tried: sortedList[*entry]{compare: byTime}, open: sortedList[*session]{compare: byBook},
		burning: sortedList[*arc]{compare: byStart}, failedChecks: sortedList[*entry]{compare: byTime}, guidesByLast: sortedList[*guide]{compare: byLast},
		fittedParts: map[*part]bool{}, openWatches: map[*watch]bool{}, gates: newGates(),
		changedRigs: map[string]bool{}, changedSessions: map[string]bool{},
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

// settle computes anew what is stale.
func (x *index) settle() {
	for _, a := range x.staleArcs {
		x.placeArc(a)
	}
	x.staleArcs = x.staleArcs[:0]
	for _, p := range x.staleParts {
		x.locatePart(p)
	}
	x.staleParts = x.staleParts[:0]
	x.invalidateTimelines()
	x.assignGates()
	for _, g := range x.staleGuides {
		x.rankGuide(g)
	}
	x.staleGuides = x.staleGuides[:0]
	for _, s := range x.staleSessions {
		x.assignJob(s)
	}
	x.updateBook()
}

// invalidateTimelines drops what was computed from timelines that changed.
func (x *index) invalidateTimelines() {
	if len(x.changedRigs) == 0 {
		return
	}
	for id := range x.changedRigs {
		x.rig(id).cached = nil
	}
	for p := range x.fittedParts {
		if slices.ContainsFunc(p.fits, func(f fit) bool { return x.changedRigs[f.rig] }) {
			x.rig(p.in).cached = nil
		}
	}
	for w := range x.openWatches {
		if x.changedRigs[x.same.of(w.rig)] || x.changedSessions[x.same.of(w.started.in)] {
			w.cached = nil
		}
	}
	x.noteUsed()
	clear(x.changedRigs)
	clear(x.changedSessions)
}

// without returns list without e, in place.
func without(list []*entry, e *entry) []*entry {
	if i := slices.Index(list, e); i >= 0 {
		return slices.Delete(list, i, i+1)
	}
	return list
}
