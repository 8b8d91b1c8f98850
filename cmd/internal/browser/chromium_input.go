package browser

import (
	"context"
	"time"
)

func (t *chromiumTab) press(ctx context.Context, x, y float64, hold time.Duration) error {
	down := []map[string]float64{{"x": x, "y": y}}
	if err := t.call(ctx, "Input.dispatchTouchEvent", map[string]any{"type": "touchStart", "touchPoints": down}, nil); err != nil {
		return err
	}
	if hold > 0 {
		select {
		case <-time.After(hold):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	return t.call(ctx, "Input.dispatchTouchEvent", map[string]any{"type": "touchEnd", "touchPoints": []any{}}, nil)
}

func (t *chromiumTab) write(ctx context.Context, text string) error {
	return t.call(ctx, "Input.insertText", map[string]any{"text": text}, nil)
}

func (t *chromiumTab) key(ctx context.Context, name string) error {
	k := keys[name]
	if name == "Space" {
		name = " "
	}
	params := map[string]any{"type": "keyDown", "key": name, "code": k.code, "windowsVirtualKeyCode": k.number, "text": k.text}
	if err := t.call(ctx, "Input.dispatchKeyEvent", params, nil); err != nil {
		return err
	}
	params["type"] = "keyUp"
	delete(params, "text")
	return t.call(ctx, "Input.dispatchKeyEvent", params, nil)
}
