package server

import (
	"maps"
	"slices"

	"kerfside/calc/journal"
)

// phone is a phone of the simulation: its storage, kept to the transactions of
// the package comment of calc/journal, and a worker with its fold.
type phone struct {
	name   string
	device string
	skew   int64 // its clock minus the true time, ms
	disk   disk
	desk   *journal.Desk
	held   []*flight // replies that arrived and were not applied yet (another tab)
	extra  []string  // records to pass along with the next exchange, see apply
}

// disk is what outlives the app.
type disk struct {
	records map[string]journal.Record
	ids     []string          // of records, in the order in which they came
	aside   map[string]string // id → why
	meta    journal.Meta
	clock   journal.Stamp
	nextL   int64
	rungs   map[string]journal.Rung
}

// flight is a request on its way, with what was read for it.
type flight struct {
	x    journal.Exchange
	body string
}

func newPhone(name string, skew int64) *phone {
	return &phone{name: name, device: name, skew: skew, desk: journal.NewDesk(),
		disk: disk{records: map[string]journal.Record{}, aside: map[string]string{}, nextL: 1, rungs: map[string]journal.Rung{}}}
}

// copy returns the disk as a backup of the phone would hold it.
func (d disk) copy() disk {
	d.records, d.aside, d.rungs = maps.Clone(d.records), maps.Clone(d.aside), maps.Clone(d.rungs)
	d.meta.Marks, d.ids = slices.Clone(d.meta.Marks), slices.Clone(d.ids)
	return d
}

func (d *disk) put(r journal.Record) {
	r.L = d.nextL
	d.nextL++
	if _, ok := d.records[r.ID]; !ok {
		d.ids = append(d.ids, r.ID)
	}
	d.records[r.ID] = r
}

// tap stores an event: one transaction.
func (p *phone) tap(true_ int64, make func(id string, t journal.Stamp, wall int64) (string, string), id string) (raw string) {
	wall := true_ + p.skew
	p.disk.clock = journal.Next(p.disk.clock, wall, p.disk.meta.Offset)
	id, raw = make(id, p.disk.clock, wall)
	p.disk.put(journal.Record{ID: id, Raw: raw, T: p.disk.clock, Unsent: journal.ToSend})
	return raw
}

// read reads what a request needs: one transaction.
func (p *phone) read(now int64) *flight {
	f := &flight{x: journal.Exchange{Meta: p.disk.meta}}
	f.x.Meta.Marks = slices.Clone(f.x.Meta.Marks)
	for _, id := range slices.Sorted(maps.Keys(p.disk.records)) {
		r := p.disk.records[id]
		if r.Unsent != 0 || slices.Contains(p.extra, id) {
			f.x.Unsent = append(f.x.Unsent, r)
		}
		if r.N > p.disk.meta.Cursor {
			f.x.Promised = append(f.x.Promised, journal.Promise{ID: r.ID, N: r.N})
		}
	}
	p.extra = nil
	req := journal.NextRequest(p.disk.meta, f.x.Unsent, now+p.skew)
	f.body, f.x.Sent, f.x.SentAt = req.Body, req.Sent, now+p.skew
	return f
}

// apply writes what a reply changes: one transaction, or nothing.
func (p *phone) apply(x journal.Exchange, c journal.Change, bug *plant) {
	d := &p.disk
	moved := d.meta.Cursor != x.Meta.Cursor || d.meta.Gen != x.Meta.Gen || d.meta.Turn != x.Meta.Turn
	if moved {
		return
	}
	known := map[string]bool{}
	for _, r := range x.Unsent {
		known[r.ID] = true
	}
	for _, r := range c.Put {
		if old, ok := d.records[r.ID]; ok && old.Raw != r.Raw && !known[r.ID] {
			p.extra = append(p.extra, r.ID)
		}
	}
	if len(p.extra) > 0 {
		return // begin again, with these
	}
	if c.Forget != nil {
		for _, id := range slices.Sorted(maps.Keys(d.records)) {
			r := d.records[id]
			if r.N > *c.Forget && bug.is("no relay after a restore") && !own(r, p.device) {
				delete(d.records, id) // its own phone will bring it, it thinks
				continue
			}
			if r.N > *c.Forget {
				r.N, r.Unsent = 0, journal.ToSend
				d.put(r)
			}
		}
	}
	for _, r := range c.Put {
		if r.Unsent = 0; r.N == 0 {
			r.Unsent = journal.ToSend
		}
		delete(d.aside, r.ID)
		d.put(r)
	}
	for _, a := range c.Ack {
		if r, ok := d.records[a.ID]; ok {
			r.N, r.O, r.Unsent = a.N, &a.O, 0
			d.put(r)
		}
	}
	for _, id := range c.Unsend {
		if r, ok := d.records[id]; ok && !bug.is("promises kept") {
			r.N, r.Unsent = 0, journal.ToSend
			d.put(r)
		}
	}
	for _, a := range c.Aside {
		if r, ok := d.records[a.ID]; ok {
			r.N, r.Unsent = 0, journal.Aside
			d.aside[a.ID] = string(a.Error.Kind)
			d.put(r)
		}
	}
	d.meta = c.Meta
	waiting := false
	for _, r := range d.records {
		waiting = waiting || r.Unsent == journal.ToSend
	}
	d.clock = journal.Settle(d.clock, d.meta.MaxO, waiting)
}

// own reports whether the phone wrote a record itself.
func own(r journal.Record, device string) bool {
	e, err := journal.Decode([]byte(r.Raw))
	return err == nil && e.Device == device
}

// work lets the worker fold what changed and keep its rungs.
func (p *phone) work(keep bool) (journal.Folded, error) {
	list := slices.SortedFunc(maps.Values(p.disk.records), func(a, b journal.Record) int { return int(a.L - b.L) })
	in := struct {
		Events []journal.Record `json:"events"`
		Keep   bool             `json:"keep"`
		Device string           `json:"device"`
	}{Keep: keep, Device: p.device}
	l := p.deskL()
	for _, r := range list {
		if r.L > l {
			in.Events = append(in.Events, r)
		}
	}
	v, err := deskCall[journal.Folded](p.desk, "journal-fold", in)
	for _, r := range v.Rungs {
		p.disk.rungs[r.Name] = r
	}
	return v, err
}

// deskL returns up to which change the worker has folded.
func (p *phone) deskL() int64 {
	v, err := deskCall[journal.Folded](p.desk, "journal-fold", map[string]any{"more": true})
	if err != nil {
		panic(err)
	}
	return v.L
}

// restart starts the app anew from what is on the disk.
func (p *phone) restart() error {
	p.held, p.extra = nil, nil
	p.desk = journal.NewDesk()
	rungs := slices.Collect(maps.Values(p.disk.rungs))
	v, err := deskCall[journal.Restored](p.desk, "journal-restore", map[string]any{"rungs": rungs})
	for _, name := range v.Stale {
		delete(p.disk.rungs, name)
	}
	return err
}
