package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/server/backup"
	"kerfside/server/store"
)

// appendNote stores a note of phone-a and returns it.
func appendNote(t *testing.T, app *App, text string) event.Event {
	t.Helper()
	e, err := event.Decode([]byte(`{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"phone-a","kind":"note.added","v":1,"body":{"text":"` + text + `"}}`))
	if err != nil {
		t.Fatal(err)
	}
	batch := store.Batch{Crew: app.store.Crew(), Now: time.Now().UnixMilli(), Events: []exchange.Push{{Event: e, O: e.T, Sum: event.SumOf(e.Raw)}}}
	if _, err := app.store.Append(t.Context(), batch); err != nil {
		t.Fatal(err)
	}
	return e
}

// TestEraseBesideTheServer: the command erases while the server runs, and names
// the backups that still hold the entry.
func TestEraseBesideTheServer(t *testing.T) {
	app := openApp(t, t.TempDir())
	defer app.Close()
	e := appendNote(t, app, "the wrong customer")
	now := time.Now()
	b, err := backup.Make(t.Context(), app.DB, app.DB+".backups", now)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := program.Run([]string{"erase", e.ID, "-db", app.DB, "-why", "privacy"}, &out); err != nil || !strings.Contains(out.String(), b.File) {
		t.Errorf("erase says %q, %v; want the backup %s named", out.String(), err, b.File)
	}
	if err := app.store.NoteErasures(t.Context()); err != nil {
		t.Fatal(err)
	}
	rows, err := app.store.After(t.Context(), app.store.Crew(), 0, 10, 1<<20)
	if err != nil || len(rows) != 1 || !rows[0].Erased {
		t.Errorf("the server holds %+v, %v", rows, err)
	}
	if list, err := os.ReadFile(app.DB + ".erased"); err != nil || !strings.Contains(string(list), "privacy") || strings.Contains(string(list), "customer") {
		t.Errorf("the list is %s, %v", list, err)
	}
	if said, err := crewSays(t, app, "audit"); err != nil || !strings.Contains(said, "erased") || !strings.Contains(said, e.ID) {
		t.Errorf("crew audit says %q, %v", said, err)
	}
	if err := program.Run([]string{"erase", "-db", app.DB}, &out); problem.KindOf(err) != problem.Missing {
		t.Errorf("erasing nothing: %v", err)
	}
	if err := program.Run([]string{"erase", e.ID, "-db", app.DB}, &out); problem.KindOf(err) != problem.Conflict {
		t.Errorf("erasing it twice: %v", err)
	}
}
