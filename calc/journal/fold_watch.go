package journal

import (
	"cmp"
	"slices"

	"kerfside/calc/order"
)

// watch is a fire watch.
type watch struct {
	started *entry
	ended   []*entry
	rig     string // of started
}

// maxWatch bounds the length of a watch, in ms.
const maxWatch = 24 * 3600 * 1000

// addWatch takes the start or the end of a watch.
func (x *index) addWatch(e *entry) {
	id := e.id
	if e.kind == "watch.ended" {
		id = e.body.text("of")
	} else if _, ok := e.body.wholeIn("ms", 1, maxWatch); !ok {
		e.odd = true
		e.warn("odd", "a fire watch of that length cannot be")
		return
	}
	w := x.watches[id]
	if w == nil {
		w = &watch{}
		x.watches[id] = w
	}
	if e.kind == "watch.ended" {
		w.ended = append(w.ended, e)
	} else {
		w.started, w.rig = e, x.rigOf(e)
	}
}

// FireWatch is a watch that nobody has ended. It counts from the last arc: an
// arc in its session starts it anew whenever it burns, one of its rig if it is
// struck before the watch is over or burns already.
type FireWatch struct {
	ID      string `json:"id"`
	In      string `json:"in"`
	Rig     string `json:"rig"`
	Device  string `json:"device"` // the phone that began it
	Ms      int64  `json:"ms"`
	From    int64  `json:"from"`
	Ends    int64  `json:"ends"`
	Running bool   `json:"running"` // an arc burns: the end moves on
}

// open returns the watch if it was not ended.
func (w *watch) open(x *index) (FireWatch, bool) {
	e := w.started
	if e == nil || e.hidden || len(standing(w.ended)) > 0 {
		return FireWatch{}, false
	}
	v := FireWatch{ID: e.id, In: x.same.of(e.in), Rig: x.same.of(w.rig), Device: e.device, From: e.when()}
	v.Ms, _ = e.body.whole("ms")
	var burning []burn
	for _, b := range w.burns(x) {
		if b.inside || b.start <= v.From+v.Ms {
			v.From = max(v.From, b.stop)
			if b.running {
				burning = append(burning, b)
			}
		}
	}
	v.Running = slices.ContainsFunc(burning, func(b burn) bool { return b.start >= v.From-longest }) // an older one was forgotten
	v.Ends = v.From + v.Ms
	return v, true
}

// burn is an arc that may start a watch anew.
type burn struct {
	span
	inside bool // of the session of the watch
}

// burns returns the arcs of the watch's session and of its rig, by their start.
// Those of the rig alone that were struck longest before the watch are too old.
func (w *watch) burns(x *index) []burn {
	list := []burn{}
	in := x.same.of(w.started.in)
	if s := x.sessions[in]; s != nil {
		for _, a := range s.arcs {
			if b, ok := a.span(); ok {
				list = append(list, burn{b, true})
			}
		}
	}
	if r := x.rigs[x.same.of(w.rig)]; r != nil && w.rig != "" {
		for _, a := range r.arcs {
			if a.in == in || a.start.when() < w.started.when()-longest {
				continue
			}
			if b, ok := a.span(); ok {
				list = append(list, burn{b, false})
			}
		}
	}
	order.Sort(list, func(a, b burn) int {
		return cmp.Or(cmp.Compare(a.start, b.start), cmp.Compare(a.stop, b.stop), cmp.Compare(a.id, b.id))
	})
	return list
}
