package browser

import (
	"bytes"
	"context"
	"errors"
	"image/png"
	"net/http"
	"net/http/httptest"
	"os"
	"slices"
	"strings"
	"testing"
	"time"
)

// deadline ends a test that waits for what never comes.
const deadline = time.Minute

// inEach runs a test in every engine; in a short run in Chromium alone.
func inEach(t *testing.T, test func(t *testing.T, engine Engine)) {
	for _, engine := range Engines {
		if engine == Chromium || os.Getenv("KERFSIDE_LONG") == "1" {
			t.Run(engine.String(), func(t *testing.T) { test(t, engine) })
		}
	}
}

// open starts a browser on a fresh profile with the scratch page in it.
func open(t *testing.T, engine Engine) (context.Context, *Browser, *Page, string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), deadline)
	t.Cleanup(cancel)
	server := httptest.NewServer(http.FileServer(http.Dir("testdata")))
	t.Cleanup(server.Close)
	b, err := Launch(ctx, Options{Engine: engine, Profile: t.TempDir()})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(b.Kill)
	p, err := b.Page(ctx, Phone)
	if err != nil {
		t.Fatal(err)
	}
	if err := p.Open(ctx, server.URL); err != nil {
		t.Fatal(err)
	}
	return ctx, b, p, server.URL
}

// ask evaluates an expression and wants that value.
func ask[T comparable](t *testing.T, p *Page, expression string, want T) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), deadline)
	defer cancel()
	var got T
	if err := p.Evaluate(ctx, expression, &got); err != nil {
		t.Errorf("%s: %v", expression, err)
	} else if got != want {
		t.Errorf("%s = %v, want %v", expression, got, want)
	}
}

func TestBrowserTap(t *testing.T) { inEach(t, testTap) }

func testTap(t *testing.T, engine Engine) {
	ctx, _, p, _ := open(t, engine)
	if err := p.Tap(ctx, 195, 50); err != nil {
		t.Fatal(err)
	}
	if err := p.Wait(ctx, `document.querySelector("output").textContent === "1"`); err != nil {
		t.Fatal(err)
	}
	want := "touchstart touchend click"
	if engine == WebKit {
		want = "click" // of a mouse
	}
	ask(t, p, `events.join(" ")`, want)
	if err := p.Press(ctx, 195, 50, 200*time.Millisecond); err != nil {
		t.Fatal(err)
	}
	if engine != WebKit {
		if err := p.Wait(ctx, `Number(document.querySelector("button").dataset.held) >= 200`); err != nil {
			t.Error(err)
		}
	}
}

func TestBrowserType(t *testing.T) { inEach(t, testType) }

func testType(t *testing.T, engine Engine) {
	ctx, _, p, _ := open(t, engine)
	ask(t, p, `document.querySelector("input").focus(), document.activeElement.tagName`, "INPUT")
	ask(t, p, `document.hasFocus() && document.querySelector("input").matches(":focus-visible")`, true)
	if err := p.Type(ctx, "3/16 in"); err != nil {
		t.Fatal(err)
	}
	if err := p.Key(ctx, "Backspace"); err != nil {
		t.Fatal(err)
	}
	if err := p.Wait(ctx, `document.querySelector("input").value === "3/16 i"`); err != nil {
		t.Error(err)
	}
	if err := p.Key(ctx, "PageUpDownLeftRight"); err == nil {
		t.Error("a key that does not exist was pressed without an error")
	}
}

func TestBrowserScreen(t *testing.T) { inEach(t, testScreen) }

func testScreen(t *testing.T, engine Engine) {
	t.Setenv("LANGUAGE", "de")
	t.Setenv("LC_ALL", "de_DE.UTF-8")
	ctx, _, p, _ := open(t, engine)
	ask(t, p, `innerWidth + "x" + innerHeight`, "390x844")
	ask(t, p, `matchMedia("(pointer: coarse)").matches`, engine != WebKit)
	ask(t, p, `navigator.language`, "en-US") // it decides the units
	if err := p.Resize(ctx, Screen{Width: 320, Height: 568, Scale: 1, Touch: true}); err != nil {
		t.Fatal(err)
	}
	ask(t, p, `innerWidth + "x" + innerHeight`, "320x568")
	if err := p.Media(ctx, map[string]string{"prefers-color-scheme": "dark"}); err != nil {
		t.Fatal(err)
	}
	ask(t, p, `getComputedStyle(document.body).backgroundColor`, "rgb(0, 0, 0)")
	data, err := p.Picture(ctx)
	if err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if got := picture.Bounds().Size(); got.X != 320 || got.Y != 568 {
		t.Errorf("the picture is %v, want 320 by 568", got)
	}
	if r, g, b, _ := picture.At(300, 500).RGBA(); r|g|b != 0 {
		t.Errorf("the picture shows %v %v %v where the page is black", r, g, b)
	}
}

func TestBrowserHistory(t *testing.T) { inEach(t, testHistory) }

func testHistory(t *testing.T, engine Engine) {
	ctx, _, p, url := open(t, engine)
	ask(t, p, `(window.mark = 1)`, 1)
	if err := p.Open(ctx, url+"/#there"); err != nil {
		t.Fatal(err)
	}
	ask(t, p, `window.mark + location.hash`, "1#there")
	if err := p.Back(ctx); err != nil {
		t.Fatal(err)
	}
	ask(t, p, `window.mark + location.hash`, "1")
	for range 2 {
		if err := p.Open(ctx, url+"/#there"); err != nil {
			t.Fatal(err)
		}
	}
	ask(t, p, `typeof window.mark + location.hash`, "undefined#there") // what stands is loaded anew
	ask(t, p, `(window.mark = 1)`, 1)
	if err := p.Reload(ctx); err != nil {
		t.Fatal(err)
	}
	ask(t, p, `typeof window.mark`, "undefined")
	if err := p.Open(ctx, "http://127.0.0.1:1/"); err == nil {
		t.Error("an address where nothing listens was opened without an error")
	}
}

