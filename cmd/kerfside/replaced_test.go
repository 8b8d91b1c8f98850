package main

import (
	"bytes"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kerfside/calc/problem"
)

// TestDatabaseTakenAway: a server whose database is removed stops within a minute
// and says what to do; then neither it nor the demo begins anew beside what is
// left, and a restore brings all back.
func TestDatabaseTakenAway(t *testing.T) {
	dir := t.TempDir()
	app := openApp(t, dir)
	if err := app.store.RenameCrew(app.store.Crew(), "Osier Ford Repair", 1); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(app.DB); err != nil {
		t.Fatal(err)
	}
	(&nightly{store: app.store, log: app.logger()}).tick(t.Context(), time.Now())
	if err := <-app.failed; err == nil {
		t.Fatal("it does not stop")
	}
	p := problem.From(replaced(app.DB, app.Close()))
	if !strings.Contains(p.Msg, "removed or replaced") || !strings.Contains(p.Hint, app.DB+".held") {
		t.Errorf("it says %q, %q", p.Msg, p.Hint)
	}
	again := &App{Addr: "localhost:0", DB: app.DB, Log: app.Log}
	if err := again.Open(); err == nil {
		again.Close()
		t.Fatal("an empty journal was begun")
	}
	if err := demo(app.DB, &bytes.Buffer{}); err == nil {
		t.Error("the demo was written beside what is left")
	}
	if err := restore(app.DB, app.DB+".held", false, &bytes.Buffer{}); err != nil {
		t.Fatal(err)
	}
	var log bytes.Buffer
	again.Log = slog.New(slog.NewTextHandler(&log, nil))
	if err := again.Open(); err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	if crew, err := again.store.CrewByID(t.Context(), again.store.Crew()); err != nil || crew.Name != "Osier Ford Repair" {
		t.Errorf("the crew is %+v, %v", crew, err)
	}
	if err := again.Close(); err != nil { // the night's check may log until then
		t.Fatal(err)
	}
	if !strings.Contains(log.String(), app.DB+".held") { // or a start beside another database would hide it
		t.Errorf("of what was held the log says nothing: %s", log.String())
	}
}

// TestDemoIsPrivate: the invented data too are for their user alone.
func TestDemoIsPrivate(t *testing.T) {
	db := filepath.Join(t.TempDir(), "demo.db")
	if err := demo(db, &bytes.Buffer{}); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(db); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the mode is %v, %v", info.Mode(), err)
	}
}
