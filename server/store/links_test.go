//go:build unix

package store_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestLinkedStore: a link is no second door to a store that is in use, and what
// lies beside the file is found through it.
func TestLinkedStore(t *testing.T) {
	dir, elsewhere := t.TempDir(), t.TempDir()
	path, link := filepath.Join(dir, "journal.db"), filepath.Join(elsewhere, "link.db")
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	s := storetest.Open(t, link) // leads to nothing yet
	if _, err := os.Lstat(path); err != nil {
		t.Fatalf("the file was not made where the link leads: %v", err)
	}
	for _, name := range []string{path, link} {
		if second, err := store.Open(name, store.Options{}); err == nil {
			second.Close()
			t.Errorf("%s was opened a second time", name)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(link+".erased", nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if s, err := store.Open(link, store.Options{}); err == nil {
		s.Close()
		t.Error("a list of erasures beside the link was overlooked")
	} else if !strings.Contains(err.Error(), link+".erased") {
		t.Errorf("it says %v", err)
	}
}

// TestHardLink: a second name of the database is no second door, whichever is
// opened; nor is the same name written otherwise.
func TestHardLink(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	path, other := filepath.Join(dir, "journal.db"), filepath.Join(dir, "other.db")
	s := storetest.Open(t, path)
	for _, name := range []string{"journal.db", "./journal.db", "/" + path, filepath.Join("..", filepath.Base(dir), "journal.db")} {
		if second, err := store.Open(name, store.Options{}); err == nil {
			second.Close()
			t.Errorf("%s was opened a second time", name)
		} else if !strings.Contains(err.Error(), "in use") {
			t.Errorf("%s: it says %v", name, err)
		}
	}
	if err := os.Link(path, other); err != nil {
		t.Skip("this disk has no hard links")
	}
	for range 2 {
		if second, err := store.Open(other, store.Options{}); err == nil {
			second.Close()
			t.Error("a hard link was opened")
		} else if !strings.Contains(err.Error(), "second name") {
			t.Errorf("it says %v", err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Remove(other); err != nil {
		t.Fatal(err)
	}
	if err := storetest.Open(t, "/"+path).Close(); err != nil {
		t.Error(err)
	}
}
