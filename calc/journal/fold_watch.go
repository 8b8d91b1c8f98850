package journal

// watch is a fire watch.
type watch struct {
	started *entry
	ended   []*entry
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
		w.started = e
	}
}

// FireWatch is a watch that nobody has ended. It counts from the last arc: any
// arc in its session after the start moves its end.
type FireWatch struct {
	ID      string `json:"id"`
	In      string `json:"in"`
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
	v := FireWatch{ID: e.id, In: x.same.of(e.in), From: e.when()}
	v.Ms, _ = e.body.whole("ms")
	if s := x.sessions[v.In]; s != nil {
		for _, a := range s.arcs {
			if burnt, ok := a.span(); ok {
				v.From = max(v.From, burnt.stop)
				v.Running = v.Running || burnt.running
			}
		}
	}
	v.Ends = v.From + v.Ms
	return v, true
}
