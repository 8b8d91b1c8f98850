//go:build unix

package store_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kerfside/server/store"
)

// openToOthers lists what is in dir that others have a right to, and is not
// within a folder that they cannot enter.
func openToOthers(t *testing.T, dir string) (list []string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		if info.Mode().Perm()&0o077 == 0 {
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		list = append(list, info.Mode().String()+" "+path)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// TestPrivate: nobody else on the machine reads the database, its log or its
// backups, also where an earlier version or a copy left them open.
func TestPrivate(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "journal.db")
	backups := filepath.Join(dir, "copies")
	s := open(t, path)
	if _, err := s.Append(t.Context(), batch(t, "phonea", 5)); err != nil {
		t.Fatal(err)
	}
	if list := openToOthers(t, dir); len(list) > 0 {
		t.Errorf("of a new store others can open\n%s", strings.Join(list, "\n"))
	}
	if _, err := store.MakeBackup(t.Context(), path, backups, night); err != nil {
		t.Fatal(err)
	}
	if list := openToOthers(t, dir); len(list) > 0 {
		t.Errorf("of a backup others can open\n%s", strings.Join(list, "\n"))
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{".photos", ".backups", ".lan"} {
		if err := os.Mkdir(path+name, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{".erased", ".before-20260101T000000Z", ".before-20260101T000000Z-wal", ".held", ".held-2", ".log-left", ".log-left-3", "/../copies/journal-20260101T000000Z.db.half", "/../copies/journal-20260101T000000Z.db.half-wal"} {
		if err := os.WriteFile(filepath.Clean(path+name), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	err := filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			err = os.Chmod(name, 0o644)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if list := openToOthers(t, dir); len(list) < 8 {
		t.Fatalf("nothing to mend but %v", list)
	}
	s = open(t, path)
	if _, err := s.Append(t.Context(), batch(t, "phoneb", 5)); err != nil {
		t.Fatal(err)
	}
	if err := store.TightenBackups(path, backups); err != nil {
		t.Fatal(err)
	}
	if list := openToOthers(t, dir); len(list) > 0 {
		t.Errorf("of a store that was open others can still open\n%s", strings.Join(list, "\n"))
	}
	for _, end := range []string{".half", ".half-wal"} { // the folder may be one that others use too
		if info, err := os.Stat(filepath.Join(backups, "journal-20260101T000000Z.db"+end)); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("of a backup that was broken off others can open %v, %v", info, err)
		}
	}
	if loose := store.Loose(path, backups); len(loose) > 0 {
		t.Errorf("called loose: %v", loose)
	}
}

// TestLinkedStore: a link is no second door to a store that is in use, and what
// lies beside the file is found through it.
func TestLinkedStore(t *testing.T) {
	dir, elsewhere := t.TempDir(), t.TempDir()
	path, link := filepath.Join(dir, "journal.db"), filepath.Join(elsewhere, "link.db")
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	s := open(t, link) // leads to nothing yet
	if _, err := os.Lstat(path); err != nil {
		t.Fatalf("the file was not made where the link leads: %v", err)
	}
	for _, name := range []string{path, link} {
		if second, err := store.Open(name, store.Options{}); err == nil {
			second.Close()
			t.Errorf("%s was opened a second time", name)
		}
	}
	if _, err := store.Restore(t.Context(), link, path, time.Now()); err == nil {
		t.Error("a store in use was restored through a link")
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
	s := open(t, path)
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
		if _, err := store.MakeBackup(t.Context(), other, filepath.Join(dir, "copies"), night); err == nil {
			t.Error("a backup was made by the name that has not the log")
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Remove(other); err != nil {
		t.Fatal(err)
	}
	if err := open(t, "/"+path).Close(); err != nil {
		t.Error(err)
	}
}
