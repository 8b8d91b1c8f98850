package fold

// family is a group of kinds whose entries are kept together, in a file of its own.
type family struct {
	kinds []string
	add   func(*index, *entry) // takes an entry in
	drop  func(*index, *entry) // takes it out again
}

// families returns all families by their kinds. An entry of a kind without one, such as
// a note, only stands in the list of its session.
func families() map[string]*family {
	all := map[string]*family{}
	for _, f := range []*family{&thingFamily, &sessionFamily, &arcFamily, &partFamily, &airFamily, &upkeepFamily, &guideFamily, &faultFamily, &watchFamily, &stockFamily, &jobFamily, &pauseFamily, &triedFamily} {
		for _, kind := range f.kinds {
			all[kind] = f
		}
	}
	return all
}

// file puts an entry into the family of its kind.
func (x *index) file(e *entry) {
	if f := x.families[e.kind]; f != nil && e.known() && !e.odd {
		f.add(x, e)
	}
}

// unfile takes an entry out of the family of its kind.
func (x *index) unfile(e *entry) {
	if f := x.families[e.kind]; f != nil && e.known() && !e.odd {
		f.drop(x, e)
	}
}

// thingFamily are the fields of rigs, sites and devices.
var thingFamily = family{
	kinds: []string{"rig.set", "site.set", "setting.set"},
	add:   func(x *index, e *entry) { x.fields(e).set(e) },
	drop:  func(x *index, e *entry) { x.fields(e).unset(e) },
}

// fields returns the register that an entry sets: that of a rig, a site or a
// device. What shows the register becomes stale.
func (x *index) fields(e *entry) register {
	switch e.kind {
	case "rig.set":
		r := x.rig(x.same.of(e.about))
		r.cached, x.stale.rigs = nil, true
		return r.fields
	case "site.set":
		x.stale.rigs = true
		return registerOf(x.sites, x.same.of(e.about))
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
