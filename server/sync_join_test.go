package server

import "kerfside/calc/journal/event"

// join lets a phone join the crew, or the other one. Each crew has a database of
// its own on the phone; only what was never in any crew goes along.
func (w *world) join(p *phone, toOther bool) error {
	crew := crewID
	if toOther {
		crew = otherID
	}
	if p.crew == crew {
		return nil
	}
	w.tell("%s goes from crew %q to crew %q", p.name, p.crew, crew)
	p.restart()
	left, alone := p.disk, p.crew == ""
	p.shelf[p.crew] = left
	d, ok := p.shelf[crew]
	if !ok {
		d = newDisk()
		d.meta.Crew, d.clock = crew, left.clock
	}
	delete(p.shelf, crew)
	p.crew, p.disk = crew, d
	if alone || p.bug.is("joining a crew offers everything") {
		for _, r := range left.all() {
			p.disk.put(event.Record{ID: r.ID, Raw: r.Raw, T: r.T, Unsent: event.ToSend})
		}
	}
	if alone {
		delete(p.shelf, "")
	}
	for _, r := range left.records {
		if alone && toOther && w.ever[r.Raw] {
			delete(w.ever, r.Raw)
			delete(w.tapped, r.Raw)
			w.foreign[r.Raw] = true
		}
	}
	return nil
}
