package browser

import (
	"context"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"sync"
	"time"
)

// Screen is what a page is shown on.
type Screen struct {
	Width, Height int     // CSS pixels
	Scale         float64 // device pixels for one CSS pixel
	Touch         bool    // a phone or a tablet, not a desk
}

// Phone is the screen that everything is designed for first.
var Phone = Screen{Width: 390, Height: 844, Scale: 2, Touch: true}

// Page is one tab. Its methods may be called from one goroutine at a time.
type Page struct {
	browser *Browser
	session string
	target  string

	alive context.Context // ends when the page crashes
	crash context.CancelFunc

	mu     sync.Mutex
	loads  int             // how often a document has finished loading
	loaded map[string]bool // loaders whose document has finished
	faults []Fault
}

// Page opens a new tab with that screen.
func (b *Browser) Page(ctx context.Context, s Screen) (*Page, error) {
	var made struct{ TargetID string }
	if err := b.pipe.call(ctx, "", "Target.createTarget", map[string]any{"url": "about:blank"}, &made); err != nil {
		return nil, err
	}
	var at struct{ SessionID string }
	if err := b.pipe.call(ctx, "", "Target.attachToTarget", map[string]any{"targetId": made.TargetID, "flatten": true}, &at); err != nil {
		return nil, err
	}
	p := &Page{browser: b, session: at.SessionID, target: made.TargetID, loaded: map[string]bool{}}
	p.alive, p.crash = context.WithCancel(context.Background())
	b.mu.Lock()
	b.pages[p.session] = p
	b.mu.Unlock()
	if err := p.listen(ctx); err != nil {
		return nil, err
	}
	return p, p.Resize(ctx, s)
}

// listen turns on the events that event handles.
func (p *Page) listen(ctx context.Context) error {
	for _, c := range []struct {
		method string
		params any
	}{
		{"Page.enable", struct{}{}},
		{"Page.setLifecycleEventsEnabled", map[string]any{"enabled": true}},
		{"Runtime.enable", struct{}{}},
		{"Log.enable", struct{}{}},
		// Workers have consoles of their own.
		{"Target.setAutoAttach", map[string]any{"autoAttach": true, "waitForDebuggerOnStart": false, "flatten": true}},
	} {
		if err := p.call(ctx, c.method, c.params, nil); err != nil {
			return err
		}
	}
	return nil
}

// ErrCrashed is the answer to every call to a page whose process has died.
var ErrCrashed = errors.New("the page crashed")

// call sends a method to this tab.
func (p *Page) call(ctx context.Context, method string, params, result any) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	defer context.AfterFunc(p.alive, func() { cancel(ErrCrashed) })()
	return p.browser.pipe.call(ctx, p.session, method, params, result)
}

// Close closes the tab.
func (p *Page) Close(ctx context.Context) error {
	return p.browser.pipe.call(ctx, "", "Target.closeTarget", map[string]any{"targetId": p.target}, nil)
}

// Front brings the tab to the front, which makes it the visible one.
func (p *Page) Front(ctx context.Context) error {
	return p.call(ctx, "Page.bringToFront", struct{}{}, nil)
}

// Open goes to an address and waits until its document has loaded.
func (p *Page) Open(ctx context.Context, url string) error {
	var got struct{ ErrorText, LoaderID string }
	if err := p.call(ctx, "Page.navigate", map[string]any{"url": url}, &got); err != nil {
		return err
	}
	if got.ErrorText != "" {
		return fmt.Errorf("open %s: %s", url, got.ErrorText)
	}
	if got.LoaderID == "" {
		return nil // another place in the same document
	}
	return until(ctx, "the document to load", func() (bool, error) {
		p.mu.Lock()
		defer p.mu.Unlock()
		return p.loaded[got.LoaderID], nil
	})
}

// Reload loads the page again and waits until it has.
func (p *Page) Reload(ctx context.Context) error {
	p.mu.Lock()
	before := p.loads
	p.mu.Unlock()
	if err := p.call(ctx, "Page.reload", struct{}{}, nil); err != nil {
		return err
	}
	return until(ctx, "the document to load again", func() (bool, error) {
		p.mu.Lock()
		defer p.mu.Unlock()
		return p.loads > before, nil
	})
}

// Back goes one step back in the history and waits until it is there.
func (p *Page) Back(ctx context.Context) error {
	var history struct{ CurrentIndex int }
	if err := p.call(ctx, "Page.getNavigationHistory", struct{}{}, &history); err != nil {
		return err
	}
	before := history.CurrentIndex
	if before == 0 {
		return errors.New("there is nothing to go back to")
	}
	if err := p.Evaluate(ctx, "void history.back()", nil); err != nil {
		return err
	}
	return until(ctx, "the step back", func() (bool, error) {
		err := p.call(ctx, "Page.getNavigationHistory", struct{}{}, &history)
		return history.CurrentIndex < before, err
	})
}

// Evaluate runs an expression in the page, waits for it if it is a promise,
// and decodes its JSON value into result unless that is nil. What the
// expression throws is the error.
func (p *Page) Evaluate(ctx context.Context, expression string, result any) error {
	var got struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails *exception
	}
	err := p.call(ctx, "Runtime.evaluate", map[string]any{
		"expression": expression, "awaitPromise": true, "returnByValue": true, "userGesture": true,
	}, &got)
	if err != nil {
		return err
	}
	if got.ExceptionDetails != nil {
		return errors.New(got.ExceptionDetails.text())
	}
	if result == nil {
		return nil
	}
	if got.Result.Value == nil {
		return fmt.Errorf("the page answered undefined, want %T", result)
	}
	return json.Unmarshal(got.Result.Value, result)
}

// Wait evaluates a condition until it holds. While a document gives way to
// the next there is nothing to ask, which counts as not yet.
func (p *Page) Wait(ctx context.Context, condition string) error {
	return until(ctx, condition, func() (bool, error) {
		var holds bool
		err := p.Evaluate(ctx, "Promise.resolve("+condition+").then(Boolean)", &holds)
		var refused *protocolError
		if errors.As(err, &refused) {
			return false, nil
		}
		return holds, err
	})
}

// PDF prints the page as Chromium would on A4, backgrounds left out.
func (p *Page) PDF(ctx context.Context) ([]byte, error) {
	var printed struct{ Data []byte }
	err := p.call(ctx, "Page.printToPDF", map[string]any{"paperWidth": 8.27, "paperHeight": 11.69, "preferCSSPageSize": true}, &printed)
	return printed.Data, err
}

// Picture returns the visible part of the page as a PNG file.
func (p *Page) Picture(ctx context.Context) ([]byte, error) {
	var got struct{ Data string }
	if err := p.call(ctx, "Page.captureScreenshot", map[string]any{"format": "png"}, &got); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(got.Data)
}

// until asks until the answer is yes, often enough that a person would not
// notice the difference.
func until(ctx context.Context, what string, done func() (bool, error)) error {
	tick := time.NewTicker(20 * time.Millisecond)
	defer tick.Stop()
	for {
		yes, err := done()
		if yes || err != nil {
			return err
		}
		select {
		case <-tick.C:
		case <-ctx.Done():
			return fmt.Errorf("waited for %s: %w", what, ctx.Err())
		}
	}
}
