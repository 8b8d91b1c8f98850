package browser

import (
	"context"
	"errors"
	"os"
	"strings"
)

// elementKey is the key under which WebDriver names an element.
const elementKey = "element-6066-11e4-a52e-4f735466cecf"

func (t *webkitTab) files(ctx context.Context, expression string, paths []string) error {
	var got map[string]string
	script := map[string]any{"script": "return (" + expression + "\n)", "args": []any{}}
	if err := t.call(ctx, "POST", "/execute/sync", script, &got); err != nil {
		return err
	}
	return t.call(ctx, "POST", "/element/"+got[elementKey]+"/value", map[string]string{"text": strings.Join(paths, "\n")}, nil)
}

// preload writes the script to the file that the windows watch, behind those
// before, and waits until they say that they have it.
func (t *webkitTab) preload(ctx context.Context, script string) error {
	k := t.webkit
	k.scripts += ";" + script + "\n"
	if err := put(k.preloads, k.scripts); err != nil {
		return err
	}
	select {
	case <-k.preloaded:
		return nil
	case <-k.program.ended:
		return errors.New("WebKitWebDriver has ended")
	case <-ctx.Done():
		return ctx.Err()
	}
}

// put writes a file that is being watched: never half of it can be read there.
func put(path, text string) error {
	if err := os.WriteFile(path+".new", []byte(text), 0o600); err != nil {
		return err
	}
	return os.Rename(path+".new", path)
}
