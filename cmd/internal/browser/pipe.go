package browser

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"sync"
)

// message is anything that crosses the pipe: a call has ID and Method, an
// answer ID and Result or Error, an event Method alone.
type message struct {
	ID      int             `json:"id,omitempty"`
	Session string          `json:"sessionId,omitempty"`
	Method  string          `json:"method,omitempty"`
	Params  json.RawMessage `json:"params,omitempty"`
	Result  json.RawMessage `json:"result,omitempty"`
	Error   *protocolError  `json:"error,omitempty"`
}

// protocolError is the browser's refusal of a call.
type protocolError struct {
	Code    int    `json:"code"`
	Message string `json:"message"`
	Data    string `json:"data"`
}

func (e *protocolError) Error() string {
	if e.Data != "" {
		return e.Message + ": " + e.Data
	}
	return e.Message
}

// errGone is the answer to every call that the browser did not live to give.
var errGone = errors.New("the browser is gone")

// pipe carries calls to the browser and answers and events back.
type pipe struct {
	out    io.WriteCloser
	event  func(message) // called in order, must not call back and wait
	closed chan struct{} // closed when the browser's end is

	mu      sync.Mutex
	last    int
	waiting map[int]chan message
}

// newPipe starts to read from in.
func newPipe(in io.Reader, out io.WriteCloser, event func(message)) *pipe {
	p := &pipe{out: out, event: event, closed: make(chan struct{}), waiting: map[int]chan message{}}
	go p.read(in)
	return p
}

// read hands out what arrives until the other end closes.
func (p *pipe) read(in io.Reader) {
	defer close(p.closed)
	r := bufio.NewReaderSize(in, 1<<20)
	for {
		text, err := r.ReadBytes(0)
		if err != nil {
			return
		}
		var m message
		if json.Unmarshal(text[:len(text)-1], &m) != nil {
			return // a browser that sends anything but JSON is as good as gone
		}
		if m.ID == 0 {
			p.event(m)
			continue
		}
		p.mu.Lock()
		answer := p.waiting[m.ID]
		delete(p.waiting, m.ID)
		p.mu.Unlock()
		if answer != nil {
			answer <- m
		}
	}
}

// call sends a method to a session ("" for the browser itself) and waits for
// the answer, which it decodes into result unless that is nil.
func (p *pipe) call(ctx context.Context, session, method string, params, result any) error {
	raw, err := json.Marshal(params)
	if err != nil {
		return err
	}
	answer := make(chan message, 1)
	p.mu.Lock()
	p.last++
	id := p.last
	p.waiting[id] = answer
	text, err := json.Marshal(message{ID: id, Session: session, Method: method, Params: raw})
	if err == nil {
		_, err = p.out.Write(append(text, 0))
	}
	p.mu.Unlock()
	if err != nil {
		return fmt.Errorf("%s: %w: %w", method, errGone, err)
	}
	select {
	case m := <-answer:
		if m.Error != nil {
			return fmt.Errorf("%s: %w", method, m.Error)
		}
		if result == nil {
			return nil
		}
		return json.Unmarshal(m.Result, result)
	case <-p.closed:
		return fmt.Errorf("%s: %w", method, errGone)
	case <-ctx.Done():
		p.mu.Lock()
		delete(p.waiting, id)
		p.mu.Unlock()
		return fmt.Errorf("%s: %w", method, context.Cause(ctx))
	}
}
