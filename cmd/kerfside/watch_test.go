package main

import (
	"context"
	"errors"
	"io"
	"log/slog"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/metrics"
	"kerfside/server/store"
)

// told is what an address of this machine answers, which has to be 200.
func told(t *testing.T, address, path string) string {
	t.Helper()
	reply, err := http.Get("http://" + address + path)
	if err != nil {
		t.Fatal(err)
	}
	defer reply.Body.Close()
	text, err := io.ReadAll(reply.Body)
	if err != nil || reply.StatusCode != http.StatusOK {
		t.Fatalf("%s%s: %s %s, %v", address, path, reply.Status, text, err)
	}
	return string(text)
}

func TestWatch(t *testing.T) {
	app := &App{Addr: "localhost:0", Watch: "127.0.0.1:0", DB: filepath.Join(t.TempDir(), "kerfside.db"), Log: slog.New(slog.DiscardHandler)}
	for range 2 { // it goes and comes with the app, at the same port
		if err := app.Open(); err != nil {
			t.Fatal(err)
		}
		if health := told(t, app.Watch, "/healthz"); health != "ok\n" {
			t.Errorf("/healthz says %q", health)
		}
		told(t, app.Addr, "/api/status")
		text := told(t, app.Watch, "/metrics")
		for _, line := range []string{"\nkerfside_writing 1\n", "\nkerfside_backup_failures_total 0\n", "\nprocess_start_time_seconds ", `kerfside_http_requests_total{route="/api/status",method="GET",code="200"} 1`} {
			if !strings.Contains(text, line) {
				t.Errorf("/metrics lacks %q: %s", line, text)
			}
		}
		second := &App{Addr: "localhost:0", Watch: app.Watch, DB: filepath.Join(t.TempDir(), "second.db"), Log: slog.New(slog.DiscardHandler)}
		if err := second.Open(); problem.KindOf(err) != problem.Busy {
			t.Errorf("a second server at the same address: %v", err)
			second.Close()
		}
		if err := app.Close(); err != nil {
			t.Fatal(err)
		}
		if _, err := http.Get("http://" + app.Watch + "/healthz"); err == nil {
			t.Error("it goes on after the app has ended")
		}
	}
	for _, address := range []string{"9480", "unix:/run/k.sock"} {
		bad := &App{Addr: "localhost:0", Watch: address, DB: filepath.Join(t.TempDir(), "bad.db"), Log: slog.New(slog.DiscardHandler)}
		if err := bad.Open(); problem.KindOf(err) != problem.Malformed {
			t.Errorf("-metrics %s: %v", address, err)
			bad.Close()
		}
	}
}

// The figures tell when the newest backup was made, and that the last one failed.
func TestWatchBackups(t *testing.T) {
	dir := t.TempDir()
	n := &nightly{db: filepath.Join(dir, "yard.db"), dir: filepath.Join(dir, "copies"), log: slog.New(slog.DiscardHandler)}
	var err error
	if n.store, err = store.Open(n.db, store.Options{}); err != nil {
		t.Fatal(err)
	}
	defer n.store.Close()
	var set metrics.Set
	n.count(&set)
	lacks := func(lines ...string) {
		t.Helper()
		text := string(set.Text())
		for _, line := range lines {
			if !strings.Contains(text, "\n"+line+"\n") {
				t.Errorf("the figures lack %q: %s", line, text)
			}
		}
	}
	if strings.Contains(string(set.Text()), "last_success") {
		t.Error("a backup is told before there was one")
	}
	night := time.Unix(1772420400, 0)
	n.tick(context.Background(), night)
	lacks("kerfside_backup_failing 0", "kerfside_backup_failures_total 0", "kerfside_backup_last_success_timestamp_seconds 1.7724204e+09")
	aside := filepath.Join(dir, "aside")
	if err := errors.Join(os.Rename(n.dir, aside), os.WriteFile(n.dir, nil, 0o600)); err != nil {
		t.Fatal(err)
	}
	n.tick(context.Background(), night.Add(24*time.Hour))
	lacks("kerfside_backup_failing 1", "kerfside_backup_failures_total 1")
	if err := errors.Join(os.Remove(n.dir), os.Rename(aside, n.dir)); err != nil {
		t.Fatal(err)
	}
	n.tick(context.Background(), night.Add(26*time.Hour))
	lacks("kerfside_backup_failing 0", "kerfside_backup_failures_total 1", "kerfside_backup_last_success_timestamp_seconds 1.772514e+09")
}
