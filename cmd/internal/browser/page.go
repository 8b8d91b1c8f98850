package browser

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"sync"
	"time"
)

// Screen is what a page is shown on.
type Screen struct {
	Width, Height int     // CSS pixels
	Scale         float64 // device pixels for one CSS pixel; always 1 in WebKit
	Touch         bool    // a phone or a tablet, not a desk
}

// Phone is the screen that everything is designed for first.
var Phone = Screen{Width: 390, Height: 844, Scale: 2, Touch: true}

// tab is what an engine has to be able to do with a page. The methods of Page
// say what each does.
type tab interface {
	close(ctx context.Context) error
	front(ctx context.Context) error
	open(ctx context.Context, url string) error
	reload(ctx context.Context) error
	back(ctx context.Context) error
	evaluate(ctx context.Context, expression string) (json.RawMessage, error) // nil for undefined
	press(ctx context.Context, x, y float64, hold time.Duration) error
	write(ctx context.Context, text string) error
	key(ctx context.Context, name string) error
	resize(ctx context.Context, s Screen) error
	media(ctx context.Context, features map[string]string) error
	picture(ctx context.Context) ([]byte, error)
	files(ctx context.Context, expression string, paths []string) error
	preload(ctx context.Context, script string) error
}

// Page is one tab. Its methods may be called from one goroutine at a time.
type Page struct {
	browser *Browser
	tab     tab

	mu     sync.Mutex
	faults []Fault
}

// ErrCrashed is the answer to every call to a page whose process has died.
var ErrCrashed = errors.New("the page crashed")

// Fault is something that a page or one of its workers should not have done:
// an error on the console, an exception that nobody caught, a dialog of the
// browser, a crash.
type Fault struct {
	Kind string // "console", "exception", "network", "unreachable", "log", "dialog" or "crash"
	Text string
}

// Faults returns what has gone wrong on the page since it was opened.
func (p *Page) Faults() []Fault {
	p.mu.Lock()
	defer p.mu.Unlock()
	return append([]Fault(nil), p.faults...)
}

// fault keeps one fault.
func (p *Page) fault(kind, text string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.faults = append(p.faults, Fault{kind, text})
}

// Close closes the tab.
func (p *Page) Close(ctx context.Context) error { return p.tab.close(ctx) }

// Front brings the tab to the front, which makes it the visible one.
func (p *Page) Front(ctx context.Context) error { return p.tab.front(ctx) }

// Open goes to an address and waits until its document has loaded, anew if it stands
// already: engines differ in what one with a fragment does to itself.
func (p *Page) Open(ctx context.Context, url string) error {
	var stands bool
	if strings.Contains(url, "#") && p.Evaluate(ctx, fmt.Sprintf("location.href === %q", url), &stands) == nil && stands {
		return p.tab.reload(ctx)
	}
	return p.tab.open(ctx, url)
}

// Reload loads the page again and waits until it has.
func (p *Page) Reload(ctx context.Context) error { return p.tab.reload(ctx) }

// Back goes one step back in the history and waits until it is there.
func (p *Page) Back(ctx context.Context) error { return p.tab.back(ctx) }

// Evaluate runs an expression in the page, waits for it if it is a promise,
// and decodes its JSON value into result unless that is nil. What the
// expression throws is the error.
func (p *Page) Evaluate(ctx context.Context, expression string, result any) error {
	value, err := p.tab.evaluate(ctx, expression)
	if err != nil || result == nil {
		return err
	}
	if value == nil {
		return fmt.Errorf("the page answered undefined, want %T", result)
	}
	return json.Unmarshal(value, result)
}

// Wait evaluates a condition until it holds. While a document gives way to
// the next there is nothing to ask, which counts as not yet.
func (p *Page) Wait(ctx context.Context, condition string) error {
	return until(ctx, condition, func() (bool, error) {
		var holds bool
		err := p.Evaluate(ctx, "Promise.resolve("+condition+").then(Boolean)", &holds)
		var refused *refusal
		if errors.As(err, &refused) {
			return false, nil
		}
		return holds, err
	})
}

// Tap touches the glass at a point in CSS pixels of the visible part, and
// lifts the finger again.
func (p *Page) Tap(ctx context.Context, x, y float64) error { return p.tab.press(ctx, x, y, 0) }

// Press is Tap with the finger staying down for that long. In WebKit a mouse
// takes the finger's place.
func (p *Page) Press(ctx context.Context, x, y float64, hold time.Duration) error {
	return p.tab.press(ctx, x, y, hold)
}

// Type enters text where the focus is.
func (p *Page) Type(ctx context.Context, text string) error { return p.tab.write(ctx, text) }

// Key presses and releases a key by its name in the UI Events standard. The
// space bar is "Space".
func (p *Page) Key(ctx context.Context, name string) error {
	k, known := keys[name]
	switch {
	case !known:
		return fmt.Errorf("no key named %q; there are Enter, Tab, Escape, Space, Backspace, the arrows, the figures, - . / and MediaPlayPause", name)
	case k.mark == "" && p.browser.engine != Chromium:
		return p.browser.engine.cannot("press " + name)
	}
	return p.tab.key(ctx, name)
}

// SetFiles puts files into the file input that the expression names, as a
// person who picks them in the system's own dialog.
func (p *Page) SetFiles(ctx context.Context, expression string, paths ...string) error {
	return p.tab.files(ctx, expression, paths)
}

// Preload runs a script in every document of the page from the next on, before
// any of its own. In WebKit it runs in those of all pages of the browser.
func (p *Page) Preload(ctx context.Context, script string) error {
	return p.tab.preload(ctx, script)
}

// Resize gives the page another screen.
func (p *Page) Resize(ctx context.Context, s Screen) error { return p.tab.resize(ctx, s) }

// Media sets what the system says it prefers, by media feature, like
// "prefers-color-scheme": "dark". Firefox and WebKit know that one and
// "prefers-reduced-motion", and Firefox "forced-colors", for all pages of the browser
// at once. In Chromium those that are not named are as they are without a driver.
func (p *Page) Media(ctx context.Context, features map[string]string) error {
	return p.tab.media(ctx, features)
}

// Picture returns the visible part of the page as a PNG file.
func (p *Page) Picture(ctx context.Context) ([]byte, error) { return p.tab.picture(ctx) }

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
