package main

import (
	"bytes"
	"context"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// script writes a program that a hook can run.
func script(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "tell-me")
	if err := os.WriteFile(path, []byte("#!/bin/sh\n"+text+"\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestBackupFailureHook: where the folder of the backups cannot be made the command
// is told why, once an hour; where backups go well it is never run; and what it says as it
// fails itself stands in the log.
func TestBackupFailureHook(t *testing.T) {
	dir := t.TempDir()
	told := filepath.Join(dir, "told")
	var log bytes.Buffer
	n := &nightly{db: filepath.Join(dir, "yard.db"), dir: filepath.Join(dir, "copies"), log: slog.New(slog.NewTextHandler(&log, nil))}
	var err error
	if n.store, err = store.Open(n.db, store.Options{}); err != nil {
		t.Fatal(err)
	}
	defer n.store.Close()
	if n.hook, err = readFailureHook(script(t, `echo "$1 $KERFSIDE_DB $KERFSIDE_BACKUPS $KERFSIDE_REASON" >> "`+told+`"; test -e "`+dir+`/well" || { echo no mail here; exit 7; }`) + " owner;echo"); err != nil {
		t.Fatal(err)
	}
	lines := func() []string {
		text, _ := os.ReadFile(told) // not there before the first
		return strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	}
	night := time.Date(2026, 3, 2, 3, 0, 0, 0, time.UTC)
	n.tick(context.Background(), night)
	if got := lines(); got[0] != "" {
		t.Fatalf("the backup went well, and the command was told %q; log: %s", got, &log)
	}
	if err := os.RemoveAll(n.dir); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(n.dir, nil, 0o600); err != nil { // a file where the folder should be
		t.Fatal(err)
	}
	for _, c := range []struct {
		after time.Duration
		want  int
	}{{24 * time.Hour, 1}, {24*time.Hour + time.Minute, 1}, {25 * time.Hour, 2}} {
		n.tick(context.Background(), night.Add(c.after))
		got := lines()
		if want := "owner;echo " + n.db + " " + n.dir + " "; len(got) != c.want || !strings.HasPrefix(got[0], want) || len(got[0]) < len(want)+20 {
			t.Errorf("%v later the command was told %q, want %d lines that begin with %q and say why", c.after, got, c.want, want)
		}
	}
	if !strings.Contains(log.String(), "no mail here") || !strings.Contains(log.String(), "exit status 7") {
		t.Errorf("that the command failed is not in the log: %s", &log)
	}
	if err := os.WriteFile(filepath.Join(dir, "well"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	log.Reset()
	n.tick(context.Background(), night.Add(26*time.Hour))
	if !strings.Contains(log.String(), "the command for a failed backup was run") {
		t.Errorf("that it was run is not in the log: %s", &log)
	}
}

// A command that does not end is ended with the time that it is given.
func TestBackupFailureHookIsEnded(t *testing.T) {
	h, err := readFailureHook(script(t, "echo begun; exec sleep 3600"))
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancelled := make(chan error)
	go func() { cancelled <- h.run(ctx, "a.db", "copies", problem.New(problem.DiskFull, "", "no room", "")) }()
	cancel()
	if err := <-cancelled; err == nil {
		t.Error("it was ended, and that is no error")
	}
}

func TestBackupFailureHookRefused(t *testing.T) {
	plain := filepath.Join(t.TempDir(), "plain")
	if err := os.WriteFile(plain, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{" ", "no-such-program x", plain, t.TempDir()} {
		if _, err := readFailureHook(line); err == nil || problem.From(err).Hint == "" {
			t.Errorf("-on-backup-failure %q: %v, want what to do", line, err)
		}
	}
}
