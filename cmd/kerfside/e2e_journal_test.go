// What a phone keeps through emptied stores and restored servers.

package main

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"kerfside/cmd/internal/browser"
	"kerfside/server/backup"
)

// TestBrowserEmptiedStore: a phone whose store the browser emptied says so, goes
// on in its crew, takes in again what the server has, and has what only it had,
// the running arc with it.
func TestBrowserEmptiedStore(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	dir, app := serving(t)
	phone := &device{profile: filepath.Join(dir, "phone-A")}
	phone.start(ctx, t, app)
	phone.ask(ctx, t, `kerfside.journal.tap({ kind: "note.added", body: { text: "at the server" } }).then(() => true)`, new(bool))
	phone.holds(ctx, t, 1)
	phone.ask(ctx, t, `kerfside.journal.read([]).then(() => (kerfside.journal.bridge.end(), true))`, new(bool)) // it sends nothing any more
	phone.ask(ctx, t, `kerfside.journal.tap([{ kind: "session.opened", about: "session-1", body: { rig: "rig-1" } }, { kind: "note.added", in: "session-1", body: { text: "only here" } }])
		.then(() => kerfside.journal.startArc({ rig: "rig-1", in: "session-1" })).then(() => true)`, new(bool))
	phone.browser.Kill()
	phone.emptied(t)
	phone.open(ctx, t, app)
	// How many it says depends on whether the copy of the first was dropped before the kill.
	phone.wait(ctx, t, `/The browser has emptied this phone’s store. [34] that only this phone had are back./.test(document.body.textContent)`)
	phone.holds(ctx, t, 4)
	phone.wait(ctx, t, `kerfside.journal.read(["now"]).then(({ arc, views }) => arc["rig-1"] !== undefined && views.now?.session?.id === "session-1")`)
}

// rewound is true once the phone has found out about the restore and has all
// arrivals again.
const rewound = `(kerfside.syncNow(), kerfside.journal.db.run(["meta"], "readonly", (tx) => new Promise((resolve) => {
	const request = tx.objectStore("meta").get("meta");
	request.onsuccess = () => resolve(request.result.gen === 1 && request.result.cursor === 797);
})))`

// TestBrowserRestoredServer restores an older backup under a
// running crew. The phones notice and bring back what the copy lacks, also what
// another phone had written.
func TestBrowserRestoredServer(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir := place(t)
	app := openApp(t, dir)
	reopen := func() {
		t.Helper()
		if err := app.Open(); err != nil {
			t.Fatal(err)
		}
	}
	stop := func() {
		t.Helper()
		if err := app.Close(); err != nil {
			t.Fatal(err)
		}
	}
	phones := []*device{{profile: filepath.Join(dir, "phone-A")}, {profile: filepath.Join(dir, "phone-B")}}
	for _, d := range phones {
		d.start(ctx, t, app)
	}
	tap := func(d *device, n int) {
		t.Helper()
		d.ask(ctx, t, fmt.Sprintf(`kerfside.journal.tap(Array.from({ length: %d }, (_, i) => ({ kind: "note.added", body: { text: "note " + i } }))).then(({ written }) => written)`, n), new(bool))
	}
	var start held
	phones[0].ask(ctx, t, `kerfside.stateHash()`, &start)
	if start.Events != 0 {
		t.Fatalf("a new phone holds %d events", start.Events)
	}
	tap(phones[0], 120) // more than one mark
	tap(phones[1], 30)
	for _, d := range phones {
		d.holds(ctx, t, 150)
	}

	// The server goes on while it is copied.
	copied, err := backup.Make(ctx, app.DB, filepath.Join(dir, "backups"), time.Now())
	if err != nil {
		t.Fatal(err)
	}
	tap(phones[0], 7)
	tap(phones[1], 640) // more than one request
	var before [2]held
	for i, d := range phones {
		before[i] = d.holds(ctx, t, 797)
	}
	if before[0] != before[1] {
		t.Fatalf("before the restore: %v and %v", before[0], before[1])
	}

	stop()
	if _, err := backup.Restore(ctx, app.DB, copied.File, time.Now()); err != nil {
		t.Fatal(err)
	}
	reopen()
	defer stop()
	// Only the first phone calls at first: it must bring back what the other wrote.
	phones[1].browser.Kill()
	phones[0].wait(ctx, t, rewound)
	phones[0].holds(ctx, t, 797)
	status, err := app.store.Status(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if status.Events != 797 {
		t.Errorf("the restored server holds %d events, want 797", status.Events)
	}
	phones[1].start(ctx, t, app)
	first := phones[0].holds(ctx, t, 797)
	// Until it has heard of the restore it is content with what it had.
	phones[1].wait(ctx, t, fmt.Sprintf(`(kerfside.syncNow(), kerfside.stateHash().then(({ hash }) => hash === %q))`, first.Hash))
	after := [2]held{first, phones[1].holds(ctx, t, 797)}
	if after[0] != after[1] {
		t.Errorf("after the restore: %v and %v", after[0], after[1])
	}
	if len(phones[0].page.Faults()) > 0 {
		t.Errorf("the page complained: %v", phones[0].page.Faults())
	}
}

// holding keeps a transaction over the whole store in flight until letGo is called.
const holding = `new Promise((resolve, reject) => {
	const opening = indexedDB.open("kerfside");
	opening.onerror = () => reject(opening.error);
	opening.onsuccess = () => {
		const tx = opening.result.transaction([...opening.result.objectStoreNames], "readwrite");
		let held = true;
		globalThis.letGo = () => (held = false);
		const hold = () => { if (held) tx.objectStore("meta").get("meta").onsuccess = hold; resolve(true); };
		hold();
	};
})`

// TestBrowserStuckStore: while the store does not answer the app says so on a
// screen that is not blank; what is tapped then is stored when it answers again,
// and after another start if it never does.
func TestBrowserStuckStore(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir, app := serving(t)
	phone := &device{profile: filepath.Join(dir, "phone-A")}
	phone.open(ctx, t, app)
	holder := *phone
	tapped := 0
	tap := func() {
		t.Helper()
		tapped++
		phone.ask(ctx, t, fmt.Sprintf(`kerfside.journal.tap({ kind: "note.added", body: { text: "note %d" } }).catch(({ kind }) => kind)`, tapped), new(any))
	}
	stuck := func() {
		t.Helper()
		var err error
		if holder.page, err = holder.browser.Page(ctx, browser.Phone); err == nil {
			err = holder.page.Open(ctx, app.URL()+"/api/status") // a page of the origin without the app
		}
		if err != nil {
			t.Fatal(err)
		}
		holder.ask(ctx, t, holding, new(bool))
		if phone.page, err = phone.browser.Page(ctx, browser.Phone); err == nil {
			err = phone.page.Open(ctx, app.URL()+"/book")
		}
		if err != nil {
			t.Fatal(err)
		}
		phone.wait(ctx, t, `document.querySelector("main").innerText !== "" || getComputedStyle(document.querySelector("main"), "::before").content.includes("Reading")`)
		phone.wait(ctx, t, `document.querySelector("[role=alert]").textContent.includes("Close every Kerfside tab")`)
		tap()
	}
	holds := func() {
		t.Helper()
		phone.wait(ctx, t, fmt.Sprintf(`globalThis.kerfside?.stateHash().then(({ events }) => events === %d)`, tapped))
	}

	stuck()
	holder.ask(ctx, t, `letGo()`, new(any))
	holds()
	phone.wait(ctx, t, `document.querySelector("[role=alert]").hidden`)

	stuck()
	phone.browser.Close(ctx)
	phone.open(ctx, t, app)
	holds()
}
