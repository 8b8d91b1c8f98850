package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"kerfside/cmd/internal/browser"
)

// tapping starts to tap notes one after the other for ever and keeps the ids
// of those that the journal said are on the disk.
const tapping = `(globalThis.stored = [], (async () => {
	for (let i = 0; ; i++) stored.push((await kerfside.journal.tap({ kind: "note.added", body: { text: "note " + i } })).id);
})(), true)`

// killsEach is how often one phone is killed: its journal grows, and so does what
// each start folds.
const killsEach = 50

// TestBrowserKilledWhileTapping kills the browser amid writes, and every second
// time the store of Chromium is gone too. What it had called stored is there
// afterwards, the phone is still in its crew, and all of it reaches the server.
func TestBrowserKilledWhileTapping(t *testing.T) {
	kills := 3
	if long() {
		kills = 12
	}
	if n, err := strconv.Atoi(os.Getenv("KERFSIDE_KILLS")); err == nil {
		kills = n
	}
	for done := 0; done < kills; done += killsEach {
		t.Run(fmt.Sprintf("phone-%d", done/killsEach+1), func(t *testing.T) {
			t.Parallel()
			killWhileTapping(t, browser.Chromium, min(killsEach, kills-done))
		})
	}
	for _, engine := range others() {
		t.Run(engine.String(), func(t *testing.T) {
			t.Parallel()
			killWhileTapping(t, engine, min(killsEach, (kills+2)/3))
		})
	}
}

// killWhileTapping kills the browser of one phone amid writes.
func killWhileTapping(t *testing.T, engine browser.Engine, kills int) {
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit+time.Duration(kills)*20*time.Second)
	defer cancel()
	dir, app := serving(t)
	phone := &device{engine: engine, profile: filepath.Join(dir, "phone-A")}
	promised, wiped, emptied := map[string]bool{}, 0, 0
	start := func(kill int) {
		if kill%2 == 1 && engine == browser.Chromium {
			phone.emptied(t)
			emptied++
		}
		phone.start(ctx, t, app)
		phone.countIsTrue(ctx, t)
		if !phone.marked(ctx, t) && kill > 0 && kill%2 == 0 {
			wiped++
			t.Logf("the browser has lost its whole store, with %d events called stored", len(promised))
		}
	}
	for i := range kills {
		start(i)
		phone.ask(ctx, t, tapping, new(bool))
		phone.wait(ctx, t, fmt.Sprintf("stored.length > %d", 3+2*(i%20)))
		var stored []string
		phone.ask(ctx, t, "stored", &stored)
		phone.browser.Kill()
		for _, id := range stored {
			promised[id] = true
		}
	}
	start(kills)
	phone.atServer(ctx, t)
	var text string
	phone.ask(ctx, t, `kerfside.journal.exportText().then(({ text }) => text)`, &text)
	phone.browser.Kill()
	lost := 0
	for id := range promised {
		if n := strings.Count(text, `{"id":"`+id+`"`); n != 1 {
			lost++
			t.Errorf("event %s was called stored and is there %d times", id, n)
		}
	}
	t.Logf("tally: %d kills of %v amid writes", kills, engine)
	t.Logf("tally: %d stores lost by the browser itself", wiped)
	t.Logf("tally: %d stores emptied by the test", emptied)
	t.Logf("tally: %d events called stored before", len(promised))
	t.Logf("tally: %d events lost", lost)
}

