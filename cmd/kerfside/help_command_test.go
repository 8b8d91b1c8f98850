package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/cmd/internal/command"
	"kerfside/server/help"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestPageCommand runs what the page of the command line shows.
func TestPageCommand(t *testing.T) {
	s := newShell(t, nil)
	if said := s.run(t, help.Block("command", "version")); !strings.HasPrefix(said, thisVersion(t)) || !strings.Contains(said, "kerfside crew owner") {
		t.Errorf("version says %s", said)
	}
	if said := s.run(t, help.Block("command", "calc")); !strings.Contains(said, "cut-plan") || !strings.Contains(said, "Rests on:") || !strings.Contains(said, `"speed"`) || !strings.Contains(said, `"Cut 2: `) {
		t.Errorf("calc says %s", said)
	}
	db := servedDemo(t, s.dir)
	if said := s.run(t, help.Block("command", "json")); strings.Count(said, `"id"`) < 1 || !strings.Contains(said, `"same_disk"`) {
		t.Errorf("json says %s", said)
	}
	if said := s.run(t, help.Block("command", "status")); !strings.HasSuffix(said, "\nbacked up\n") {
		t.Errorf("status says %s", said)
	}
	if _, err := storetest.Raw(t, db).Exec(`UPDATE event SET raw = CAST(replace(CAST(raw AS TEXT), 'wall', 'wail') AS BLOB) WHERE n = 6`); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(filepath.Join(s.dir, "backups")); err != nil { // two in one second are refused
		t.Fatal(err)
	}
	if said := s.run(t, help.Block("command", "status")); !strings.HasSuffix(said, "something is damaged\n") {
		t.Errorf("with damage, status says %s", said)
	}
	s.run(t, help.Block("command", "notices"))
	if text, err := os.ReadFile(filepath.Join(s.dir, "notices.txt")); err != nil || !bytes.Contains(text, []byte("gorilla/mux")) {
		t.Errorf("notices.txt has %.100q, %v", text, err)
	}
}

// servedDemo makes the demo's database as a server leaves it.
func servedDemo(t *testing.T, dir string) (path string) {
	t.Helper()
	path = filepath.Join(dir, "kerfside.db")
	if err := demo(path, &bytes.Buffer{}); err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if err := s.Serve("http://localhost:8480"); err != nil {
		t.Fatal(err)
	}
	return path
}

// thisVersion is how the line of the built program begins.
func thisVersion(t *testing.T) string {
	return strings.TrimSpace(runBuilt(t, t.TempDir(), "version").out)
}

// TestPageCommandShells: each script lies where the page puts it.
func TestPageCommandShells(t *testing.T) {
	s := newShell(t, nil)
	for _, c := range []struct{ block, shell, path string }{
		{block: help.Block("command", "bash"), shell: "bash", path: ".local/share/bash-completion/completions/kerfside"},
		{block: help.Block("command", "zsh"), shell: "zsh", path: ".zfunc/_kerfside"},
		{block: help.Block("command", "fish"), shell: "fish", path: ".config/fish/completions/kerfside.fish"},
	} {
		s.run(t, c.block)
		if text, err := os.ReadFile(filepath.Join(s.dir, c.path)); err != nil || string(text) != runBuilt(t, s.dir, "completion", c.shell).out {
			t.Errorf("%s: %.100q, %v", c.path, text, err)
		}
	}
}

func TestPageCommandMan(t *testing.T) {
	if _, err := exec.LookPath("man"); err != nil {
		t.Skip("no man here")
	}
	s := newShell(t, nil)
	s.env = append(s.env, "MANPAGER=cat")
	if said := s.run(t, help.Block("command", "man")); !strings.Contains(said, "KERFSIDE(1)") || !strings.Contains(said, "EXIT STATUS") {
		t.Errorf("man shows %.300q", said)
	}
}

// TestPageCommandStatuses: the page tells each status in the words of the program.
func TestPageCommandStatuses(t *testing.T) {
	page, err := os.ReadFile("../../server/help/command.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range command.Statuses {
		if !bytes.Contains(page, fmt.Appendf(nil, "\n| %d | %s |\n", s.Code, s.Means)) {
			t.Errorf("the page has no line for %d: %s", s.Code, s.Means)
		}
	}
}
