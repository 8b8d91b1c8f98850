package main

import (
	"context"
	"io"
	"net/http"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"kerfside/cmd/internal/browser"
	"kerfside/cmd/internal/journey"
)

// shipped opens the app as it goes out, and a phone.
func shipped(ctx context.Context, t *testing.T) (*App, *device) {
	t.Helper()
	dir := place(t)
	app := shippedApp(dir)
	if err := app.Open(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { app.Close() })
	b, err := browser.Launch(ctx, browser.Options{Profile: filepath.Join(dir, "phone")})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(b.Kill)
	page, err := b.Page(ctx, browser.Phone)
	if err != nil {
		t.Fatal(err)
	}
	return app, &device{browser: b, page: page}
}

// scriptsOf are the modules that a page has asked for, without what stands before
// their names.
const scriptsOf = `performance.getEntriesByType("resource").filter(({ name }) => name.endsWith(".js")).map(({ name }) => name.replace(/.*\/a\/\w+\//, ""))`

// TestBrowserShipped: what goes out is the bundle, as it was made of these very
// modules; a start asks for one file of code, for that of its place beside it, and for
// that of the worker; and the app adds no name to those that every page has.
func TestBrowserShipped(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	app, phone := shipped(ctx, t)
	for _, c := range []struct {
		path string
		want []string
	}{
		{"/", []string{"app.js", "worker/worker.js"}},
		{"/cut", []string{"app.js", "worker/worker.js"}},
		{"/fix", []string{"app.js", "pages.js", "worker/worker.js"}},
		{"/book", []string{"app.js", "pages.js", "worker/worker.js"}},
		{"/settings", []string{"app.js", "pages.js", "worker/worker.js"}},
	} {
		if err := phone.page.Open(ctx, app.URL()+c.path); err != nil {
			t.Fatal(err)
		}
		phone.wait(ctx, t, `document.querySelector("main").innerText.trim() !== "" && document.documentElement.dataset.offline === "ready" && `+scriptsOf+`.includes("worker/worker.js")`)
		var scripts []string
		phone.ask(ctx, t, scriptsOf, &scripts)
		slices.Sort(scripts)
		if scripts = slices.Compact(scripts); !slices.Equal(scripts, c.want) {
			t.Errorf("%s runs %q, want %q: go run ./cmd/dev test -only format joins the modules anew", c.path, scripts, c.want)
		}
	}
	var names []string
	phone.ask(ctx, t, `(() => {
		const empty = document.body.appendChild(document.createElement("iframe"));
		const known = new Set(Reflect.ownKeys(empty.contentWindow));
		empty.remove();
		return Reflect.ownKeys(globalThis).filter((name) => !known.has(name) && !/^\d+$/.test(String(name))).map(String);
	})()`, &names)
	if len(names) > 0 {
		t.Errorf("the app adds to the global names: %q", names)
	}
	var lost []string
	phone.ask(ctx, t, `(async () => {
		const lost = [];
		for (const name of ["app.js", "pages.js", "worker/worker.js"]) {
			const map = new URL(document.documentElement.dataset.assets + name + ".map", location.href);
			const { sources } = await (await fetch(map)).json();
			for (const source of sources) {
				const there = await fetch(new URL(source, map));
				if (!there.ok || !(await there.text()).startsWith("// @ts-check")) lost.push(source);
			}
		}
		return lost;
	})()`, &lost)
	if len(lost) > 0 {
		t.Errorf("developers' tools do not find %q", lost)
	}
}

// TestBrowserAsTheyLie: the app runs from its modules as they were written, which is
// what serve -dev serves.
func TestBrowserAsTheyLie(t *testing.T) {
	axe, err := filepath.Abs(axeCore)
	if err != nil {
		t.Fatal(err)
	}
	script := readScript(t, filepath.Join(journeys, "main-job.txt"))
	dir := place(t)
	t.Chdir("../..") // serve -dev reads from there
	app := newApp(dir)
	app.Dev = true
	if err := app.Open(); err != nil {
		t.Fatal(err)
	}
	reply, err := http.Get(app.URL() + "/sw.js")
	if err != nil {
		t.Fatal(err)
	}
	worker, err := io.ReadAll(reply.Body)
	reply.Body.Close()
	if err != nil || !strings.Contains(string(worker), "/parts/dom.js") {
		t.Errorf("phones do not keep the modules as they lie: %v, %.300s", err, worker)
	}
	travelTo(t, app, script, journey.Options{Dir: dir, Shots: dir, Axe: axe, Screen: browser.Phone, Look: "sun", Step: stepLimit})
}
