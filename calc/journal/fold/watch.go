package fold

import "slices"

// watch is a fire watch.
type watch struct {
	started *entry
	ended   []*entry
	rig     string // of started

	cached *FireWatch // computed; nil if something changed since
}

// maxWatch bounds the length of a watch, in ms.
const maxWatch = 24 * 3600 * 1000

var watchFamily = family{kinds: []string{"watch.started", "watch.ended"}, add: (*index).addWatch, drop: (*index).dropWatch}

// addWatch takes the start or the end of a watch.
func (x *index) addWatch(e *entry) {
	if e.kind == "watch.ended" {
		w := x.watch(e.body.Text("of"))
		w.ended = append(w.ended, e)
		x.noteWatch(w)
		return
	}
	if _, ok := e.body.IntIn("ms", 1, maxWatch); !ok {
		e.odd = true
		e.warn("odd", "a fire watch of that length cannot be")
		return
	}
	w := x.watch(e.id)
	w.started, w.rig = e, x.rigOf(e)
	x.noteWatch(w)
}

// dropWatch takes the start or the end of a watch out again.
func (x *index) dropWatch(e *entry) {
	id := e.id
	if e.kind == "watch.ended" {
		id = e.body.Text("of")
	}
	w := x.watch(id)
	if e.kind == "watch.ended" {
		w.ended = without(w.ended, e)
	} else {
		w.started = nil
	}
	x.noteWatch(w)
}

// watch returns the watch that the entry id begins, a new one if need be.
func (x *index) watch(id string) *watch {
	w := x.watches[id]
	if w == nil {
		w = &watch{}
		x.watches[id] = w
	}
	return w
}

// noteWatch notes whether a watch is open.
func (x *index) noteWatch(w *watch) {
	w.cached = nil
	if e := w.started; e != nil && !e.hidden && !slices.ContainsFunc(w.ended, func(e *entry) bool { return !e.hidden }) {
		x.openWatches[w] = true
	} else {
		delete(x.openWatches, w)
	}
}
