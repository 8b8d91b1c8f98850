package main

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"kerfside/cmd/internal/browser"
)

// answerLimit is how long a loaded page may take to show something or to end a
// transaction. A store that hangs does so for good.
const answerLimit = time.Minute

// reloadLoop is a phone whose pages are left again and again soon after a tap.
type reloadLoop struct {
	*device
	app  *App
	seed int64
	draw *rand.Rand
	name string // of the journal's database
	back int    // how many steps back lead to pages of the app

	loads, hung, blank int
}

// TestBrowserReloads leaves pages 5 to 200 ms after a tap, with the tap's entries
// and what the worker makes of them under way. The store goes on answering, no
// screen is blank, and each entry that was called stored is there once.
func TestBrowserReloads(t *testing.T) {
	loads, seed := 5, int64(1)
	if long() {
		loads = 10
	}
	if n, err := strconv.Atoi(os.Getenv("KERFSIDE_LOADS")); err == nil {
		loads = n
	}
	if n, err := strconv.ParseInt(os.Getenv("KERFSIDE_SEED"), 10, 64); err == nil {
		seed = n
	}
	for _, engine := range append([]browser.Engine{browser.Chromium}, others()...) {
		t.Run(engine.String(), func(t *testing.T) {
			ctx, cancel := context.WithTimeout(context.Background(), journeyLimit+time.Duration(loads)*20*time.Second)
			defer cancel()
			dir, app := serving(t)
			l := &reloadLoop{
				device: &device{engine: engine, profile: filepath.Join(dir, "phone-A")}, app: app,
				seed: seed, draw: rand.New(rand.NewPCG(uint64(seed), uint64(engine))),
			}
			l.start(ctx, t, app)
			l.ask(ctx, t, "kerfside.journal.db.name", &l.name)
			l.visit(ctx, t, "/ready")
			for l.loads < loads && l.turn(ctx, t) {
			}
			lost := l.lost(ctx, t)
			t.Logf("tally: %d pages loaded amid entries in %v", l.loads, engine)
			t.Logf("tally: %d stores hung in %v", l.hung, engine)
			t.Logf("tally: %d blank screens in %v", l.blank, engine)
			t.Logf("tally: %d events lost", lost)
		})
	}
}

// visit opens a page of the app and waits until it can be used.
func (l *reloadLoop) visit(ctx context.Context, t *testing.T, path string) {
	t.Helper()
	if err := l.page.Open(ctx, l.app.URL()+path); err != nil {
		t.Fatal(err)
	}
	l.wait(ctx, t, `globalThis.kerfside && document.querySelector("main").innerText.trim() !== ""`)
}

// turn taps, leaves the page, and looks at the next one. It says whether the
// loop can go on.
func (l *reloadLoop) turn(ctx context.Context, t *testing.T) bool {
	t.Helper()
	turn := l.loads + 1
	how := l.leaving(turn)
	wait := 5 + l.draw.IntN(196)
	at := fmt.Sprintf("KERFSIDE_SEED=%d, load %d, %s %d ms after a tap", l.seed, turn, how, wait)
	l.ask(ctx, t, fmt.Sprintf(tapAndLeave, turn, 1+l.draw.IntN(3), how, wait), new(bool))
	if err := l.soon(ctx, fmt.Sprintf(`globalThis.turn !== %d && document.readyState === "complete" && location.origin === %q`, turn, l.app.URL())); err != nil {
		var there string
		l.ask(ctx, t, `document.URL + " " + document.body.innerText`, &there)
		t.Errorf("%s: no next page: %v; the browser shows %q", at, err, there)
		return false
	}
	l.loads++
	if err := l.soon(ctx, fmt.Sprintf(transacting, l.name)); err != nil {
		l.hung++
		t.Errorf("%s: no transaction ends any more: %v", at, err)
	}
	if err := l.soon(ctx, `document.querySelector("main").innerText.trim() !== ""`); err != nil {
		l.blank++
		t.Errorf("%s: the screen is blank: %v", at, err)
	}
	if l.hung+l.blank > 0 {
		return false // what hangs does so for good
	}
	l.wait(ctx, t, `globalThis.kerfside !== undefined`)
	return true
}

// soon waits until a condition holds, but not for ever.
func (l *reloadLoop) soon(ctx context.Context, condition string) error {
	ctx, cancel := context.WithTimeout(ctx, answerLimit)
	defer cancel()
	return l.page.Wait(ctx, condition)
}

// leaving draws how the page is left. Only steps back that lead to another
// document are taken; an address that is there already would make no step.
func (l *reloadLoop) leaving(turn int) string {
	switch l.draw.IntN(3) {
	case 0:
		return "location.reload()"
	case 1:
		if l.back > 0 {
			l.back--
			return "history.back()"
		}
	}
	l.back++
	path := []string{"/ready", "/cut", "/fix", "/book"}[l.draw.IntN(4)]
	return fmt.Sprintf("location.assign(%q)", fmt.Sprintf("%s?turn=%d", path, turn))
}

// tapAndLeave taps what the page offers and some notes, has the worker fold and
// sync, and leaves the page so many ms later. What is called stored the tab keeps
// in its sessionStorage, which does not depend on the database.
const tapAndLeave = `((turn, notes, leave, wait) => {
	const { journal } = kerfside;
	globalThis.turn = turn;
	document.querySelector("main [data-action=drained], main [data-action=example]")?.click();
	for (let i = 1; i <= notes; i++) {
		const text = "turn " + turn + " note " + i + ".";
		journal.tap({ kind: "note.added", body: { text } }).then(() => (sessionStorage[text] = "stored"), () => {});
	}
	(turn %% 2 ? journal.startArc({ rig: "rig-1" }) : journal.stopArc({ rig: "rig-1" })).catch(() => {});
	kerfside.stateHash().catch(() => {});
	kerfside.syncNow();
	setTimeout(leave, wait);
	return true;
})(%d, %d, () => %s, %d)`

// transacting ends one writing transaction over the whole of a database, on a
// connection of its own.
const transacting = `new Promise((resolve, reject) => {
	const opening = indexedDB.open(%q);
	opening.onerror = () => reject(opening.error);
	opening.onsuccess = () => {
		const handle = opening.result;
		const tx = handle.transaction([...handle.objectStoreNames], "readwrite");
		tx.objectStore("meta").get("meta");
		tx.oncomplete = () => (handle.close(), resolve(true));
		tx.onabort = () => reject(tx.error);
	};
})`

// lost counts the entries that were called stored and are not there once, on the
// phone or, when all has been sent, at the server.
func (l *reloadLoop) lost(ctx context.Context, t *testing.T) int {
	t.Helper()
	var stored []string
	l.ask(ctx, t, `Object.keys(sessionStorage).filter((key) => sessionStorage[key] === "stored")`, &stored)
	t.Logf("tally: %d events called stored before", len(stored))
	if l.hung > 0 {
		return 0 // there is nobody to ask
	}
	l.atServer(ctx, t)
	var text string
	l.ask(ctx, t, `kerfside.journal.exportText().then(({ text }) => text)`, &text)
	lost := 0
	for _, note := range stored {
		if n := strings.Count(text, strconv.Quote(note)); n != 1 {
			lost++
			t.Errorf("KERFSIDE_SEED=%d: %q was called stored and is there %d times", l.seed, note, n)
		}
	}
	return lost
}
