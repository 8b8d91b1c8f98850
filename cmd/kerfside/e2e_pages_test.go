package main

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"kerfside/cmd/internal/browser"
)

// walkPages walks through the pages of the app and tells what outlives its page.
//
//go:embed testdata/pages.js
var walkPages string

// aDay is what a phone has of a day: a rig, a site, a session, a job.
const aDay = `(async () => {
	for (const entry of [
		{ kind: "rig.set", about: "rig-of-the-test-000001", body: { name: "Bench rig", min_current: "15A", max_current: "45A", tips: "25A:0.8mm,45A:1.05mm", pressure_kind: "line", pressure: "15A:1.6bar,45A:4.6bar" } },
		{ kind: "site.set", about: "site-of-the-test-00001", body: { name: "Yard" } },
		{ kind: "session.opened", about: "session-of-the-test-01", body: { rig: "rig-of-the-test-000001", title: "Gate hinge" } },
		{ kind: "job.set", about: "job-of-the-test-000001", body: { name: "Two gates", customer: "Heron Croft", rig: "rig-of-the-test-000001", site: "site-of-the-test-00001", window: "4h",
			"cut.a": { metal: "mild-steel", thickness: "6mm", length: "300mm", count: "3", name: "hinge side", at: 1000 },
			"cut.b": { metal: "stainless", thickness: "3mm", length: "1m", pierces: "2", at: 2000 } } },
	]) await kerfside.journal.tap(entry);
	return (await kerfside.stateHash()).events === 4;
})()`

// all are the app's pages, one of each sort.
var all = []string{"/ready", "/gate", "/plan", "/cut", "/fix", "/book", "/session/session-of-the-test-01", "/jobs", "/job/job-of-the-test-000001", "/job/new", "/rigs", "/rig/new",
	"/rig/rig-of-the-test-000001", "/site/new", "/join", "/devices", "/settings", "/sums", "/photo-gauge", "/pace", "/rig-card",
	"/sum/air-tank", "/search", "/guides", "/guide/bring-up", "/worst-day", "/glove-test"}

// atPages opens the app in Chromium with a day on the phone.
func atPages(t *testing.T, limit time.Duration) (context.Context, *device) {
	t.Helper()
	return atPagesIn(t, browser.Chromium, limit)
}

// atPagesIn is the same in any engine.
func atPagesIn(t *testing.T, engine browser.Engine, limit time.Duration) (context.Context, *device) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	t.Cleanup(cancel)
	dir := place(t)
	app := openApp(t, dir)
	t.Cleanup(func() { app.Close() })
	d := &device{engine: engine, profile: dir + "/phone"}
	d.open(ctx, t, app)
	d.wait(ctx, t, `document.documentElement.dataset.offline === "ready"`)
	d.wait(ctx, t, aDay)
	return ctx, d
}

// TestBrowserPagesEnd goes from every page to every other in one document: no
// page that is gone hears anything or answers a tap.
func TestBrowserPagesEnd(t *testing.T) {
	t.Parallel()
	ctx, d := atPages(t, journeyLimit)
	d.ask(ctx, t, "(globalThis.walk = "+walkPages+", true)", new(bool))
	visit := func(path string) {
		c, cancel := context.WithTimeout(ctx, stepLimit)
		defer cancel()
		if err := d.page.Evaluate(c, fmt.Sprintf("walk.visit(%q)", path), nil); err != nil {
			var now string
			d.ask(ctx, t, `location.pathname + " " + document.querySelector("main").outerHTML.slice(0, 500)`, &now)
			t.Fatalf("%s does not show: %v: %s", path, err, now)
		}
	}
	for i, one := range all {
		visit(one)
		for _, other := range all[i+1:] {
			visit(other)
			visit(one)
		}
	}
	backwards := slices.Clone(all)
	slices.Reverse(backwards)
	for _, path := range [][]string{all, backwards} {
		paths, _ := json.Marshal(path)
		d.ask(ctx, t, fmt.Sprintf("walk.hurry(%s).then(() => true)", paths), new(bool))
	}
	var found []string
	d.ask(ctx, t, "walk.found()", &found)
	slices.Sort(found)
	for i, one := range found {
		if i == 20 {
			t.Errorf("and %d more", len(found)-i)
			break
		}
		t.Error(one)
	}
	for _, f := range d.page.Faults() {
		t.Errorf("%s: %s", f.Kind, f.Text)
	}
	var held held
	d.ask(ctx, t, "kerfside.stateHash()", &held)
	if held.Events != 4 {
		t.Errorf("after the walk the journal holds %d entries, want the 4 of before", held.Events)
	}
}

