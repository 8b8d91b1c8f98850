package server

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"kerfside/calc/journal/engine"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/journal/fold"
)

// phone is a phone of the simulation: its storage, kept to the transactions of
// pwa/journal, and the tabs in which the app is open.
type phone struct {
	name   string
	device string
	skew   int64             // its clock minus the true time, ms
	crew   string            // "" before it joined one
	disk   memory            // the database of that crew
	shelf  map[string]memory // its other databases, by crew
	tabs   []*tab
	bug    *plant
	reach  int  // how many arrivals a reply brings at most
	old    bool // its app knows of no early arrivals
}

// memory is what outlives the app.
type memory struct {
	records  map[string]event.Record
	ids      []string          // of records, in the order in which they came
	aside    map[string]string // id → why
	meta     exchange.Meta
	clock    event.Stamp
	nextL    int64
	segments map[string]fold.Segment
	snapshot int // new with each write to segments
}

// flight is a request on its way, with what was read for it.
type flight struct {
	x    exchange.Exchange
	body string
}

func newPhone(name string, skew int64, bug *plant) *phone {
	return &phone{name: name, device: name, crew: crewID, skew: skew, bug: bug, reach: exchange.MaxPage, disk: newDisk(), shelf: map[string]memory{}}
}

func newDisk() memory {
	return memory{records: map[string]event.Record{}, aside: map[string]string{}, nextL: 1, segments: map[string]fold.Segment{}}
}

// copy returns the disk as a backup of the phone would hold it.
func (d memory) copy() memory {
	d.records, d.aside, d.segments = maps.Clone(d.records), maps.Clone(d.aside), maps.Clone(d.segments)
	d.meta.Marks, d.ids = slices.Clone(d.meta.Marks), slices.Clone(d.ids)
	return d
}

// put writes a record; one that is there as it is stays untouched.
func (d *memory) put(r event.Record) {
	old, ok := d.records[r.ID]
	if r.L = old.L; ok && old.Raw == r.Raw && old.T == r.T && old.N == r.N && old.Unsent == r.Unsent && sameStamp(old.O, r.O) {
		return
	}
	r.L = d.nextL
	d.nextL++
	if !ok {
		d.ids = append(d.ids, r.ID)
	}
	d.records[r.ID] = r
}

func sameStamp(a, b *event.Stamp) bool { return a == b || a != nil && b != nil && *a == *b }

// all returns the records by id.
func (d *memory) all() []event.Record {
	list := make([]event.Record, 0, len(d.records))
	for _, id := range slices.Sorted(maps.Keys(d.records)) {
		list = append(list, d.records[id])
	}
	return list
}

// waiting reports whether anything is to be sent.
func (d *memory) waiting() bool {
	for _, r := range d.records {
		if r.Unsent == event.ToSend {
			return true
		}
	}
	return false
}

// tap stores an event: one transaction.
func (p *phone) tap(real int64, write func(id string, t event.Stamp, wall int64) string, id string) (raw string) {
	wall := real + p.skew
	p.disk.clock = event.Next(p.disk.clock, wall, p.disk.meta.Offset)
	raw = write(id, p.disk.clock, wall)
	p.disk.put(event.Record{ID: id, Raw: raw, T: p.disk.clock, Unsent: event.ToSend})
	return raw
}

// most is how many records an exchange carries: one more than a request, so that
// the sync sees that more is waiting.
const most = exchange.MaxPush + 1

// read reads what a request needs: one transaction.
func (p *phone) read(b *tab, now int64) *flight {
	f := &flight{x: exchange.Exchange{Meta: p.disk.meta}}
	f.x.Meta.Marks = slices.Clone(f.x.Meta.Marks)
	if p.old && f.x.Meta.Early == "" {
		f.x.Meta.Early = "-"
	}
	var waiting, extra []event.Record
	var highest exchange.Promise
	for _, r := range p.disk.all() {
		if r.Unsent == event.ToSend {
			waiting = append(waiting, r)
		} else if slices.Contains(b.extra, r.ID) {
			extra = append(extra, r)
		}
		if r.N > p.disk.meta.Cursor && r.N <= p.disk.meta.Cursor+int64(p.reach) {
			f.x.Promised = append(f.x.Promised, exchange.Promise{ID: r.ID, N: r.N})
		}
		if r.N > highest.N {
			highest = exchange.Promise{ID: r.ID, N: r.N}
		}
	}
	if highest.N > p.disk.meta.Cursor+int64(p.reach) {
		f.x.Promised = append(f.x.Promised, highest)
	}
	slices.SortStableFunc(waiting, func(x, y event.Record) int { return cmp.Compare(x.T, y.T) })
	for i, r := range waiting {
		if i < most || slices.Contains(b.extra, r.ID) {
			f.x.Unsent = append(f.x.Unsent, r)
		}
	}
	f.x.Unsent = append(f.x.Unsent, extra...)
	b.extra = nil
	req := exchange.NextRequest(f.x.Meta, f.x.Unsent, now+p.skew)
	f.body, f.x.Sent, f.x.SentAt = req.Body, req.Sent, now+p.skew
	return f
}

