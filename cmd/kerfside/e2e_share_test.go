package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"kerfside/cmd/internal/browser"
)

// Chromium reads all of the manifest, and would install the app with its shortcuts, its pictures and its
// address for what is shared.
func TestBrowserManifest(t *testing.T) {
	t.Parallel()
	ctx, d := atPages(t, journeyLimit)
	got, err := d.page.Manifest(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var at string
	d.ask(ctx, t, "location.origin", &at)
	want := &browser.Manifest{
		Shortcuts: []string{at + "/cut", at + "/fix", at + "/worst-day"}, Pictures: []string{"narrow", "narrow", "narrow", "wide"},
		Share: at + "/share",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("Chromium makes %+v of the manifest, want %+v", got, want)
	}
}

// sharing is a page of another app, as far as the phone is concerned: it posts a picture to where the
// manifest says.
const sharing = `<!doctype html><title>Gallery</title><form method="post" enctype="multipart/form-data" action="%s/share"><input type="file" name="photo"><button>Share</button></form>`

// A picture that another app shares waits on the phone, through a kill and without a server, until it is
// kept in a session; then it is there no more.
func TestBrowserShare(t *testing.T) { inEngines(t, testShare) }

func testShare(t *testing.T, engine browser.Engine) {
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir := place(t)
	app := openApp(t, dir)
	t.Cleanup(func() { app.Close() })
	gallery := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprintf(w, sharing, app.URL())
	}))
	defer gallery.Close()
	path := filepath.Join(dir, "tip.jpg")
	var file bytes.Buffer
	if err := jpeg.Encode(&file, image.NewGray(image.Rect(0, 0, 300, 200)), nil); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, file.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	d := &device{engine: engine, profile: filepath.Join(dir, "phone")}
	share := func(title string) {
		if err := d.page.Open(ctx, gallery.URL); err != nil {
			t.Fatal(err)
		}
		if err := d.page.SetFiles(ctx, `document.querySelector("input")`, path); err != nil {
			t.Fatal(err)
		}
		d.ask(ctx, t, `(document.querySelector("button").click(), true)`, new(bool))
		d.stands(ctx, t, title, fmt.Sprintf(`location.pathname === "/share" && document.querySelector("main")?.innerText.includes(%q)`, title))
	}
	var err error
	if d.browser, err = browser.Launch(ctx, browser.Options{Engine: engine, Profile: d.profile}); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.browser.Kill() })
	if d.page, err = d.browser.Page(ctx, browser.Phone); err != nil {
		t.Fatal(err)
	}
	share("No shared picture is here.") // no service worker runs yet
	d.wait(ctx, t, `document.documentElement.dataset.offline === "ready" && navigator.serviceWorker.controller`)
	d.ask(ctx, t, `kerfside.home.then(() => true)`, new(bool))
	if err := app.Close(); err != nil {
		t.Fatal(err)
	}
	share("Begin a session first.")
	d.browser.Kill()
	if err := app.Open(); err != nil {
		t.Fatal(err)
	}
	d.open(ctx, t, app)
	d.wait(ctx, t, aDay)
	d.visit(ctx, t, "/book")
	d.stands(ctx, t, "the Book", `document.querySelector("main [data-ref=shared]").checkVisibility()`)
	d.visit(ctx, t, "/share")
	for kept := range 2 {
		if kept > 0 {
			share("Gate hinge")
		}
		d.wait(ctx, t, `(() => { const keep = document.querySelector("main [data-action=keep]"); keep?.click(); return keep !== null; })()`)
		d.stands(ctx, t, "the session", fmt.Sprintf(`location.pathname === "/session/session-of-the-test-01" && document.querySelectorAll("main img.thumb").length === %d`, kept+1))
		d.stands(ctx, t, "what waits", `caches.open("shared").then((cache) => cache.keys()).then((all) => all.length === 0)`)
	}
}
