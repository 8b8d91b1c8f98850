//go:build unix

package backup_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/server/backup"
	"kerfside/server/store/storetest"
)

// TestRestoreByALink: a store in use is not restored by another of its names.
func TestRestoreByALink(t *testing.T) {
	path, link := filepath.Join(t.TempDir(), "journal.db"), filepath.Join(t.TempDir(), "link.db")
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	storetest.Open(t, link)
	if _, err := backup.Restore(t.Context(), link, path, night); err == nil || !strings.Contains(err.Error(), "in use") {
		t.Errorf("a store in use was restored through a link: %v", err)
	}
}

// TestBackupByAHardLink: the log lies beside one name only, so no copy is made by
// the other.
func TestBackupByAHardLink(t *testing.T) {
	dir := t.TempDir()
	path, other := filepath.Join(dir, "journal.db"), filepath.Join(dir, "other.db")
	s := storetest.Open(t, path)
	if err := os.Link(path, other); err != nil {
		t.Skip("this disk has no hard links")
	}
	for range 2 {
		if _, err := backup.Make(t.Context(), other, filepath.Join(dir, "copies"), night); err == nil || !strings.Contains(err.Error(), "second name") {
			t.Errorf("a backup was made by the name that has not the log: %v", err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
