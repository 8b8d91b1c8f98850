package engine

import (
	"bytes"
	"encoding/json"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// Desk is where a phone's worker has its journal kept: the fold, and what was
// last handed out of it. It answers the calls of the package comment. It is not
// for several goroutines at once.
type Desk struct {
	fold  *fold.Fold
	l     int64
	calls map[string]func(json.RawMessage) (any, error)
}

// NewDesk returns a desk with an empty fold.
func NewDesk() *Desk {
	d := &Desk{fold: fold.NewFold()}
	d.calls = map[string]func(json.RawMessage) (any, error){
		"journal-restore": call(d.restore),
		"journal-fold":    call(d.take),
		"journal-session": call(d.session),
		"journal-book":    call(d.book),
		"journal-part":    call(d.part),
		"journal-parts":   call(d.parts),
		"journal-hash":    call(d.hash),
		"journal-request": call(d.request),
		"journal-apply":   call(d.apply),
		"journal-check":   call(check),
		"journal-export":  call(export),
		"journal-import":  call(imports),
	}
	return d
}

// Call answers one call. Its errors are problems.
func (d *Desk) Call(name string, input json.RawMessage) (any, error) {
	f, ok := d.calls[name]
	if !ok {
		return nil, problem.Newf(problem.Unknown, "", "the journal does not know the call %q", name)
	}
	return f(input)
}

// Reply is Call with the answer as the JSON {"ok": answer}.
func (d *Desk) Reply(name string, input json.RawMessage) ([]byte, error) {
	v, err := d.Call(name, input)
	if err != nil {
		return nil, err
	}
	folded, _ := v.(Folded)
	if folded.Views != nil {
		views := folded.Views
		folded.Views, v = nil, nil
		return reply(folded, views)
	}
	return reply(v, nil)
}

// reply writes an answer with views added to it. They are JSON that was made here a
// moment ago; encoding/json would read every byte of them once more.
func reply(v any, views map[string]json.RawMessage) ([]byte, error) {
	text, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	size := len(text) + 32
	for name, view := range views {
		size += len(name) + len(view) + 4
	}
	b := append(append(make([]byte, 0, size), `{"ok":`...), text...)
	if views != nil {
		b = append(b[:len(b)-1], `,"views":`...)
		next := byte('{')
		for _, name := range order.Keys(views) {
			b = append(append(b, next, '"'), name...)
			b = append(append(b, '"', ':'), views[name]...)
			next = ','
		}
		if len(views) == 0 {
			b = append(b, '{')
		}
		b = append(b, '}', '}')
	}
	return append(b, '}'), nil
}

// call makes a call of a function that takes its input read.
func call[In, Out any](f func(In) (Out, error)) func(json.RawMessage) (any, error) {
	return func(input json.RawMessage) (any, error) {
		var in In
		if len(bytes.TrimSpace(input)) > 0 {
			if err := json.Unmarshal(input, &in); err != nil {
				return nil, problem.New(problem.Malformed, "", "the call's input cannot be read", "Update the app.").WithCause(err)
			}
		}
		return f(in)
	}
}

// Restored answers journal-restore.
type Restored struct {
	Fold  int      `json:"fold"`
	L     int64    `json:"l"`
	Stale []string `json:"stale"`
}

func (d *Desk) restore(in struct {
	Rungs []fold.Rung `json:"rungs"`
}) (Restored, error) {
	var err error
	d.fold, d.l, err = fold.RestoreFold(in.Rungs)
	v := Restored{Fold: fold.FoldVersion, L: d.l, Stale: []string{}}
	if err != nil { // the events are all there; only the short cut is lost
		for _, r := range in.Rungs {
			v.Stale = append(v.Stale, r.Name)
		}
	}
	return v, nil
}

// Folded answers journal-fold.
type Folded struct {
	Fold    int                        `json:"fold"`
	L       int64                      `json:"l"`
	Views   map[string]json.RawMessage `json:"views,omitempty"`
	Arc     map[string]fold.RunningArc `json:"arc"`
	Rungs   []fold.Rung                `json:"rungs"`
	Refused []Unfolded                 `json:"refused"`
}

// Unfolded is a record that cannot be read as an event.
type Unfolded struct {
	L     int64          `json:"l"`
	Error *problem.Error `json:"error"`
}

func (d *Desk) take(in struct {
	Events []event.Record `json:"events"`
	More   bool           `json:"more"`
	Keep   bool           `json:"keep"`
	Device string         `json:"device"`
}) (Folded, error) {
	v := Folded{Fold: fold.FoldVersion, Refused: []Unfolded{}}
	for _, r := range in.Events {
		d.l = max(d.l, r.L)
		e, err := event.Decode([]byte(r.Raw))
		if err != nil {
			v.Refused = append(v.Refused, Unfolded{r.L, problem.From(err)})
			continue
		}
		d.fold.Add(e, r.O, r.N)
	}
	v.L = d.l
	if in.More {
		return v, nil
	}
	v.Arc = d.fold.Arcs(in.Device)
	v.Rungs = d.fold.TakeSegments(d.l, in.Keep)
	var err error
	v.Views, err = d.fold.TakeViews()
	return v, err
}
