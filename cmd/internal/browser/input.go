package browser

import (
	"context"
	"fmt"
	"time"
)

// Tap touches the glass at a point in CSS pixels of the visible part, and
// lifts the finger again.
func (p *Page) Tap(ctx context.Context, x, y float64) error {
	return p.Press(ctx, x, y, 0)
}

// Press is Tap with the finger staying down for that long.
func (p *Page) Press(ctx context.Context, x, y float64, hold time.Duration) error {
	down := []map[string]float64{{"x": x, "y": y}}
	if err := p.call(ctx, "Input.dispatchTouchEvent", map[string]any{"type": "touchStart", "touchPoints": down}, nil); err != nil {
		return err
	}
	if hold > 0 {
		select {
		case <-time.After(hold):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	return p.call(ctx, "Input.dispatchTouchEvent", map[string]any{"type": "touchEnd", "touchPoints": []any{}}, nil)
}

// Type enters text where the focus is.
func (p *Page) Type(ctx context.Context, text string) error {
	return p.call(ctx, "Input.insertText", map[string]any{"text": text}, nil)
}

// keys are the keys that Key knows: their code, their number and what they type.
var keys = map[string]struct {
	code   string
	number int
	text   string
}{
	"Enter":          {"Enter", 13, "\r"},
	"Tab":            {"Tab", 9, ""},
	"Escape":         {"Escape", 27, ""},
	"Space":          {"Space", 32, " "},
	"Backspace":      {"Backspace", 8, ""},
	"ArrowLeft":      {"ArrowLeft", 37, ""},
	"ArrowUp":        {"ArrowUp", 38, ""},
	"ArrowRight":     {"ArrowRight", 39, ""},
	"ArrowDown":      {"ArrowDown", 40, ""},
	"MediaPlayPause": {"MediaPlayPause", 179, ""},
}

// Key presses and releases a key by its name in the UI Events standard. The
// space bar is "Space".
func (p *Page) Key(ctx context.Context, name string) error {
	k, ok := keys[name]
	if !ok {
		return fmt.Errorf("no key named %q; there are Enter, Tab, Escape, Space, Backspace, the arrows and MediaPlayPause", name)
	}
	if name == "Space" {
		name = " "
	}
	params := map[string]any{"type": "keyDown", "key": name, "code": k.code, "windowsVirtualKeyCode": k.number, "text": k.text}
	if err := p.call(ctx, "Input.dispatchKeyEvent", params, nil); err != nil {
		return err
	}
	params["type"] = "keyUp"
	delete(params, "text")
	return p.call(ctx, "Input.dispatchKeyEvent", params, nil)
}
