package main

import (
	"context"
	"encoding/json"
	"log/slog"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// said is a log that passes its messages on, to be waited for.
type said chan string

func (s said) Enabled(context.Context, slog.Level) bool { return true }
func (s said) WithAttrs([]slog.Attr) slog.Handler       { return s }
func (s said) WithGroup(string) slog.Handler            { return s }
func (s said) Handle(_ context.Context, r slog.Record) error {
	s <- r.Message
	return nil
}

// yard makes a database of some pages and returns its bytes too.
func yard(t *testing.T) (path string, bytes []byte) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "yard.db")
	s, err := store.Open(path, store.Options{Crew: storetest.Crew})
	if err != nil {
		t.Fatal(err)
	}
	b := store.Batch{Crew: storetest.Crew, Now: storetest.Now, Events: storetest.Events(t, "phonea", 100)}
	if _, err := s.Append(t.Context(), b); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if bytes, err = os.ReadFile(path); err != nil {
		t.Fatal(err)
	}
	return path, bytes
}

// TestCheckAfterAnUncleanStop: the server serves at once, finds the damage on
// its own, logs it once, and its status says that it takes nothing new.
func TestCheckAfterAnUncleanStop(t *testing.T) {
	path, bytes := yard(t)
	bytes[len(bytes)-4096] ^= 0xFF // the kind of the last page
	if err := os.WriteFile(path, bytes, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path+".open", nil, 0o600); err != nil { // as a kill leaves it
		t.Fatal(err)
	}
	log := make(said, 100)
	app := &App{Addr: "localhost:0", DB: path, Log: slog.New(log)}
	if err := app.Open(); err != nil {
		t.Fatal(err)
	}
	for text := ""; !strings.HasPrefix(text, "the database is damaged"); text = <-log {
	}
	reply, err := http.Get(app.URL() + "/api/status")
	if err != nil {
		t.Fatal(err)
	}
	defer reply.Body.Close()
	var status struct {
		Writing bool
		Why     string
	}
	if err := json.NewDecoder(reply.Body).Decode(&status); err != nil || status.Writing || status.Why != "damaged" {
		t.Errorf("status = %+v, %v", status, err)
	}
	if err := app.Close(); err != nil {
		t.Error(err)
	}
	close(log)
	for text := range log {
		t.Errorf("it also says %q", text)
	}
}

// TestNightlyCheck: a damaged page is found in the night, by a server that was
// never asked for it, and no backup takes the place of a sound one.
func TestNightlyCheck(t *testing.T) {
	path, bytes := yard(t)
	bytes[len(bytes)-4096] ^= 0xFF
	if err := os.WriteFile(path, bytes, 0o600); err != nil {
		t.Fatal(err)
	}
	found := 0
	s, err := store.Open(path, store.Options{OnDamage: func(error) { found++ }})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	n := &nightly{store: s, db: path, dir: path + ".backups", log: slog.New(slog.DiscardHandler)}
	n.tick(t.Context(), time.Date(2026, 3, 3, 3, 0, 0, 0, time.UTC))
	n.tick(t.Context(), time.Date(2026, 3, 4, 3, 0, 0, 0, time.UTC))
	if found != 1 || s.Refuses() != "damaged" {
		t.Errorf("found %d times, refuses %q", found, s.Refuses())
	}
	if made, err := store.Copies(n.db, n.dir); err != nil || len(made) != 0 {
		t.Errorf("backups of a damaged database: %v, %v", made, err)
	}
}
