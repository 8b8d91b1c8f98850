package fold

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

	cached *FireWatch // computed; nil if something changed since
}

// maxWatch bounds the length of a watch, in ms.
const maxWatch = 24 * 3600 * 1000

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

// now returns a watch that is open.
func (w *watch) now(x *index) *FireWatch {
	if w.cached != nil {
		return w.cached
	}
	e := w.started
	v := FireWatch{ID: e.id, In: x.same.of(e.in), Rig: x.same.of(w.rig), Device: e.device, From: e.when()}
	v.Ms, _ = e.body.Int("ms")
	var last int64 // start of the last burning arc that counts
	v.From, last = w.burn(x, v.From, v.Ms)
	v.Running = last >= v.From-longestArc // an older one was forgotten
	v.Ends = v.From + v.Ms
	w.cached = &v
	return w.cached
}

// watchesShown is how many watches that nobody has ended the view now holds, beside
// those that an arc holds up. One forgotten years ago ends long before the last of
// these, and no screen shows it.
const watchesShown = 20

// watchesNow returns the watches that are open, the one that ends last first.
func (x *index) watchesNow() []FireWatch {
	all := make([]*FireWatch, 0, len(x.openWatches))
	for w := range x.openWatches {
		all = append(all, w.now(x))
	}
	order.Sort(all, func(a, b *FireWatch) int { return cmp.Or(cmp.Compare(b.Ends, a.Ends), cmp.Compare(a.ID, b.ID)) })
	list := []FireWatch{}
	for i, w := range all {
		if i < watchesShown || w.Running {
			list = append(list, *w)
		}
	}
	return list
}

// burn goes through the arcs of the watch's session and of its rig by their start,
// and returns from when on the watch counts and when the last of the arcs that
// count and have no stop was struck.
func (w *watch) burn(x *index, from, ms int64) (int64, int64) {
	last := int64(always)
	count := func(b span) {
		from = max(from, b.stop)
		if b.running {
			last = b.start
		}
	}
	inside, rig := w.inside(x), []span(nil)
	if r := x.rigs[x.same.of(w.rig)]; r != nil && w.rig != "" {
		rig = r.burnt.arcs.all()
	}
	// Arcs of the rig that were struck longest before the watch are too old.
	rig = rig[startingAt(rig, w.started.when()-longestArc):]
	for len(inside)+len(rig) > 0 {
		if len(rig) == 0 || len(inside) > 0 && bySpan(inside[0], rig[0]) <= 0 {
			if len(rig) > 0 && rig[0].id == inside[0].id {
				rig = rig[1:]
			}
			count(inside[0])
			inside = inside[1:]
			continue
		}
		if rig[0].start <= from+ms {
			count(rig[0])
			rig = rig[1:]
		} else if len(inside) == 0 {
			break // no arc can bring the watch up to it any more
		} else {
			rig = rig[max(1, startingAt(rig, inside[0].start)):] // out of reach
		}
	}
	return from, last
}

// inside returns the arcs of the watch's session, by their start.
func (w *watch) inside(x *index) []span {
	s := x.sessions[x.same.of(w.started.in)]
	if s == nil {
		return nil
	}
	all := sortedList[span]{compare: bySpan}
	for _, t := range s.burnt {
		if len(s.burnt) == 1 {
			return t.arcs.all()
		}
		all.late = append(all.late, t.arcs.all()...)
	}
	return all.all()
}
