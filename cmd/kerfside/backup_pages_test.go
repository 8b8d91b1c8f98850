package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"kerfside/server/help"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// backupShell runs the blocks of the page on backups, on the database of a demo. The
// folder /mnt/backup is one of this test's.
type backupShell struct {
	*shell
	mnt string
}

func newBackupShell(t *testing.T) *backupShell {
	t.Helper()
	s := &backupShell{shell: newShell(t, map[string]string{"serve": "-addr localhost:0"}), mnt: t.TempDir()}
	s.run(t, "kerfside demo -db kerfside.db")
	return s
}

// yours puts what is this test's in the place of what the page says.
func (s *backupShell) yours(block string) string {
	return strings.NewReplacer("/mnt/backup", s.mnt, "standby:/var/lib/kerfside", s.mnt, "/var/lib/kerfside", s.mnt, "/usr/local/bin", s.mnt).Replace(block)
}

// entries is how many a database has, once it has been opened as the server does.
func (s *backupShell) entries(t *testing.T, path string) int64 {
	t.Helper()
	db, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	state, _ := db.State(db.Crew())
	return state.Max
}

// lose takes the database away with its log, as a broken disk does.
func (s *backupShell) lose(t *testing.T) {
	t.Helper()
	for _, end := range []string{"", "-wal", "-shm"} {
		if err := os.Rename(filepath.Join(s.dir, "kerfside.db"+end), filepath.Join(s.dir, "lost.db"+end)); err != nil && end == "" {
			t.Fatal(err)
		}
	}
}

// back fails unless the database holds all that the demo has.
func (s *backupShell) back(t *testing.T) {
	t.Helper()
	want := s.entries(t, filepath.Join(s.dir, "lost.db"))
	if got := s.entries(t, filepath.Join(s.dir, "kerfside.db")); got != want || got < 50 {
		t.Errorf("%d entries are back of %d", got, want)
	}
}

func TestPageBackups(t *testing.T) {
	s := newBackupShell(t)
	_, stop := s.serve(t, s.yours(help.Block("backups", "folder")), served)
	s.run(t, s.yours(help.Block("backups", "now"))) // while it runs
	stop()
	s.lose(t)
	s.run(t, s.yours(help.Block("backups", "restore")))
	s.back(t)
}

func TestPageForm(t *testing.T) {
	s := newBackupShell(t)
	path := storetest.AllReleased(t, "../..")[3].Unpack(t, s.dir)
	_, stop := s.serve(t, "kerfside serve -db kerfside.db", served)
	stop()
	if _, err := os.Stat(path + ".form-4"); err != nil {
		t.Fatal("no copy of the former form: ", err)
	}
	want := s.entries(t, path)
	if out := s.run(t, help.Block("backups", "form")); !strings.Contains(out, "Back in") {
		t.Errorf("it says %s", out)
	}
	if got := s.entries(t, path); got != want {
		t.Errorf("%d entries are back of %d", got, want)
	}
}

// sqlite3 is SQLite's own shell, as Debian packs it.
func TestPageSQLite(t *testing.T) {
	debianProgram(t, "sqlite3")
	s := newBackupShell(t)
	_, stop := s.serve(t, "kerfside serve -db kerfside.db", served)
	if out := s.run(t, help.Block("backups", "sqlite")); out != "ok\n" {
		t.Errorf("it says %s", out)
	}
	stop()
	s.lose(t)
	s.run(t, "kerfside restore -db kerfside.db copy.db")
	s.back(t)
}

// Litestream is built from its own sources by go run ./cmd/dev soak; it is too much
// for the other tests.
func TestPageStream(t *testing.T) {
	if _, err := exec.LookPath("litestream"); err != nil {
		t.Skip("NOT TESTED: litestream is missing")
	}
	s := newBackupShell(t)
	_, stop := s.serve(t, "kerfside serve -db kerfside.db", served)
	_, end := s.serve(t, s.yours(help.Block("backups", "stream")), regexp.MustCompile(`ltx file uploaded|snapshot complete|compaction complete`))
	s.run(t, `kerfside crew rename -db kerfside.db "Weir Lane Repair"`) // while both run
	end()
	stop()
	s.lose(t)
	s.run(t, s.yours(help.Block("backups", "unstream")))
	s.back(t)
	if crews := s.run(t, "kerfside crew list -db kerfside.db"); !strings.Contains(crews, "Weir Lane Repair") {
		t.Errorf("what was done while the copy went on is not in it: %s", crews)
	}
}

func TestPageStandby(t *testing.T) {
	debianProgram(t, "rsync")
	s := newBackupShell(t)
	if err := os.WriteFile(filepath.Join(s.dir, "kerfside.db.erased"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	s.run(t, s.yours(help.Block("backups", "standby")))
	_, stop := s.serve(t, s.yours(help.Block("backups", "takeover")), served)
	stop()
	want := s.entries(t, filepath.Join(s.dir, "kerfside.db"))
	if got := s.entries(t, filepath.Join(s.mnt, "kerfside.db")); got != want || got < 50 {
		t.Errorf("the stand-by has %d entries of %d", got, want)
	}
}

func TestPageWatch(t *testing.T) {
	debianProgram(t, "curl")
	s := newBackupShell(t)
	s.run(t, s.yours(help.Block("watch", "script")))
	at := freePort()
	here := func(block string) string { return strings.ReplaceAll(s.yours(block), "localhost:9480", at) }
	s.serve(t, here(help.Block("watch", "serve")), served)
	if out := s.run(t, "curl() { command curl --silent \"$@\"; }\n"+here(help.Block("watch", "health"))); out != "ok\n" {
		t.Errorf("/healthz says %s", out)
	}
	out := s.run(t, here(help.Block("watch", "figures")))
	page, err := os.ReadFile("../../server/help/watch.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range regexp.MustCompile(`kerfside_\w+`).FindAllString(string(page), -1) {
		with := regexp.MustCompile(`(?m)^` + name + `[ {]`)
		if !with.MatchString(out) && name != "kerfside_backup_last_success_timestamp_seconds" && name != "kerfside_refusals_total" && name != "kerfside_http_requests_total" {
			t.Errorf("the page tells of %s, which is not there", name) // those three need something to have happened
		}
	}
	hook, err := readFailureHook(filepath.Join(s.mnt, "tell-me"))
	if err != nil {
		t.Fatal(err)
	}
	mail := filepath.Join(t.TempDir(), "mail")
	if err := os.WriteFile(mail, []byte("#!/bin/sh\necho \"$@\" > \"$0.told\"; cat >> \"$0.told\"\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", filepath.Dir(mail)+string(os.PathListSeparator)+os.Getenv("PATH"))
	if err := hook.run(t.Context(), "yard.db", "/mnt/copies", os.ErrPermission); err != nil {
		t.Fatal(err)
	}
	if told, err := os.ReadFile(mail + ".told"); err != nil || !strings.Contains(string(told), "no backup in /mnt/copies owner@example.com\n") || !strings.Contains(string(told), "permission") {
		t.Errorf("the owner is told %q, %v", told, err)
	}
}