// apply writes what a reply changes: one transaction, or nothing.
func (p *phone) apply(b *tab, x exchange.Exchange, c exchange.Change) {
	d := &p.disk
	if d.meta.Cursor != x.Meta.Cursor || d.meta.Gen != x.Meta.Gen || d.meta.Revision != x.Meta.Revision {
		if !p.bug.is("reply applied over a changed cursor") {
			return
		}
		if d.meta.Cursor > c.Meta.Cursor { // it keeps the better cursor, it thinks
			c.Meta = d.meta
		}
	}
	known := map[string]bool{}
	for _, r := range x.Unsent {
		known[r.ID] = true
	}
	var other []string
	clash := false
	for _, r := range c.Put {
		if old, ok := d.records[r.ID]; ok && old.Raw != r.Raw {
			other = append(other, r.ID)
			clash = clash || !known[r.ID]
		}
	}
	if clash {
		b.extra = other
		return // begin again, with these
	}
	if c.Forget != nil && !(p.bug.is("promises kept") && c.Meta.Gen == x.Meta.Gen) {
		p.forget(*c.Forget)
	}
	for _, r := range c.Put {
		old, ok := d.records[r.ID]
		if ok && isStub([]byte(r.Raw)) && p.bug.is("what was erased is kept") {
			continue // an id that is there is held, it thinks
		}
		if ok && r.O == nil {
			r.O = old.O
		}
		if r.Unsent = 0; r.N == 0 {
			r.Unsent = event.ToSend
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
		if r, ok := d.records[id]; ok && !p.bug.is("promises kept") {
			r.N, r.Unsent = 0, event.ToSend
			d.put(r)
		}
	}
	for _, a := range c.Rejected {
		if r, ok := d.records[a.ID]; ok {
			r.N, r.Unsent = 0, event.Rejected
			d.aside[a.ID] = string(a.Error.Kind)
			d.put(r)
		}
	}
	d.meta = c.Meta
	d.clock = event.Settle(d.clock, d.meta.MaxO, d.waiting())
}

// forget takes the numbers above n back.
func (p *phone) forget(n int64) {
	d := &p.disk
	for _, r := range d.all() {
		if r.N <= n {
			continue
		}
		if p.bug.is("no relay after a restore") && !own(r, p.device) {
			delete(d.records, r.ID) // its own phone will bring it, it thinks
			continue
		}
		r.N, r.Unsent = 0, event.ToSend
		d.put(r)
	}
}

// own reports whether the phone wrote a record itself.
func own(r event.Record, device string) bool {
	e, err := event.Decode([]byte(r.Raw))
	return err == nil && e.Device == device
}

// restart ends all tabs and starts the app anew from what is on the disk.
func (p *phone) restart() { p.tabs = nil }

// tab returns tab i of the app, opened if it is not open.
func (p *phone) tab(i int) (*tab, error) {
	for len(p.tabs) <= i {
		b, err := p.openTab()
		if err != nil {
			return nil, err
		}
		p.tabs = append(p.tabs, b)
	}
	return p.tabs[i], nil
}

// engineCall makes a call as the worker does. What comes back goes through JSON only
// if it must: most of a simulation's time would pass there.
func engineCall[Out any](d *engine.Engine, name string, in any) (Out, error) {
	var out Out
	text, err := json.Marshal(in)
	if err != nil {
		return out, err
	}
	v, err := d.Call(name, text)
	if err != nil {
		return out, fmt.Errorf("%s: %w", name, err)
	}
	if whole, ok := v.(Out); ok {
		return whole, nil
	}
	if text, err = json.Marshal(v); err != nil {
		return out, err
	}
	return out, json.Unmarshal(text, &out)
}
