//go:build unix

package backup_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/server/backup"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
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
	s := storetest.Open(t, path)
	if _, err := s.Append(t.Context(), storetest.Batch(t, "phonea", 5)); err != nil {
		t.Fatal(err)
	}
	if list := openToOthers(t, dir); len(list) > 0 {
		t.Errorf("of a new store others can open\n%s", strings.Join(list, "\n"))
	}
	if _, err := backup.Make(t.Context(), path, backups, night); err != nil {
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
	s = storetest.Open(t, path)
	if _, err := s.Append(t.Context(), storetest.Batch(t, "phoneb", 5)); err != nil {
		t.Fatal(err)
	}
	if err := backup.Tighten(path, backups); err != nil {
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
