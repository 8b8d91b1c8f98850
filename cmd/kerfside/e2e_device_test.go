package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"kerfside/cmd/internal/browser"
	"kerfside/server"
)

// device is one phone of a journal test: a profile and the app's page in it.
type device struct {
	engine  browser.Engine
	profile string
	flags   []string // of Chromium
	browser *browser.Browser
	page    *browser.Page
	jar     browser.Jar // its cookies, which a killed browser may not have written
}

// start opens the app, waits until the worker answers, and joins the crew if the
// phone has not yet.
func (d *device) start(ctx context.Context, t testing.TB, app *App) {
	t.Helper()
	d.open(ctx, t, app)
	if d.jar == nil {
		d.join(ctx, t, app)
	}
}

// open opens the app and waits until the worker answers.
func (d *device) open(ctx context.Context, t testing.TB, app *App) {
	t.Helper()
	var err error
	if d.browser, err = browser.Launch(ctx, browser.Options{Engine: d.engine, Profile: d.profile, Flags: d.flags}); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(d.browser.Kill)
	if d.jar != nil {
		if err := d.browser.PutJar(ctx, d.jar); err != nil {
			t.Fatal(err)
		}
	}
	if d.page, err = d.browser.Page(ctx, browser.Phone); err == nil {
		err = d.page.Open(ctx, app.URL()+"/")
	}
	if err != nil {
		t.Fatal(err)
	}
	d.wait(ctx, t, `globalThis.kerfside?.home.then(() => kerfside.stateHash()).then(({ hash }) => hash !== "")`)
}

// join has the phone join as an owner.
func (d *device) join(ctx context.Context, t testing.TB, app *App) {
	t.Helper()
	d.askToJoin(ctx, t, app)
	d.wait(ctx, t, `globalThis.kerfside?.journal.state.crew && kerfside.stateHash().then(({ hash }) => hash !== "")`)
	var err error
	if d.jar, err = d.browser.Jar(ctx); err != nil {
		t.Fatal(err)
	}
}

// askToJoin begins to join as an owner, as the screen does.
func (d *device) askToJoin(ctx context.Context, t testing.TB, app *App) {
	t.Helper()
	link, err := app.Invite("owner")
	if err != nil {
		t.Fatal(err)
	}
	secret, ok := strings.CutPrefix(link, app.URL()+server.JoinPath+"#")
	if !ok {
		t.Fatalf("the link %s does not lead to %s", link, app.URL())
	}
	d.ask(ctx, t, fmt.Sprintf(`(kerfside.joining().then(({ join }) => join({ secret: %q, name: "Truck 1" })), true)`, secret), new(bool))
}

func (d *device) wait(ctx context.Context, t testing.TB, condition string) {
	t.Helper()
	if err := d.page.Wait(ctx, condition); err != nil {
		t.Fatal(err)
	}
}

func (d *device) ask(ctx context.Context, t testing.TB, expression string, result any) {
	t.Helper()
	if err := d.page.Evaluate(ctx, expression, result); err != nil {
		t.Fatal(err)
	}
}

// held is what a phone's fold says of its set of events.
type held struct {
	Hash   string `json:"hash"`
	Events int    `json:"events"`
}

// atServer waits until everything of the phone is at the server.
func (d *device) atServer(ctx context.Context, t *testing.T) {
	t.Helper()
	d.wait(ctx, t, `(kerfside.syncNow(), kerfside.journal.read([]).then(({ sync }) => sync.onServer))`)
	d.countIsTrue(ctx, t)
}

// unsentCounts gives how many entries the phone says are unsent and put aside,
// and how many of its entries are.
const unsentCounts = `kerfside.journal.db.run(["event", "meta"], "readonly", async (tx) => {
	const ask = (request) => new Promise((resolve) => (request.onsuccess = () => resolve(request.result)));
	const [events, { count, nextL }] = [await ask(tx.objectStore("event").getAll()), await ask(tx.objectStore("meta").get("meta"))];
	const of = (which) => events.filter(({ unsent }) => unsent === which).length;
	return { says: [count?.unsent, count?.aside, count?.nextL], is: [of(1), of(2), nextL] };
})`

// countIsTrue compares the count that the phone keeps of what is unsent with its
// entries.
func (d *device) countIsTrue(ctx context.Context, t *testing.T) {
	t.Helper()
	var counts struct{ Says, Is []int }
	d.ask(ctx, t, unsentCounts, &counts)
	if !slices.Equal(counts.Says, counts.Is) {
		t.Errorf("the phone counts %v entries unsent, put aside and numbered, and has %v", counts.Says, counts.Is)
	}
}

// holds waits until the phone holds that many events, and returns its state.
func (d *device) holds(ctx context.Context, t *testing.T, events int) held {
	t.Helper()
	d.wait(ctx, t, fmt.Sprintf(`(kerfside.syncNow(), kerfside.stateHash().then(({ events }) => events === %d))`, events))
	d.atServer(ctx, t)
	var h held
	d.ask(ctx, t, `kerfside.stateHash()`, &h)
	return h
}

// marking puts a mark into a database of its own and says whether it was there.
const marking = `new Promise((resolve, reject) => {
	const opening = indexedDB.open("mark", 1);
	opening.onerror = () => reject(opening.error);
	opening.onupgradeneeded = () => opening.result.createObjectStore("mark");
	opening.onsuccess = () => {
		const tx = opening.result.transaction("mark", "readwrite", { durability: "strict" });
		const before = tx.objectStore("mark").getKey(1);
		tx.objectStore("mark").put(true, 1);
		tx.oncomplete = () => (opening.result.close(), resolve(before.result === 1));
		tx.onabort = () => reject(tx.error);
	};
})`

// emptied removes what the browser keeps in IndexedDB, as it does by itself when
// it finds its store damaged. Storage buckets lie elsewhere.
func (d *device) emptied(t *testing.T) {
	t.Helper()
	if err := os.RemoveAll(filepath.Join(d.profile, "Default", "IndexedDB")); err != nil {
		t.Fatal(err)
	}
}

// marked puts a mark beside the app's databases and says whether it was there.
// Chromium reuses the log of its store after a kill that tore the last record of
// it, finds it damaged at the next start and begins anew with nothing
// (google/leveldb issue 1287, open in November 2026). All databases of the app go
// then, and so does the mark, which the app does not know of.
func (d *device) marked(ctx context.Context, t *testing.T) bool {
	t.Helper()
	var there bool
	d.ask(ctx, t, marking, &there)
	return there
}

// serving opens the program in a folder of its own until the test ends.
func serving(t *testing.T) (dir string, app *App) {
	t.Helper()
	dir = place(t)
	app = openApp(t, dir)
	t.Cleanup(func() {
		if err := app.Close(); err != nil {
			t.Error(err)
		}
	})
	return dir, app
}