// TestBrowserPageLivesAgain goes away from the app and comes back to the page as
// the browser kept it: the page goes on.
func TestBrowserPageLivesAgain(t *testing.T) {
	ctx, d := atPages(t, time.Minute)
	d.ask(ctx, t, `(document.querySelector('.bar [href="/book"]').click(), true)`, new(bool))
	d.wait(ctx, t, `document.querySelector("main").innerText.includes("Gate hinge")`)
	for _, event := range []string{"pagehide", "pageshow"} {
		d.ask(ctx, t, fmt.Sprintf(`dispatchEvent(new PageTransitionEvent(%q, { persisted: true }))`, event), new(bool))
	}
	d.ask(ctx, t, `kerfside.journal.tap({ kind: "session.set", about: "session-of-the-test-01", body: { title: "Trailer hitch" } }).then(() => true)`, new(bool))
	d.wait(ctx, t, `document.querySelector("main").innerText.includes("Trailer hitch")`)
}

// TestBrowserPageSaysTrouble lets a page's reading fail: it says so, and what to
// do, instead of staying blank; and the next try shows it.
func TestBrowserPageSaysTrouble(t *testing.T) {
	ctx, d := atPages(t, time.Minute)
	for _, path := range []string{"/cut", "/fix", "/book", "/rigs", "/gate", "/settings", "/rig/rig-of-the-test-000001", "/sum/air-tank", "/join", "/guide/bring-up"} {
		d.ask(ctx, t, fmt.Sprintf(`(() => {
			const { journal } = kerfside;
			journal.read = () => Promise.reject(new DOMException("the store broke", "UnknownError"));
			const link = document.body.appendChild(Object.assign(document.createElement("a"), { href: %q }));
			link.click();
			link.remove();
			return true;
		})()`, path), new(bool))
		d.wait(ctx, t, fmt.Sprintf(`location.pathname === %q && document.querySelector("main [role=alert]:not([hidden]) [data-action=again]") !== null`, path))
		d.wait(ctx, t, `/could not read what it shows.*Try again/s.test(document.querySelector("main").innerText)`)
		d.ask(ctx, t, `(delete kerfside.journal.read, document.querySelector("main [data-action=again]").click(), true)`, new(bool))
		d.wait(ctx, t, `!document.querySelector("main").innerText.includes("could not read") && document.querySelector("main").innerText.length > 0`)
	}
}

// TestBrowserJoinSeen: on a phone held upright all that joining takes is seen at
// once, and who reads what before the button.
func TestBrowserJoinSeen(t *testing.T) {
	ctx, d := atPages(t, journeyLimit)
	for _, path := range []string{"/join", "/join#0123456789ABCDEFGHJKMNPQ"} {
		d.ask(ctx, t, fmt.Sprintf(`(location.assign(%q), true)`, path), new(bool))
		d.wait(ctx, t, fmt.Sprintf(`location.pathname === "/join" && document.querySelector("main [data-action=join]")?.getBoundingClientRect().height > 0
			&& document.querySelector("main [data-ref=codeField]").hidden === %t`, strings.Contains(path, "#"))) // the second is in the document of the first
		var in struct{ Words, Top, Bottom, Bar float64 }
		d.ask(ctx, t, `(() => {
			const box = (it) => document.querySelector(it).getBoundingClientRect();
			return { words: box("main [data-ref=read]").bottom, top: box("main [data-action=join]").top, bottom: box("main [data-action=join]").bottom, bar: box(".bar").top };
		})()`, &in)
		if in.Words > in.Top || in.Bottom > in.Bar {
			t.Errorf("%s: %+v: want the words, then the button, then the bar", path, in)
		}
	}
}
