package browser

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"
)

// webkitTab is a window of WebKit.
type webkitTab struct {
	webkit *webkit
	page   *Page
	handle string
}

// call sends a command to this window.
func (t *webkitTab) call(ctx context.Context, method, path string, body, result any) error {
	if err := t.turn(ctx); err != nil {
		return err
	}
	return t.webkit.send(ctx, method, path, body, result)
}

// turn has the commands that follow go to this window.
func (t *webkitTab) turn(ctx context.Context) error {
	t.webkit.mu.Lock()
	defer t.webkit.mu.Unlock()
	if t.webkit.window == t.handle {
		return nil
	}
	if err := t.webkit.send(ctx, "POST", "/window", map[string]string{"handle": t.handle}, nil); err != nil {
		return err
	}
	t.webkit.window = t.handle
	return nil
}

func (t *webkitTab) close(ctx context.Context) error {
	return t.call(ctx, "DELETE", "/window", nil, nil)
}

func (t *webkitTab) front(ctx context.Context) error { return t.turn(ctx) }

func (t *webkitTab) open(ctx context.Context, url string) error {
	if err := t.call(ctx, "POST", "/url", map[string]string{"url": url}, nil); err != nil {
		return err
	}
	// Where nothing answers, an empty page is all that is said.
	where, err := t.evaluate(ctx, "location.href")
	if err == nil && string(where) == `"about:blank"` && url != "about:blank" {
		err = fmt.Errorf("open %s: nothing answers there", url)
	}
	return err
}

func (t *webkitTab) reload(ctx context.Context) error {
	return t.call(ctx, "POST", "/refresh", nil, nil)
}

func (t *webkitTab) back(ctx context.Context) error { return t.call(ctx, "POST", "/back", nil, nil) }

func (t *webkitTab) evaluate(ctx context.Context, expression string) (json.RawMessage, error) {
	script := "const done = arguments[arguments.length - 1];\n" + asText(expression) +
		".then((value) => done({ value }), (error) => done({ error: String(error) }))"
	var got *struct {
		Value *string
		Error *string
	}
	if err := t.call(ctx, "POST", "/execute/async", map[string]any{"script": script, "args": []any{}}, &got); err != nil {
		return nil, err
	}
	switch {
	case got == nil: // a dialog came in between
		return nil, t.dialog(ctx)
	case got.Error != nil:
		return nil, errors.New(*got.Error)
	case got.Value == nil:
		return nil, nil
	}
	return json.RawMessage(*got.Value), nil
}

// dialog answers a dialog of the browser, which would hold up everything, and
// keeps it as a fault.
func (t *webkitTab) dialog(ctx context.Context) error {
	var text string
	if err := t.call(ctx, "GET", "/alert/text", nil, &text); err != nil {
		return err
	}
	t.page.fault("dialog", "alert: "+text)
	return t.call(ctx, "POST", "/alert/accept", nil, nil)
}

// press uses a mouse: the driver knows no fingers.
func (t *webkitTab) press(ctx context.Context, x, y float64, hold time.Duration) error {
	return t.call(ctx, "POST", "/actions", map[string]any{"actions": pressing("mouse", x, y, hold)}, nil)
}

func (t *webkitTab) write(ctx context.Context, text string) error {
	return t.call(ctx, "POST", "/actions", map[string]any{"actions": typing(text)}, nil)
}

func (t *webkitTab) key(ctx context.Context, name string) error { return t.write(ctx, keys[name].mark) }

func (t *webkitTab) resize(ctx context.Context, s Screen) error {
	if err := t.call(ctx, "POST", "/window/rect", map[string]int{"x": 0, "y": 0, "width": s.Width, "height": s.Height}, nil); err != nil {
		return err
	}
	return t.page.Wait(ctx, fmt.Sprintf("innerWidth === %d && innerHeight === %d", s.Width, s.Height))
}

// looks are the words for media features in the file that the windows watch.
var looks = map[string]map[string]string{
	"prefers-color-scheme":   {"dark": "dark", "light": "light"},
	"prefers-reduced-motion": {"reduce": "reduce", "no-preference": ""},
}

// setLook writes what the windows are to look like. The file is never empty: a
// window may read it at any moment.
func (k *webkit) setLook(words string) error {
	return put(k.look, words)
}

func (t *webkitTab) media(ctx context.Context, features map[string]string) error {
	words := ""
	for name, value := range features {
		word, ok := looks[name][value]
		if !ok {
			return WebKit.cannot(fmt.Sprintf("set %s to %s", name, value))
		}
		words += word + " "
	}
	if err := t.webkit.setLook(words); err != nil {
		return err
	}
	for name, value := range features {
		if err := t.page.Wait(ctx, fmt.Sprintf(`matchMedia("(%s: %s)").matches`, name, value)); err != nil {
			return err
		}
	}
	return nil
}

// picture is of what was painted last, so it waits for two more frames.
func (t *webkitTab) picture(ctx context.Context) ([]byte, error) {
	if _, err := t.evaluate(ctx, "new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next))).then(() => 1)"); err != nil {
		return nil, err
	}
	var data []byte
	err := t.call(ctx, "GET", "/screenshot", nil, &data)
	return data, err
}
