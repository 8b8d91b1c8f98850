package fold

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
