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

// tab is the app open on a phone: a worker with its fold, as pwa/worker/fold-loop.js
// keeps it, and the exchange that it is in.
type tab struct {
	engine   *engine.Engine
	l        int64                      // the changes up to it are folded
	snapshot int                        // what disk.snapshot reads while our segments stand on the stored ones; -1: another tab's do
	segments map[string]fold.Segment    // not stored yet
	views    map[string]json.RawMessage // what the screen shows
	held     []*flight                  // replies that arrived and were not applied yet
	extra    []string                   // records to pass along with the next exchange
}

// openTab hands the snapshot to a new worker. One that it cannot read is dropped.
func (p *phone) openTab() (*tab, error) {
	b := &tab{engine: engine.New(), snapshot: p.disk.snapshot, segments: map[string]fold.Segment{}, views: map[string]json.RawMessage{}}
	segments := slices.Collect(maps.Values(p.disk.segments))
	v, err := engineCall[engine.Restored](b.engine, "journal-restore", map[string]any{"rungs": segments})
	if len(v.Stale) > 0 {
		p.disk.snapshot++
		p.disk.segments, b.snapshot = map[string]fold.Segment{}, p.disk.snapshot
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
		v, err := engineCall[engine.Folded](b.engine, "journal-fold", map[string]any{"events": part, "more": more, "keep": keep && !more, "device": p.device})
		if err != nil {
			return err
		}
		b.l = v.L
		for _, r := range v.Segments {
			b.segments[r.Name] = r
		}
		maps.Copy(b.views, v.Views)
	}
	return nil
}

// storeSegments writes the new segments, if those below are still ours: one transaction.
func (p *phone) storeSegments(b *tab) {
	if b.snapshot >= 0 && len(b.segments) > 0 {
		if p.disk.snapshot == b.snapshot {
			maps.Copy(p.disk.segments, b.segments)
			p.disk.snapshot++
			b.snapshot = p.disk.snapshot
		} else {
			b.snapshot = -1
		}
	}
	clear(b.segments)
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
