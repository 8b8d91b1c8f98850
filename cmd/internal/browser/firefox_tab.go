package browser

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"time"
)

// firefoxTab is a tab of Firefox.
type firefoxTab struct {
	firefox *firefox
	page    *Page
	context string
}

// call sends a command about this tab.
func (t *firefoxTab) call(ctx context.Context, method string, params map[string]any, result any) error {
	params["context"] = t.context
	return t.firefox.call(ctx, method, params, result)
}

func (t *firefoxTab) close(ctx context.Context) error {
	return t.call(ctx, "browsingContext.close", map[string]any{}, nil)
}

func (t *firefoxTab) front(ctx context.Context) error {
	if err := t.call(ctx, "browsingContext.activate", map[string]any{}, nil); err != nil {
		return err
	}
	// The keyboard stays with the address bar otherwise, and what has the focus does not show it.
	_, err := t.firefox.run(ctx, t.firefox.chrome, `(async () => { gBrowser.selectedBrowser.focus(); })()`)
	return err
}

func (t *firefoxTab) open(ctx context.Context, url string) error {
	return t.call(ctx, "browsingContext.navigate", map[string]any{"url": url, "wait": "complete"}, nil)
}

func (t *firefoxTab) reload(ctx context.Context) error {
	return t.call(ctx, "browsingContext.reload", map[string]any{"wait": "complete"}, nil)
}

func (t *firefoxTab) back(ctx context.Context) error {
	err := t.call(ctx, "browsingContext.traverseHistory", map[string]any{"delta": -1}, nil)
	if err != nil && strings.Contains(err.Error(), "no such history entry") {
		return errors.New("there is nothing to go back to")
	}
	return err
}

// said is the answer to an evaluation.
type said struct {
	Type             string
	Result           struct{ Value json.RawMessage }
	ExceptionDetails struct{ Text string }
}

func (t *firefoxTab) evaluate(ctx context.Context, expression string) (json.RawMessage, error) {
	got, err := t.firefox.run(ctx, t.context, asText(expression))
	if err != nil || got == nil {
		return nil, err
	}
	var text string
	if err := json.Unmarshal(got, &text); err != nil {
		return nil, err
	}
	return json.RawMessage(text), nil
}

// run evaluates an expression that is a promise in a context.
func (f *firefox) run(ctx context.Context, where, expression string) (json.RawMessage, error) {
	var got said
	err := f.call(ctx, "script.evaluate", map[string]any{
		"expression": expression, "target": bidiContext{where}, "awaitPromise": true, "userActivation": true,
	}, &got)
	if err != nil {
		return nil, err
	}
	if got.Type == "exception" {
		return nil, errors.New(got.ExceptionDetails.Text)
	}
	return got.Result.Value, nil
}

func (t *firefoxTab) press(ctx context.Context, x, y float64, hold time.Duration) error {
	return t.call(ctx, "input.performActions", map[string]any{"actions": pressing("touch", x, y, hold)}, nil)
}

func (t *firefoxTab) write(ctx context.Context, text string) error {
	return t.call(ctx, "input.performActions", map[string]any{"actions": typing(text)}, nil)
}

func (t *firefoxTab) key(ctx context.Context, name string) error {
	return t.write(ctx, keys[name].mark)
}

func (t *firefoxTab) resize(ctx context.Context, s Screen) error {
	return t.call(ctx, "browsingContext.setViewport", map[string]any{
		"viewport": map[string]int{"width": s.Width, "height": s.Height}, "devicePixelRatio": s.Scale,
	}, nil)
}

// preferences are the settings of Firefox behind media features, and their values.
var preferences = map[string]struct {
	name   string
	values map[string]int
}{
	"prefers-color-scheme":   {"layout.css.prefers-color-scheme.content-override", map[string]int{"dark": 0, "light": 1}},
	"prefers-reduced-motion": {"ui.prefersReducedMotion", map[string]int{"no-preference": 0, "reduce": 1}},
	"forced-colors":          {"browser.display.document_color_use", map[string]int{"none": 1, "active": 2}},
}

func (t *firefoxTab) media(ctx context.Context, features map[string]string) error {
	for name, value := range features {
		preference := preferences[name]
		number, ok := preference.values[value]
		if !ok {
			return Firefox.cannot(fmt.Sprintf("set %s to %s", name, value))
		}
		set := fmt.Sprintf("(async () => Services.prefs.setIntPref(%q, %d))()", preference.name, number)
		if _, err := t.firefox.run(ctx, t.firefox.chrome, set); err != nil {
			return err
		}
	}
	for name, value := range features {
		if err := t.page.Wait(ctx, fmt.Sprintf(`matchMedia("(%s: %s)").matches`, name, value)); err != nil {
			return err
		}
	}
	return nil
}

func (t *firefoxTab) picture(ctx context.Context) ([]byte, error) {
	var got struct{ Data []byte }
	err := t.call(ctx, "browsingContext.captureScreenshot", map[string]any{}, &got)
	return got.Data, err
}
