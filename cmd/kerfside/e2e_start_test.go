package main

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"testing"
	"testing/fstest"

	"kerfside/cmd/internal/browser"
)

// starts are the addresses at which the app is opened.
var starts = []string{"/", "/ready", "/cut", "/fix", "/book", "/settings"}

// TestBrowserStartsFromCache: without a server each start gets its page from the
// cache, and the service worker is not woken for it; any other address is answered
// by that.
func TestBrowserStartsFromCache(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	app, phone := shipped(ctx, t)
	if err := phone.page.Open(ctx, app.URL()+"/"); err != nil {
		t.Fatal(err)
	}
	phone.wait(ctx, t, `document.documentElement.dataset.offline === "ready"`)
	if err := app.Close(); err != nil {
		t.Fatal(err)
	}
	visit := func(path string) (source string) {
		t.Helper()
		if err := phone.page.Open(ctx, app.URL()+path); err != nil {
			t.Fatal(err)
		}
		phone.wait(ctx, t, `document.querySelector("main").innerText.trim() !== ""`)
		phone.ask(ctx, t, `performance.getEntriesByType("navigation")[0].workerFinalSourceType`, &source)
		return source
	}
	for _, path := range starts {
		if source := visit(path); source != "cache" {
			t.Errorf("%s comes from %q, want the cache", path, source)
		}
	}
	for _, path := range []string{"/plan", "/fix?turn=1", "/session/none"} {
		if source := visit(path); source == "cache" {
			t.Errorf("%s comes from the cache, which has no such page", path)
		}
	}
}

// newerPage is a phone's app of a later build: another page, and so another name.
func newerPage(build int) func(fs.FS) fs.FS {
	return func(app fs.FS) fs.FS { return later{withHook(app).(hooked), build} }
}

type later struct {
	hooked
	build int
}

func (l later) Open(name string) (fs.File, error) {
	if name != "index.html" {
		return l.hooked.Open(name)
	}
	page, err := fs.ReadFile(l.hooked, name)
	if err != nil {
		return nil, err
	}
	page = bytes.Replace(page, []byte("<html "), fmt.Appendf(nil, `<html data-build="%d" `, l.build), 1)
	return fstest.MapFS{name: {Data: page}}.Open(name)
}

// TestBrowserUpdates: a start finds a newer app although its page comes from the
// cache; it is offered, and taken only when that is tapped, at every address.
func TestBrowserUpdates(t *testing.T) {
	for _, engine := range append([]browser.Engine{browser.Chromium}, others()...) {
		t.Run(engine.String(), func(t *testing.T) {
			t.Parallel()
			ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
			defer cancel()
			dir := place(t)
			app := newApp(dir)
			app.overlay = newerPage(1)
			if err := app.Open(); err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { app.Close() })
			phone := &device{engine: engine, profile: dir + "/phone"}
			phone.open(ctx, t, app)
			const build = `document.documentElement?.dataset.offline === "ready" && document.documentElement.dataset.build === "%d"`
			phone.wait(ctx, t, fmt.Sprintf(build, 1))
			visit := func(path string, is int) {
				t.Helper()
				if err := phone.page.Open(ctx, app.URL()+path); err != nil {
					t.Fatal(err)
				}
				phone.wait(ctx, t, fmt.Sprintf(build, is))
			}
			visit("/cut", 1)
			if err := app.Close(); err != nil {
				t.Fatal(err)
			}
			app.overlay = newerPage(2)
			if err := app.Open(); err != nil {
				t.Fatal(err)
			}
			visit("/fix", 1)
			const offer = `[...document.querySelectorAll("[data-ref=toasts] button")].find((one) => one.textContent.includes("Take it"))`
			phone.wait(ctx, t, offer+` !== undefined`)
			visit("/book", 1) // nobody took it yet
			phone.wait(ctx, t, offer+` !== undefined`)
			phone.ask(ctx, t, `(`+offer+`.click(), true)`, new(bool))
			phone.wait(ctx, t, fmt.Sprintf(build, 2))
			for _, path := range starts {
				visit(path, 2)
			}
		})
	}
}
