package engine

import (
	"bytes"
	"encoding/json"

	"kerfside/calc/journal/fold"
	"kerfside/calc/problem"
)

// Engine keeps the fold of a phone's journal and answers the calls of its worker, which
// calc/journal/engine.md describes. It is not for several goroutines
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
		"journal-days":    call(e.days),
		"journal-job":     call(e.job),
		"journal-history": call(e.history),
		"journal-taught":  call(e.taught),
		"journal-report":  call(e.report),
		"journal-act":     call(e.act),
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
