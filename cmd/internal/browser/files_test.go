package browser

import (
	"os"
	"path/filepath"
	"testing"
)

func TestBrowserFiles(t *testing.T) { inEach(t, testFiles) }

func testFiles(t *testing.T, engine Engine) {
	ctx, _, p, _ := open(t, engine)
	path := filepath.Join(t.TempDir(), "tip.txt")
	if err := os.WriteFile(path, []byte("1.16 mm"), 0o600); err != nil {
		t.Fatal(err)
	}
	ask(t, p, `((input) => (input.type = "file", input.id))(document.querySelector("input"))`, "")
	if err := p.SetFiles(ctx, `document.querySelector("input")`, path); err != nil {
		t.Fatal(err)
	}
	ask(t, p, `document.querySelector("input").files[0].text().then((text) => document.querySelector("input").files[0].name + ": " + text)`, "tip.txt: 1.16 mm")
	if err := p.SetFiles(ctx, `nothing.of.the.kind`, path); err == nil {
		t.Error("a control that is not there took a file without an error")
	}
}

// Each script runs in every document from the next on, before its own.
func TestBrowserPreload(t *testing.T) { inEach(t, testPreload) }

func testPreload(t *testing.T, engine Engine) {
	ctx, _, p, url := open(t, engine)
	for _, script := range []string{`window.first = document.querySelector("button") === null`, `window.second = window.first && 2`} {
		if err := p.Preload(ctx, script); err != nil {
			t.Fatal(err)
		}
	}
	ask(t, p, `typeof window.first`, "undefined")
	if err := p.Reload(ctx); err != nil {
		t.Fatal(err)
	}
	ask(t, p, `window.second`, 2)
	if err := p.Open(ctx, url+"/?next"); err != nil {
		t.Fatal(err)
	}
	ask(t, p, `window.second`, 2)
}
