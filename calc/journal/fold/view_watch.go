package fold

import (
	"cmp"

	"kerfside/calc/order"
)

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
	burnt := w.burn(x, v.From, v.Ms, forever)
	v.From = burnt.from
	v.Running = burnt.last >= v.From-longestArc // an older one was forgotten
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
