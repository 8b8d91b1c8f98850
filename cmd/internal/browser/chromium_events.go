package browser

import (
	"context"
	"encoding/json"
	"strings"
)

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

// event keeps what is needed of an event. It runs on the reader of the wire.
func (c *chromium) event(m message) {
	c.mu.Lock()
	t := c.tabs[m.Session]
	c.mu.Unlock()
	if t == nil {
		return
	}
	switch m.Method {
	case "Page.lifecycleEvent":
		t.lifecycle(m.Params)
	case "Target.attachedToTarget":
		c.adopt(t, m.Params)
	case "Page.javascriptDialogOpening":
		t.dialog(m.Params)
	case "Inspector.targetCrashed":
		t.page.fault("crash", ErrCrashed.Error())
		t.crash()
	case "Runtime.consoleAPICalled":
		t.console(m.Params)
	case "Runtime.exceptionThrown":
		var e struct{ ExceptionDetails exception }
		if json.Unmarshal(m.Params, &e) == nil {
			t.page.fault("exception", e.ExceptionDetails.text())
		}
	case "Log.entryAdded":
		var e struct {
			Entry struct{ Source, Level, Text, URL string }
		}
		if json.Unmarshal(m.Params, &e) != nil || e.Entry.Level != "error" {
			return
		}
		kind := "log"
		switch {
		case e.Entry.Source == "network" && strings.Contains(e.Entry.Text, "net::ERR_"):
			kind = "unreachable"
		case e.Entry.Source == "network":
			kind = "network"
		}
		t.page.fault(kind, strings.TrimSpace(e.Entry.Text+" "+e.Entry.URL))
	}
}

// lifecycle notes documents that have finished loading.
func (t *chromiumTab) lifecycle(params json.RawMessage) {
	var e struct{ LoaderID, Name, FrameID string }
	if json.Unmarshal(params, &e) != nil || e.Name != "load" || e.FrameID != t.target {
		return // the main frame has the name of its tab
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	t.loads++
	t.loaded[e.LoaderID] = true
}

// console keeps what was printed as an error.
func (t *chromiumTab) console(params json.RawMessage) {
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
	t.page.fault("console", strings.Join(words, " "))
}

// adopt listens to a worker of the page as well.
func (c *chromium) adopt(t *chromiumTab, params json.RawMessage) {
	var e struct{ SessionID string }
	if json.Unmarshal(params, &e) != nil {
		return
	}
	c.mu.Lock()
	c.tabs[e.SessionID] = t
	c.mu.Unlock()
	// Not here: the reader of the wire must not wait for an answer. A worker
	// that is gone before it can be asked has nothing more to say.
	go func() {
		for _, method := range []string{"Runtime.enable", "Log.enable"} {
			c.wire.call(context.Background(), e.SessionID, method, struct{}{}, nil)
		}
	}()
}

// dialog answers a dialog of the browser, which would hold up everything. A
// page may ask before it is left; any other dialog is a fault, since a glove
// cannot hit its buttons.
func (t *chromiumTab) dialog(params json.RawMessage) {
	var e struct{ Type, Message string }
	if json.Unmarshal(params, &e) == nil && e.Type != "beforeunload" {
		t.page.fault("dialog", e.Type+": "+e.Message)
	}
	go t.call(context.Background(), "Page.handleJavaScriptDialog", map[string]any{"accept": true}, nil)
}
