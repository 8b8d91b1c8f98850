package journal

// index holds all entries, sorted into families. Each family lives in a file of
// its own, fold_….go; what they compute is kept until an entry touches it.
type index struct {
	same     sameness
	entries  map[string]*entry
	sessions map[string]*session
	rigs     map[string]*rig
	sites    map[string]register
	jobs     map[string]register
	lines    map[string]*line
	devices  map[string]register
	arcs     map[string]*arc
	parts    map[string]*part
	guides   map[guideKey]*guide
	cleared  map[string][]*entry // failed check → check.cleared
	faults   map[string]*fault
	watches  map[string]*watch

	loose   []*entry            // gates that were answered outside any session
	early   map[string][]*entry // session → gates of loose that belong to it
	home    map[*entry]string   // the reverse
	settled bool                // early is right
}

func newIndex(same sameness) *index {
	return &index{
		same: same, entries: map[string]*entry{}, sessions: map[string]*session{}, rigs: map[string]*rig{},
		sites: map[string]register{}, jobs: map[string]register{}, lines: map[string]*line{},
		devices: map[string]register{}, arcs: map[string]*arc{}, parts: map[string]*part{},
		guides: map[guideKey]*guide{}, cleared: map[string][]*entry{}, faults: map[string]*fault{}, watches: map[string]*watch{},
	}
}

// add takes an entry in. It returns false if entries that are already here
// would have to be sorted in otherwise because of it.
func (x *index) add(e *entry) bool {
	x.entries[e.id] = e
	x.list(e)
	if ofGate(e) && e.in == "" {
		x.loose = append(x.loose, e)
		x.settled = false
	}
	if !known(e.fact) || e.odd {
		return true
	}
	switch e.kind {
	case "rig.set":
		x.rig(x.same.of(e.about)).set(e)
	case "site.set":
		registerOf(x.sites, x.same.of(e.about)).set(e)
	case "job.set":
		registerOf(x.jobs, x.same.of(e.about)).set(e)
	case "setting.set":
		device := e.about
		if device == "" {
			device = e.device
		}
		registerOf(x.devices, device).set(e)
	case "session.opened", "session.closed", "session.set":
		return x.addSession(e)
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
	return true
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
	if id := e.body.text("rig"); id != "" {
		return x.same.of(id)
	}
	if e.in == "" {
		return ""
	}
	s := x.session(x.same.of(e.in))
	s.rigless = true
	return s.rig(x)
}
