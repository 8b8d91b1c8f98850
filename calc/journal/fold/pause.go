package fold

// pause is a time in which work waits: from a start and what ends it.
type pause struct {
	start *entry // nil while only an end is here
	ends  []*entry
}

var pauseFamily = family{kinds: []string{"pause.started", "pause.ended"}, add: (*index).addPause, drop: (*index).dropPause}

// addPause takes a start or an end of a pause.
func (x *index) addPause(e *entry) {
	if e.kind == "pause.started" {
		x.pause(e.id).start = e
		return
	}
	p := x.pause(e.body.Text("of"))
	p.ends = append(p.ends, e)
}

// dropPause takes it out again.
func (x *index) dropPause(e *entry) {
	if e.kind == "pause.started" {
		x.pause(e.id).start = nil
		return
	}
	p := x.pause(e.body.Text("of"))
	p.ends = without(p.ends, e)
}

// pause returns the pause that the start id begins, a new one if need be.
func (x *index) pause(id string) *pause {
	p := x.pauses[id]
	if p == nil {
		p = &pause{}
		x.pauses[id] = p
	}
	return p
}
