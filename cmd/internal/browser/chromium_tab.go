package browser

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"sync"
)

// chromiumTab is a tab of Chromium.
type chromiumTab struct {
	chromium *chromium
	page     *Page
	session  string
	target   string

	alive context.Context // ends when the page crashes
	crash context.CancelFunc

	mu     sync.Mutex
	loads  int             // how often a document has finished loading
	loaded map[string]bool // loaders whose document has finished
}

// listen turns on the events that event handles.
func (t *chromiumTab) listen(ctx context.Context) error {
	for _, c := range []struct {
		method string
		params any
	}{
		{"Page.enable", struct{}{}},
		{"Page.setLifecycleEventsEnabled", map[string]any{"enabled": true}},
		{"Runtime.enable", struct{}{}},
		{"Log.enable", struct{}{}},
		// Workers have consoles of their own. That of a service worker is not heard:
		// Chromium 156 ends the page's process when one takes over that it is attached to.
		{"Target.setAutoAttach", map[string]any{
			"autoAttach": true, "waitForDebuggerOnStart": false, "flatten": true,
			"filter": []map[string]any{{"type": "worker"}},
		}},
	} {
		if err := t.call(ctx, c.method, c.params, nil); err != nil {
			return err
		}
	}
	return nil
}

// call sends a method to this tab.
func (t *chromiumTab) call(ctx context.Context, method string, params, result any) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	defer context.AfterFunc(t.alive, func() { cancel(ErrCrashed) })()
	return t.chromium.wire.call(ctx, t.session, method, params, result)
}

func (t *chromiumTab) close(ctx context.Context) error {
	return t.chromium.call(ctx, "Target.closeTarget", map[string]any{"targetId": t.target}, nil)
}

func (t *chromiumTab) front(ctx context.Context) error {
	return t.call(ctx, "Page.bringToFront", struct{}{}, nil)
}

func (t *chromiumTab) open(ctx context.Context, url string) error {
	var got struct{ ErrorText, LoaderID string }
	if err := t.call(ctx, "Page.navigate", map[string]any{"url": url}, &got); err != nil {
		return err
	}
	if got.ErrorText != "" {
		return fmt.Errorf("open %s: %s", url, got.ErrorText)
	}
	if got.LoaderID == "" {
		return nil // another place in the same document
	}
	return until(ctx, "the document to load", func() (bool, error) {
		t.mu.Lock()
		defer t.mu.Unlock()
		return t.loaded[got.LoaderID], nil
	})
}

func (t *chromiumTab) reload(ctx context.Context) error {
	t.mu.Lock()
	before := t.loads
	t.mu.Unlock()
	if err := t.call(ctx, "Page.reload", struct{}{}, nil); err != nil {
		return err
	}
	return until(ctx, "the document to load again", func() (bool, error) {
		t.mu.Lock()
		defer t.mu.Unlock()
		return t.loads > before, nil
	})
}

func (t *chromiumTab) back(ctx context.Context) error {
	var history struct{ CurrentIndex int }
	if err := t.call(ctx, "Page.getNavigationHistory", struct{}{}, &history); err != nil {
		return err
	}
	before := history.CurrentIndex
	if before == 0 {
		return errors.New("there is nothing to go back to")
	}
	if _, err := t.evaluate(ctx, "void history.back()"); err != nil {
		return err
	}
	return until(ctx, "the step back", func() (bool, error) {
		err := t.call(ctx, "Page.getNavigationHistory", struct{}{}, &history)
		return history.CurrentIndex < before, err
	})
}

func (t *chromiumTab) evaluate(ctx context.Context, expression string) (json.RawMessage, error) {
	var got struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails *exception
	}
	err := t.call(ctx, "Runtime.evaluate", map[string]any{
		"expression": expression, "awaitPromise": true, "returnByValue": true, "userGesture": true,
	}, &got)
	if err != nil {
		return nil, err
	}
	if got.ExceptionDetails != nil {
		return nil, errors.New(got.ExceptionDetails.text())
	}
	return got.Result.Value, nil
}

func (t *chromiumTab) picture(ctx context.Context) ([]byte, error) {
	var got struct{ Data []byte }
	err := t.call(ctx, "Page.captureScreenshot", map[string]any{"format": "png"}, &got)
	return got.Data, err
}
