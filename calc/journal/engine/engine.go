package engine

import (
	"bytes"
	"encoding/json"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// Engine keeps the fold of a phone's journal and answers the calls of its worker. They
// are in the comment of package event, under Calls. It is not for several goroutines
// at once.
type Engine struct {
	fold  *fold.Fold
	l     int64 // highest local change number that was folded
	calls map[string]func(json.RawMessage) (any, error)
}

// New returns an engine with an empty fold.
func New() *Engine {
	e := &Engine{fold: fold.NewFold()}
	e.calls = map[string]func(json.RawMessage) (any, error){
		"journal-restore": call(e.restore),
		"journal-fold":    call(e.foldRecords),
		"journal-session": call(e.session),
		"journal-book":    call(e.book),
		"journal-part":    call(e.part),
		"journal-parts":   call(e.parts),
		"journal-hash":    call(e.hash),
		"journal-request": call(e.nextRequest),
		"journal-apply":   call(e.applyReply),
		"journal-check":   call(check),
		"journal-export":  call(export),
		"journal-import":  call(importFile),
	}
	return e
}

// Call answers one call. Its errors are problems.
func (e *Engine) Call(name string, input json.RawMessage) (any, error) {
	f, ok := e.calls[name]
	if !ok {
		return nil, problem.Newf(problem.Unknown, "", "the journal does not know the call %q", name)
	}
	return f(input)
}

// Reply is Call with the answer as the JSON {"ok": answer}.
func (e *Engine) Reply(name string, input json.RawMessage) ([]byte, error) {
	v, err := e.Call(name, input)
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

func (e *Engine) restore(in struct {
	Segments []fold.Segment `json:"rungs"`
}) (Restored, error) {
	var err error
	e.fold, e.l, err = fold.Restore(in.Segments)
	v := Restored{Fold: fold.FoldVersion, L: e.l, Stale: []string{}}
	if err != nil { // the events are all there; only the short cut is lost
		for _, r := range in.Segments {
			v.Stale = append(v.Stale, r.Name)
		}
	}
	return v, nil
}

// Folded answers journal-fold.
type Folded struct {
	Fold     int                        `json:"fold"`
	L        int64                      `json:"l"`
	Views    map[string]json.RawMessage `json:"views,omitempty"`
	Arc      map[string]fold.RunningArc `json:"arc"`
	Segments []fold.Segment             `json:"rungs"`
	Refused  []Unfolded                 `json:"refused"`
}

// Unfolded is a record that cannot be read as an event.
type Unfolded struct {
	L     int64          `json:"l"`
	Error *problem.Error `json:"error"`
}

func (e *Engine) foldRecords(in struct {
	Events []event.Record `json:"events"`
	More   bool           `json:"more"`
	Keep   bool           `json:"keep"`
	Device string         `json:"device"`
}) (Folded, error) {
	v := Folded{Fold: fold.FoldVersion, Refused: []Unfolded{}}
	for _, r := range in.Events {
		e.l = max(e.l, r.L)
		read, err := event.Decode([]byte(r.Raw))
		if err != nil {
			v.Refused = append(v.Refused, Unfolded{r.L, problem.From(err)})
			continue
		}
		e.fold.Add(read, r.O, r.N)
	}
	v.L = e.l
	if in.More {
		return v, nil
	}
	v.Arc = e.fold.Arcs(in.Device)
	v.Segments = e.fold.ChangedSegments(e.l, in.Keep)
	var err error
	v.Views, err = e.fold.ChangedViews()
	return v, err
}
