package main

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/cmd/internal/browser"
)

// keeping has the page hand the next file that it makes to this test as well.
const keeping = `(() => {
	Object.defineProperty(navigator, "canShare", { value: undefined, configurable: true });
	const made = URL.createObjectURL;
	URL.createObjectURL = (file) => (file.text().then((text) => (globalThis.exported = text)), made.call(URL, file));
	return true;
})()`

// importing puts a text into the control that takes files, as choosing one does.
const importing = `(() => {
	const files = new DataTransfer();
	files.items.add(new File([%q], "journal.jsonl", { type: "application/x-ndjson" }));
	const control = document.querySelector("input[type=file]");
	control.files = files.files;
	control.dispatchEvent(new Event("change", { bubbles: true }));
	return true;
})()`

// What a phone exports another takes in, and exports the same.
func TestBrowserExport(t *testing.T) {
	for _, engine := range append([]browser.Engine{browser.Chromium}, others()...) {
		t.Run(engine.String(), func(t *testing.T) {
			t.Parallel()
			ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
			defer cancel()
			dir, app := serving(t)
			first := &device{engine: engine, profile: filepath.Join(dir, "first")}
			first.start(ctx, t, app)
			first.ask(ctx, t, `(async () => {
				for (const text of ["gate hinge, \"left\"", "ünïcode ⚡", "line\nbreak"]) await kerfside.journal.tap({ kind: "note.added", body: { text } });
				return true;
			})()`, new(bool))
			first.atServer(ctx, t)
			first.visit(ctx, t, "/book")
			first.ask(ctx, t, keeping, new(bool))
			first.tap(ctx, t, `[data-action=export]`)
			var text string
			first.wait(ctx, t, `globalThis.exported`)
			first.ask(ctx, t, `exported`, &text)
			if n := strings.Count(text, `"kind":"note.added"`); n != 3 {
				t.Fatalf("%d notes exported, want 3:\n%s", n, text)
			}

			second := &device{engine: engine, profile: filepath.Join(dir, "second")}
			second.open(ctx, t, app) // in no crew
			second.visit(ctx, t, "/settings")
			second.ask(ctx, t, fmt.Sprintf(importing, text), new(bool))
			second.wait(ctx, t, `kerfside.stateHash().then(({ events }) => events === 3)`)
			var again string
			second.ask(ctx, t, `kerfside.journal.exportText().then(({ text }) => text)`, &again)
			if got, want := entriesOf(again), entriesOf(text); got != want {
				t.Errorf("after the import the phone exports\n%s\nthe first exported\n%s", got, want)
			}
		})
	}
}

// entriesOf is the lines of an export that are entries.
func entriesOf(text string) string {
	var entries []string
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, `{"id":`) {
			entries = append(entries, line)
		}
	}
	return strings.Join(entries, "")
}

// tap taps the middle of a control, once it is there.
func (d *device) tap(ctx context.Context, t *testing.T, selector string) {
	t.Helper()
	d.wait(ctx, t, fmt.Sprintf(`(document.querySelector(%q)?.scrollIntoView({ block: "center" }), document.querySelector(%q) !== null)`, selector, selector))
	var at struct{ X, Y float64 }
	d.ask(ctx, t, fmt.Sprintf(`(({ x, y, width, height }) => ({ x: x + width / 2, y: y + height / 2 }))(document.querySelector(%q).getBoundingClientRect())`, selector), &at)
	if err := d.page.Tap(ctx, at.X, at.Y); err != nil {
		t.Fatal(err)
	}
}
