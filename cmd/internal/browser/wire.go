package browser

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"sync"
)

// message is anything that crosses the wire, in the DevTools protocol as in
// WebDriver BiDi: a call has ID and Method, an answer ID and Result or Error,
// an event Method alone.
type message struct {
	ID      int             `json:"id,omitempty"`
	Session string          `json:"sessionId,omitempty"` // DevTools
	Method  string          `json:"method,omitempty"`
	Params  json.RawMessage `json:"params,omitempty"`
	Result  json.RawMessage `json:"result,omitempty"`
	Error   *refusal        `json:"error,omitempty"`
	Message string          `json:"message,omitempty"` // BiDi: words for the error
}

// refusal is the browser's no to a call.
type refusal struct{ text string }

func (e *refusal) Error() string { return e.text }

// UnmarshalJSON reads an error of DevTools, an object, or of BiDi, a word.
func (e *refusal) UnmarshalJSON(data []byte) error {
	if json.Unmarshal(data, &e.text) == nil {
		return nil
	}
	var object struct{ Message, Data string }
	if err := json.Unmarshal(data, &object); err != nil {
		return err
	}
	e.text = object.Message
	if object.Data != "" {
		e.text += ": " + object.Data
	}
	return nil
}

// errGone is the answer to every call that the browser did not live to give.
var errGone = errors.New("the browser is gone")

// carrier takes texts to the browser and brings those that it sends.
type carrier interface {
	send(text []byte) error
	receive() ([]byte, error)
	io.Closer
}

// wire carries calls to the browser and answers and events back.
type wire struct {
	carrier carrier
	event   func(message) // called in order, must not call back and wait
	closed  chan struct{} // closed when the browser's end is

	mu      sync.Mutex
	last    int
	waiting map[int]chan message
}

// newWire starts to read what the browser sends.
func newWire(c carrier, event func(message)) *wire {
	w := &wire{carrier: c, event: event, closed: make(chan struct{}), waiting: map[int]chan message{}}
	go w.read()
	return w
}

// read hands out what arrives until the other end closes.
func (w *wire) read() {
	defer close(w.closed)
	defer w.carrier.Close()
	for {
		text, err := w.carrier.receive()
		if err != nil {
			return
		}
		var m message
		if json.Unmarshal(text, &m) != nil {
			return // a browser that sends anything but JSON is as good as gone
		}
		if m.ID == 0 {
			w.event(m)
			continue
		}
		w.mu.Lock()
		answer := w.waiting[m.ID]
		delete(w.waiting, m.ID)
		w.mu.Unlock()
		if answer != nil {
			answer <- m
		}
	}
}

// call sends a method to a session ("" for the browser itself) and waits for
// the answer, which it decodes into result unless that is nil.
func (w *wire) call(ctx context.Context, session, method string, params, result any) error {
	raw, err := json.Marshal(params)
	if err != nil {
		return err
	}
	answer := make(chan message, 1)
	w.mu.Lock()
	w.last++
	id := w.last
	w.waiting[id] = answer
	text, err := json.Marshal(message{ID: id, Session: session, Method: method, Params: raw})
	if err == nil {
		err = w.carrier.send(text)
	}
	w.mu.Unlock()
	if err != nil {
		return fmt.Errorf("%s: %w: %w", method, errGone, err)
	}
	select {
	case m := <-answer:
		if m.Error != nil {
			if m.Message != "" {
				m.Error.text += ": " + m.Message
			}
			return fmt.Errorf("%s: %w", method, m.Error)
		}
		if result == nil {
			return nil
		}
		return json.Unmarshal(m.Result, result)
	case <-w.closed:
		return fmt.Errorf("%s: %w", method, errGone)
	case <-ctx.Done():
		w.mu.Lock()
		delete(w.waiting, id)
		w.mu.Unlock()
		return fmt.Errorf("%s: %w", method, context.Cause(ctx))
	}
}
