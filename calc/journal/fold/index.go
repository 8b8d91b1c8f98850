package fold

import "slices"

// index holds all entries, sorted into families. Each family lives in a file of
// its own, fold_….go.
//
// An entry that comes or goes marks what is computed from it; settle computes that
// anew and leaves the rest, so that a tap costs what it touches and not what the
// crew has ever done. An entry that changes goes and comes again.
type index struct {
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
		same: same, entries: map[string]*entry{}, sessions: map[string]*session{}, rigs: map[string]*rig{},
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

// file takes an entry into its family.
func (x *index) file(e *entry) {
	if !e.known() || e.odd {
		return
	}
	switch e.kind {
	case "rig.set", "site.set", "job.set", "setting.set":
		x.fields(e).set(e)
	case "session.opened", "session.closed", "session.set":
		x.addSession(e)
	case "arc.started", "arc.stopped", "arc.run":
		x.addArc(e)
	case "part.fitted", "part.pulled", "part.reading":
		x.addPart(e)
	case "trap.drained", "filter.changed":
		x.addAir(e)
	case "guide.opened", "check.answered", "check.cleared":
		x.addGuide(e)
	case "fault.seen", "fault.found", "fault.mended":
		x.addFault(e)
	case "watch.started", "watch.ended":
		x.addWatch(e)
	case "line.set", "stock.moved", "stock.counted":
		x.addStock(e)
	}
}

// unfile takes an entry out of its family again.
func (x *index) unfile(e *entry) {
	if !e.known() || e.odd {
		return
	}
	switch e.kind {
	case "rig.set", "site.set", "job.set", "setting.set":
		x.fields(e).unset(e)
	case "session.opened", "session.closed", "session.set":
		x.dropSession(e)
	case "arc.started", "arc.stopped", "arc.run":
		x.dropArc(e)
	case "part.fitted", "part.pulled", "part.reading":
		x.dropPart(e)
	case "trap.drained", "filter.changed":
		x.dropAir(e)
	case "guide.opened", "check.answered", "check.cleared":
		x.dropGuide(e)
	case "fault.seen", "fault.found", "fault.mended":
		x.dropFault(e)
	case "watch.started", "watch.ended":
		x.dropWatch(e)
	case "line.set", "stock.moved", "stock.counted":
		x.dropStock(e)
	}
}

// fields returns the register that an entry sets, of a rig, a site, a job or a
// device, and marks what shows it.
func (x *index) fields(e *entry) register {
	switch e.kind {
	case "rig.set":
		r := x.rig(x.same.of(e.about))
		r.cached, x.stale.rigs = nil, true
		return r.fields
	case "site.set":
		x.stale.rigs = true
		return registerOf(x.sites, x.same.of(e.about))
	case "job.set":
		x.stale.rigs = true
		return registerOf(x.jobs, x.same.of(e.about))
	}
	x.stale.settings = true
	device := e.about
	if device == "" {
		device = e.device
	}
	return registerOf(x.devices, device)
}

// registerOf returns the register of id, a new one if need be.
func registerOf(m map[string]register, id string) register {
	if m[id] == nil {
		m[id] = register{}
	}
	return m[id]
}

// rigOf returns the rig of an entry: the one it names, else the session's.
func (x *index) rigOf(e *entry) string {
	if id := e.body.Text("rig"); id != "" {
		return x.same.of(id)
	}
	if e.in == "" {
		return ""
	}
	return x.session(x.same.of(e.in)).rig(x)
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
