package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/server/store"
)

// earlyOnly gives phones early arrivals and holds back their pull until it is let go.
type earlyOnly struct {
	next  http.Handler
	letGo chan struct{}
	once  sync.Once
	held  chan string // what a phone asked for when it was held back the first time since it was asked
}

func (e *earlyOnly) release() { e.once.Do(func() { close(e.letGo) }) }

func (e *earlyOnly) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.URL.Path == "/api/journal/sync" {
		body, err := io.ReadAll(r.Body)
		var head exchange.RequestHead
		first, _, _ := bytes.Cut(body, []byte("\n"))
		if err != nil || json.Unmarshal(first, &head) != nil {
			return
		}
		if head.Early == nil || head.At.N > 0 {
			select {
			case e.held <- string(first):
			default:
			}
			select {
			case <-e.letGo:
			case <-r.Context().Done():
				return
			}
		}
		r.Body = io.NopCloser(bytes.NewReader(body))
	}
	e.next.ServeHTTP(w, r)
}

// longHistory is a crew's journal of two years with a session of today that is open: its
// rig was named long ago, and most of its arc time lies before the last month.
func longHistory(t *testing.T, s *store.Store, old int) {
	t.Helper()
	now := time.Now().UnixMilli()
	var list []exchange.Push
	add := func(days int64, kind, more string) {
		stamp := event.StampOf(now-days*24*3600*1000) + event.Stamp(len(list))
		raw := fmt.Appendf(nil, `{"id":"history%015d","t":"%v","device":"truck-2","kind":%q,"v":1,%s}`, len(list), stamp, kind, more)
		e, err := event.Decode(raw)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, exchange.Push{Event: e, O: e.T, Sum: event.SumOf(raw)})
	}
	add(700, "rig.set", `"about":"rig-osier","body":{"name":"Osier truck"}`)
	add(700, "session.opened", `"about":"s-old","body":{"rig":"rig-osier","title":"Old gate"}`)
	for i := range old {
		start := now - 690*24*3600*1000 + int64(i)*120_000
		add(690, "arc.run", fmt.Sprintf(`"in":"s-old","at":%d,"body":{"rig":"rig-osier","start":%d,"stop":%d}`, start, start, start+60_000))
	}
	add(680, "session.closed", `"about":"s-old","body":{}`)
	add(0, "session.opened", `"about":"s-today","body":{"rig":"rig-osier","title":"Hopper lid"}`)
	add(0, "note.added", `"in":"s-today","body":{"text":"Hinge side first"}`)
	if _, err := s.Append(t.Context(), store.Batch{Crew: s.Crew(), Now: now, Events: list}); err != nil {
		t.Fatal(err)
	}
}

// onScreen reports whether a text can be read on the page.
func onScreen(text string) string {
	return fmt.Sprintf(`document.body.innerText.includes(%q)`, text)
}

// TestBrowserEarly: a phone that joins a crew with a long journal shows today's session
// and its rig before the rest has come, says so, goes on with it after it was killed,
// and has all of it in the end.
func TestBrowserEarly(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	dir, app := serving(t)
	const old = 2300
	longHistory(t, app.store, old)
	front := &earlyOnly{next: app.http.Handler, letGo: make(chan struct{}), held: make(chan string, 1)}
	app.http.Handler = front
	defer front.release()
	phone := &device{profile: filepath.Join(dir, "phone")}
	phone.start(ctx, t, app)
	const coming = "Older entries are still coming"
	look := func() {
		t.Helper()
		phone.show(ctx, t, app, "/book")
		phone.wait(ctx, t, onScreen("Hopper lid"))
		phone.wait(ctx, t, onScreen(coming))
		phone.show(ctx, t, app, "/session/s-today")
		phone.wait(ctx, t, onScreen("Hinge side first")+" && "+onScreen(coming))
		phone.show(ctx, t, app, "/rigs")
		phone.wait(ctx, t, onScreen("Osier truck")+" && "+onScreen(coming))
	}
	select {
	case <-front.held:
	case <-ctx.Done():
		t.Fatal("the phone never gets to its pull")
	}
	look()
	phone.browser.Kill()
	phone.open(ctx, t, app)
	look()
	var now held
	if phone.ask(ctx, t, `kerfside.stateHash()`, &now); now.Events >= old {
		t.Errorf("the phone holds %d entries already: this shows nothing", now.Events)
	}
	phone.ask(ctx, t, `kerfside.journal.tap({ kind: "note.added", in: "s-today", body: { text: "while it goes on" } }).then(({ written }) => written)`, new(bool))
	front.release()
	phone.holds(ctx, t, old+6)
	phone.wait(ctx, t, `!`+onScreen(coming))
	phone.wait(ctx, t, fmt.Sprintf(`kerfside.journal.read(["now"]).then(({ views }) => views.now.rigs.find(({ rig }) => rig === "rig-osier").ms === %d)`, old*60_000))
	if faults := phone.page.Faults(); len(faults) > 0 {
		t.Errorf("the page complained: %v", faults)
	}
}

// show opens a screen.
func (d *device) show(ctx context.Context, t testing.TB, app *App, path string) {
	t.Helper()
	if err := d.page.Open(ctx, app.URL()+path); err != nil {
		t.Fatal(err)
	}
	d.wait(ctx, t, `globalThis.kerfside?.home.then(() => true)`)
}
