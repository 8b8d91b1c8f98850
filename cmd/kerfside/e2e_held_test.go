package main

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"net/http/httputil"
	"net/url"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"kerfside/cmd/internal/browser"
	"kerfside/cmd/internal/journey"
	"kerfside/cmd/internal/process"
)

// heldApp is an app whose server holds some answers back until LetThrough.
type heldApp struct {
	*App
	holds func(path string) bool

	addr  string
	front *http.Server
	letGo chan struct{}
	once  sync.Once
}

func (h *heldApp) Open() error {
	if err := h.App.Open(); err != nil {
		return err
	}
	if h.addr == "" {
		h.addr, h.letGo = fmt.Sprintf("localhost:%d", process.OwnPort()), make(chan struct{})
	}
	listen, err := net.Listen("tcp", h.addr)
	if err != nil {
		return err
	}
	_, port, _ := net.SplitHostPort(listen.Addr().String())
	h.addr = "localhost:" + port
	back, err := url.Parse(h.App.URL())
	if err != nil {
		return err
	}
	proxy := &httputil.ReverseProxy{Rewrite: func(r *httputil.ProxyRequest) {
		r.SetURL(back)
		r.Out.Host = r.In.Host
	}}
	h.front = &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if h.holds(r.URL.Path) {
			select {
			case <-h.letGo:
			case <-r.Context().Done():
				return
			}
		}
		proxy.ServeHTTP(w, r)
	})}
	go h.front.Serve(listen)
	return nil
}

func (h *heldApp) URL() string { return "http://" + h.addr }

// LetThrough gives the answers that were held back, and holds none from now on.
func (h *heldApp) LetThrough() { h.once.Do(func() { close(h.letGo) }) }

func (h *heldApp) Close() error {
	h.front.Close()
	return h.App.Close()
}

// TestBrowserHeldBack runs the journeys in which something that the app needs to
// be whole is late.
func TestBrowserHeldBack(t *testing.T) {
	t.Parallel()
	sums := func(path string) bool { return strings.HasSuffix(path, "/calc.wasm") }
	lists := func(path string) bool { return strings.Contains(path, "/gen/") && strings.HasSuffix(path, ".json") }
	for name, holds := range map[string]func(string) bool{"taps": sums, "typed": lists, "search": lists} {
		t.Run(name, func(t *testing.T) {
			dir := place(t)
			app := &heldApp{App: newApp(dir), holds: holds}
			if err := app.Open(); err != nil {
				t.Fatal(err)
			}
			travelTo(t, app, readScript(t, filepath.Join(journeys, "held", name+".txt")), journey.Options{
				Dir: dir, Shots: dir, Axe: axeCore, Screen: browser.Phone, Look: "sun", Step: stepLimit,
			})
		})
	}
}

// TestBrowserStartsBesideHeldScreen opens the app at screens that wait, for the
// sums or for the network: the journal starts all the same, with what was not
// stored the last time.
func TestBrowserStartsBesideHeldScreen(t *testing.T) {
	t.Parallel()
	for path, holds := range map[string]func(path string) bool{
		"/gate": func(path string) bool { return strings.HasSuffix(path, "/calc.wasm") },
		"/plan": func(path string) bool { return strings.HasSuffix(path, "/calculators.json") },
	} {
		t.Run(strings.TrimPrefix(path, "/"), func(t *testing.T) {
			ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
			defer cancel()
			dir := place(t)
			app := &heldApp{App: newApp(dir), holds: holds}
			if err := app.Open(); err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { app.Close() })
			b, err := browser.Launch(ctx, browser.Options{Profile: dir + "/phone"})
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(b.Kill)
			d := &device{}
			if d.page, err = b.Page(ctx, browser.Phone); err == nil {
				err = d.page.Open(ctx, app.URL()+path)
			}
			if err != nil {
				t.Fatal(err)
			}
			d.wait(ctx, t, `document.querySelector("main > [aria-busy]") !== null`)
			d.wait(ctx, t, `globalThis.kerfside?.journal.tap({ kind: "note.added", body: { text: "kept" } }).then(({ written }) => written)`)
			var isBusy bool
			if d.ask(ctx, t, `document.querySelector("main > [aria-busy]") !== null`, &isBusy); !isBusy {
				t.Error("the screen waits for nothing: this shows nothing")
			}
		})
	}
}

// lagging starts a page as after a kill that localStorage had not been written
// before: it names no crew. What the app waits for at its start takes no time, so
// that nothing but a read of the store can come before the journal starts.
const lagging = `(() => {
	if (location.pathname !== "/cut") return;
	localStorage.removeItem("kerfside.crew");
	sessionStorage.loads = Number(sessionStorage.loads ?? 0) + 1;
	const real = setTimeout;
	globalThis.setTimeout = (work, ms, ...words) => real(work, ms === 5000 ? 0 : ms, ...words);
})()`

// TestBrowserFindsItsCrew: a page that opened the wrong store follows the phone to
// its crew before the journal starts, and is not loaded anew under a thumb.
func TestBrowserFindsItsCrew(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	dir, app := serving(t)
	phone := &device{profile: dir + "/phone"}
	phone.start(ctx, t, app)
	if err := phone.page.Preload(ctx, lagging); err != nil {
		t.Fatal(err)
	}
	if err := phone.page.Open(ctx, app.URL()+"/cut"); err != nil {
		t.Fatal(err)
	}
	phone.wait(ctx, t, `globalThis.kerfside?.journal.read([]).then(({ crew }) => crew !== "" && kerfside.stateHash()).then(Boolean)`)
	phone.wait(ctx, t, `Promise.race([kerfside.home, new Promise((resolve) => setTimeout(resolve, 200))]).then(() => true)`)
	var loads string
	if phone.ask(ctx, t, `sessionStorage.loads`, &loads); loads != "1" {
		t.Errorf("the page was loaded %s times", loads)
	}
}