// TestBrowserKilledWhileJoining kills the browser of a phone with a journal at
// different moments of its joining a crew. Started again, the phone goes on, or
// joins with another invitation if it was killed before it asked or after it was
// in and before its cookie was written; each entry arrives at the server once.
// Every second phone finds its store gone.
func TestBrowserKilledWhileJoining(t *testing.T) {
	t.Parallel()
	kills := 4
	if long() {
		kills = 8
	}
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit+time.Duration(kills)*10*time.Second)
	defer cancel()
	dir, app := serving(t)
	const entries = 40
	again, wiped := 0, 0
	var last *device
	for i := range kills {
		phone := &device{profile: filepath.Join(dir, fmt.Sprintf("phone-%d", i))}
		phone.open(ctx, t, app)
		phone.ask(ctx, t, fmt.Sprintf(`(async () => {
			for (let i = 0; i < %d; i++) await kerfside.journal.tap({ kind: "note.added", body: { text: "phone %d note " + i + "." } });
			return true;
		})()`, entries, i), new(bool))
		phone.marked(ctx, t)
		phone.askToJoin(ctx, t, app)
		time.Sleep(time.Duration(i*120/kills) * time.Millisecond) // joining takes some 100 ms
		var err error
		if phone.jar, err = phone.browser.Jar(ctx); err != nil {
			t.Fatal(err)
		}
		phone.browser.Kill()
		if i%2 == 1 {
			phone.emptied(t)
		}
		phone.open(ctx, t, app)
		if !phone.marked(ctx, t) && i%2 == 0 {
			wiped++
		}
		var in bool
		phone.ask(ctx, t, `kerfside.journal.read([]).then(async ({ crew }) => crew !== "" && (await (await fetch("/api/status")).json()).enrolled)`, &in)
		if !in {
			again++
			phone.join(ctx, t, app)
		}
		phone.atServer(ctx, t)
		if phone.jar, err = phone.browser.Jar(ctx); err != nil {
			t.Fatal(err)
		}
		phone.browser.Kill()
		last = phone
	}
	last.open(ctx, t, app)
	last.wait(ctx, t, fmt.Sprintf(`(kerfside.syncNow(), kerfside.stateHash().then(({ events }) => events >= %d))`, kills*entries))
	var text string
	last.ask(ctx, t, `kerfside.journal.exportText().then(({ text }) => text)`, &text)
	lost := 0
	for i := range kills {
		for note := range entries {
			if n := strings.Count(text, fmt.Sprintf(`"phone %d note %d."`, i, note)); n != 1 {
				lost++
				t.Errorf("note %d of phone %d is there %d times", note, i, n)
			}
		}
	}
	t.Logf("%d of %d phones had to join again", again, kills)
	t.Logf("tally: %d stores lost by the browser itself", wiped)
	t.Logf("tally: %d stores emptied by the test", kills/2)
	t.Logf("tally: %d browsers killed while joining", kills)
	t.Logf("tally: %d events lost", lost)
}

// TestBrowserKilledOwn: settings and what is half entered are there after a kill
// that localStorage had not been written before, and after the browser emptied
// the store too.
func TestBrowserKilledOwn(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir, app := serving(t)
	phone := &device{profile: filepath.Join(dir, "phone-A")}
	for i, set := range []struct{ units, look, hand string }{{units: "us", look: "night", hand: "left"}, {units: "metric", look: "sun", hand: "right"}, {units: "us", look: "sun", hand: "left"}} {
		phone.open(ctx, t, app)
		for _, do := range []struct{ path, act string }{
			{"/settings", fmt.Sprintf(`[%q, %q, %q].forEach((word) => document.querySelector("[data-word=" + word + "]").click())`, set.units, set.look, set.hand)},
			{"/search", fmt.Sprintf(`document.querySelector("main input").value = "tip %d", document.querySelector("main input").dispatchEvent(new Event("input", { bubbles: true }))`, i)},
		} {
			if err := phone.page.Open(ctx, app.URL()+do.path); err != nil {
				t.Fatal(err)
			}
			phone.wait(ctx, t, `globalThis.kerfside?.home.then(() => document.querySelector("main").innerText !== "")`)
			phone.ask(ctx, t, "("+do.act+", true)", new(bool))
			phone.ask(ctx, t, `kerfside.localState.settled().then(() => true)`, new(bool))
		}
		phone.browser.Kill()
		if i == 2 {
			phone.emptied(t)
		}
		phone.open(ctx, t, app)
		phone.wait(ctx, t, fmt.Sprintf(`((look, hand) => look === %q && hand === %q)(document.documentElement.dataset.look, document.documentElement.dataset.hand)`, set.look, set.hand))
		if err := phone.page.Open(ctx, app.URL()+"/search"); err != nil {
			t.Fatal(err)
		}
		phone.wait(ctx, t, fmt.Sprintf(`document.querySelector("main input")?.value === "tip %d" && globalThis.kerfside?.localState.get("settings").units === %q`, i, set.units))
		phone.browser.Kill()
	}
}
