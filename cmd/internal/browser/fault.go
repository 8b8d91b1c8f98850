package browser

import (
	"context"
	"encoding/json"
	"strings"
)

// Fault is something that a page or one of its workers should not have done:
// an error on the console, an exception that nobody caught, a dialog of the
// browser, a crash.
type Fault struct {
	Kind string // "console", "exception", "network", "log", "dialog" or "crash"
	Text string
}

// Faults returns what has gone wrong on the page since it was opened.
func (p *Page) Faults() []Fault {
	p.mu.Lock()
	defer p.mu.Unlock()
	return append([]Fault(nil), p.faults...)
}

// exception is how the protocol describes something thrown.
type exception struct {
	Text      string
	URL       string
	Exception *struct{ Description string }
}

func (e *exception) text() string {
	if e.Exception != nil && e.Exception.Description != "" {
		return e.Exception.Description
	}
	return e.Text
}

// event keeps what is needed of an event. It runs on the reader of the pipe.
func (b *Browser) event(m message) {
	b.mu.Lock()
	p := b.pages[m.Session]
	b.mu.Unlock()
	if p == nil {
		return
	}
	switch m.Method {
	case "Page.lifecycleEvent":
		p.lifecycle(m.Params)
	case "Target.attachedToTarget":
		b.adopt(p, m.Params)
	case "Page.javascriptDialogOpening":
		p.dialog(m.Params)
	case "Inspector.targetCrashed":
		p.fault("crash", ErrCrashed.Error())
		p.crash()
	case "Runtime.consoleAPICalled":
		p.console(m.Params)
	case "Runtime.exceptionThrown":
		var e struct{ ExceptionDetails exception }
		if json.Unmarshal(m.Params, &e) == nil {
			p.fault("exception", e.ExceptionDetails.text())
		}
	case "Log.entryAdded":
		var e struct {
			Entry struct{ Source, Level, Text, URL string }
		}
		if json.Unmarshal(m.Params, &e) != nil || e.Entry.Level != "error" {
			return
		}
		kind := "log"
		if e.Entry.Source == "network" {
			kind = "network"
		}
		p.fault(kind, strings.TrimSpace(e.Entry.Text+" "+e.Entry.URL))
	}
}

// fault keeps one fault.
func (p *Page) fault(kind, text string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.faults = append(p.faults, Fault{kind, text})
}

// lifecycle notes documents that have finished loading.
func (p *Page) lifecycle(params json.RawMessage) {
	var e struct{ LoaderID, Name, FrameID string }
	if json.Unmarshal(params, &e) != nil || e.Name != "load" || e.FrameID != p.target {
		return // the main frame has the name of its tab
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.loads++
	p.loaded[e.LoaderID] = true
}

// console keeps what was printed as an error.
func (p *Page) console(params json.RawMessage) {
	var e struct {
		Type string
		Args []struct {
			Value       any
			Description string
		}
	}
	if json.Unmarshal(params, &e) != nil || e.Type != "error" && e.Type != "assert" {
		return
	}
	var words []string
	for _, a := range e.Args {
		text, plain := a.Value.(string)
		if !plain {
			text = a.Description
		}
		words = append(words, text)
	}
	p.fault("console", strings.Join(words, " "))
}

// adopt listens to a worker of the page as well.
func (b *Browser) adopt(p *Page, params json.RawMessage) {
	var e struct{ SessionID string }
	if json.Unmarshal(params, &e) != nil {
		return
	}
	b.mu.Lock()
	b.pages[e.SessionID] = p
	b.mu.Unlock()
	// Not here: the reader of the pipe must not wait for an answer. A worker
	// that is gone before it can be asked has nothing more to say.
	go func() {
		for _, method := range []string{"Runtime.enable", "Log.enable"} {
			b.pipe.call(context.Background(), e.SessionID, method, struct{}{}, nil)
		}
	}()
}

// dialog answers a dialog of the browser, which would hold up everything. A
// page may ask before it is left; any other dialog is a fault, since a glove
// cannot hit its buttons.
func (p *Page) dialog(params json.RawMessage) {
	var e struct{ Type, Message string }
	if json.Unmarshal(params, &e) == nil && e.Type != "beforeunload" {
		p.fault("dialog", e.Type+": "+e.Message)
	}
	go p.call(context.Background(), "Page.handleJavaScriptDialog", map[string]any{"accept": true}, nil)
}
