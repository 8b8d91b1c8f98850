package main

import (
	"context"
	_ "embed"
	"fmt"
	"testing"

	"kerfside/cmd/internal/browser"
)

// sayOverPages says something on a page and tells what it covers.
//
//go:embed testdata/toasts.js
var sayOverPages string

// TestBrowserToastsCoverNoButton says something with an Undo on every page, on a
// phone and on a small one: it lies on no control, and the page can be scrolled
// clear of it.
func TestBrowserToastsCoverNoButton(t *testing.T) {
	t.Parallel()
	ctx, d := atPages(t, journeyLimit)
	d.ask(ctx, t, "(globalThis.sayOver = "+sayOverPages+", true)", new(bool))
	d.onPages(ctx, t, func(browser.Screen) string { return "sayOver()" })
}

// onPages opens every page upright, on a small phone and on its side, and reports what the
// expression finds there.
func (d *device) onPages(ctx context.Context, t *testing.T, finds func(browser.Screen) string) {
	t.Helper()
	for _, screen := range []browser.Screen{browser.Phone, {Width: 320, Height: 568, Scale: 2, Touch: true}, {Width: 844, Height: 390, Scale: 2, Touch: true}} {
		if err := d.page.Resize(ctx, screen); err != nil {
			t.Fatal(err)
		}
		for _, path := range all {
			d.visit(ctx, t, path)
			var found []string
			d.ask(ctx, t, finds(screen), &found)
			for _, one := range found {
				t.Errorf("%s at %dx%d: %s", path, screen.Width, screen.Height, one)
			}
		}
	}
}

// visit opens a page of the app by a link, in the document that is open, and waits until it has started.
func (d *device) visit(ctx context.Context, t *testing.T, path string) {
	t.Helper()
	d.ask(ctx, t, fmt.Sprintf(`(() => {
		const link = document.body.appendChild(Object.assign(document.createElement("a"), { href: %q }));
		link.click();
		link.remove();
		return true;
	})()`, path), new(bool))
	d.wait(ctx, t, fmt.Sprintf(`location.pathname === %q && document.querySelector("main > div")?.children.length > 0 && !document.querySelector("main [aria-busy]")`, path))
}
