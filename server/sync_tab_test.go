package server

import (
	"cmp"
	"encoding/json"
	"maps"
	"slices"
	"strings"

	"kerfside/calc/journal/engine"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
)

// tab is the app open on a phone: a worker with its fold, as pwa/worker/fold.js
// keeps it, and the exchange that it is in.
type tab struct {
	desk   *engine.Desk
	l      int64                      // the changes up to it are folded
	ladder int                        // what disk.ladder reads while our rungs stand on the stored ones; -1: another tab's do
	rungs  map[string]fold.Rung       // not stored yet
	views  map[string]json.RawMessage // what the screen shows
	held   []*flight                  // replies that arrived and were not applied yet
	extra  []string                   // records to pass along with the next exchange
}

// openTab hands the snapshot to a new worker. One that it cannot read is dropped.
func (p *phone) openTab() (*tab, error) {
	b := &tab{desk: engine.NewDesk(), ladder: p.disk.ladder, rungs: map[string]fold.Rung{}, views: map[string]json.RawMessage{}}
	rungs := slices.Collect(maps.Values(p.disk.rungs))
	v, err := deskCall[engine.Restored](b.desk, "journal-restore", map[string]any{"rungs": rungs})
	if len(v.Stale) > 0 {
		p.disk.ladder++
		p.disk.rungs, b.ladder = map[string]fold.Rung{}, p.disk.ladder
	}
	b.l = v.L
	return b, err
}

// foldNew lets the worker fold what was stored since.
func (p *phone) foldNew(b *tab, keep bool) error {
	var list []event.Record
	for _, r := range p.disk.records {
		if r.L > b.l {
			list = append(list, p.asFolded(r))
		}
	}
	slices.SortFunc(list, func(x, y event.Record) int { return cmp.Compare(x.L, y.L) })
	const portion = 1000
	for more := true; more; {
		part := list[:min(portion, len(list))]
		list = list[len(part):]
		more = len(list) > 0
		v, err := deskCall[engine.Folded](b.desk, "journal-fold", map[string]any{"events": part, "more": more, "keep": keep && !more, "device": p.device})
		if err != nil {
			return err
		}
		b.l = v.L
		for _, r := range v.Rungs {
			b.rungs[r.Name] = r
		}
		maps.Copy(b.views, v.Views)
	}
	return nil
}

// storeRungs writes the new rungs, if those below are still ours: one transaction.
func (p *phone) storeRungs(b *tab) {
	if b.ladder >= 0 && len(b.rungs) > 0 {
		if p.disk.ladder == b.ladder {
			maps.Copy(p.disk.rungs, b.rungs)
			p.disk.ladder++
			b.ladder = p.disk.ladder
		} else {
			b.ladder = -1
		}
	}
	clear(b.rungs)
}

// asFolded is a record as the worker reads it; two of the planted bugs are here.
func (p *phone) asFolded(r event.Record) event.Record {
	switch {
	case p.bug.is("fold in arrival order"):
		o := event.Stamp(r.L)
		r.O = &o
	case p.bug.is("stock as last writer"):
		r.Raw = strings.Replace(r.Raw, `"kind":"stock.moved"`, `"kind":"stock.counted"`, 1)
	}
	return r
}