// What was written with a strict transaction survives a browser that is killed
// right after, on a profile that it had no time to close, and so do its cookies
// with the jar of a browser that writes them late.
func TestBrowserKill(t *testing.T) { inEach(t, testKill) }

func testKill(t *testing.T, engine Engine) {
	ctx, cancel := context.WithTimeout(context.Background(), deadline)
	defer cancel()
	server := httptest.NewServer(http.FileServer(http.Dir("testdata")))
	defer server.Close()
	profile, jar := t.TempDir(), Jar("[]")
	temp, err := os.MkdirTemp("", "t") // a short name: the browsers' sockets are in it
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(temp)
	t.Setenv("TMPDIR", temp)
	for _, c := range []struct {
		name, expression string
		want             string
	}{
		{name: "before", expression: `kept().then((note) => note + document.cookie)`, want: "null"},
		{name: "write", expression: `(document.cookie = "crew=7; max-age=999", keep("drained at 20 min").then(() => "done"))`, want: "done"},
		{name: "after", expression: `kept().then((note) => note + " " + document.cookie)`, want: "drained at 20 min crew=7"},
	} {
		b, err := Launch(ctx, Options{Engine: engine, Profile: profile})
		if err != nil {
			t.Fatal(err)
		}
		if err := b.PutJar(ctx, jar); err != nil {
			t.Fatal(err)
		}
		p, err := b.Page(ctx, Phone)
		if err != nil {
			b.Kill()
			t.Fatal(err)
		}
		if err := p.Open(ctx, server.URL); err != nil {
			b.Kill()
			t.Fatal(err)
		}
		ask(t, p, c.expression, c.want)
		if jar, err = b.Jar(ctx); err != nil {
			t.Fatal(err)
		}
		b.Kill()
		if err := p.Evaluate(ctx, "1", nil); err == nil {
			t.Errorf("%s: the killed browser still answers", c.name)
		}
		if left, err := os.ReadDir(temp); err != nil || len(left) > 0 {
			t.Errorf("%s: the killed browser left %v, %v", c.name, left, err)
		}
	}
}

func TestBrowserFaults(t *testing.T) { inEach(t, testFaults) }

func testFaults(t *testing.T, engine Engine) {
	for _, c := range []struct{ name, expression, kind, text string }{
		{name: "console", expression: `console.error("lost", new Error("the thread"))`, kind: "console", text: "lost Error: the thread"},
		{name: "exception", expression: `setTimeout(() => { throw new Error("nobody catches this"); })`, kind: "exception", text: "nobody catches this"},
		{name: "rejection", expression: `void Promise.reject(new Error("nobody waits for this"))`, kind: "exception", text: "nobody waits for this"},
		{name: "worker", expression: `void new Worker(URL.createObjectURL(new Blob(["console.error('worker lost')"])))`, kind: "console", text: "worker lost"},
		{name: "network", expression: `void fetch("/nowhere")`, kind: "network", text: "/nowhere"},
		{name: "dialog", expression: `alert("sure?")`, kind: "dialog", text: "alert: sure?"},
	} {
		t.Run(c.name, func(t *testing.T) {
			ctx, _, p, _ := open(t, engine)
			p.mu.Lock()
			p.faults = nil // the page has no icon, which the browser may have asked for
			p.mu.Unlock()
			if err := p.Evaluate(ctx, c.expression, nil); err != nil {
				t.Fatal(err)
			}
			err := until(ctx, "the fault", func() (bool, error) {
				for _, f := range p.Faults() {
					if f.Kind == c.kind && strings.Contains(f.Text, c.text) {
						return true, nil
					}
				}
				return false, nil
			})
			if err != nil {
				t.Errorf("%v; faults: %q, want %s %q", err, p.Faults(), c.kind, c.text)
			}
		})
	}
}

// What an expression throws is an error with its words, and waiting ends with
// the context.
func TestBrowserErrors(t *testing.T) { inEach(t, testErrors) }

func testErrors(t *testing.T, engine Engine) {
	ctx, _, p, _ := open(t, engine)
	err := p.Evaluate(ctx, `Promise.reject(new Error("no such button"))`, nil)
	if err == nil || !strings.Contains(err.Error(), "no such button") {
		t.Errorf("a rejected promise gave %v", err)
	}
	var n int
	if err := p.Evaluate(ctx, `undefined`, &n); err == nil {
		t.Error("undefined was read as a number")
	}
	short, cancel := context.WithTimeout(ctx, 100*time.Millisecond)
	defer cancel()
	if err := p.Wait(short, "false"); err == nil {
		t.Error("a wait for false ended well")
	}
}

// What is asked of a page that crashes, then or later, is answered so at once,
// and the crash is a fault.
func TestBrowserCrash(t *testing.T) {
	ctx, _, p, _ := open(t, Chromium)
	go p.tab.(*chromiumTab).call(ctx, "Page.crash", struct{}{}, nil)
	if err := p.Evaluate(ctx, `new Promise(() => {})`, nil); !errors.Is(err, ErrCrashed) {
		t.Errorf("a question put before the crash gave %v", err)
	}
	if err := p.Evaluate(ctx, `1`, nil); !errors.Is(err, ErrCrashed) {
		t.Errorf("a question put after the crash gave %v", err)
	}
	crashes := func(f Fault) bool { return f.Kind == "crash" } // the icon that is not there may be a fault too
	if faults := p.Faults(); !slices.ContainsFunc(faults, crashes) {
		t.Errorf("the faults of a page that crashed are %v", faults)
	}
}
