package backup_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/backup"
	"kerfside/server/store/storetest"
)

// TestBackupOfWhatCannotBeOpened: it is the database that is to blame, not the
// folder of the copies, and there is still a way to a copy.
func TestBackupOfWhatCannotBeOpened(t *testing.T) {
	path, dir := filepath.Join(t.TempDir(), "journal.db"), t.TempDir()
	storetest.Open(t, path).Close()
	if err := os.MkdirAll(filepath.Join(path+"-wal", "x"), 0o700); err != nil { // SQLite cannot open its log, as on a read-only disk
		t.Fatal(err)
	}
	_, err := backup.Make(t.Context(), path, dir, night)
	if p := problem.From(err); err == nil || p.Field != "db" || !strings.Contains(p.Msg, path) || !strings.Contains(p.Hint, "copy "+path) || strings.Contains(p.Msg, dir) {
		t.Errorf("it says %v", err)
	}
	if left, _ := os.ReadDir(dir); len(left) > 1 { // the folder of pictures may be there
		t.Errorf("it left %v", left)
	}
}

// TestBackupOfAnotherProgramsDatabase: no copy of it is called a backup.
func TestBackupOfAnotherProgramsDatabase(t *testing.T) {
	path := filepath.Join(t.TempDir(), "other.db")
	if _, err := storetest.Raw(t, path).Exec(`CREATE TABLE other (x)`); err != nil {
		t.Fatal(err)
	}
	_, err := backup.Make(t.Context(), path, t.TempDir(), night)
	if p := problem.From(err); err == nil || p.Kind != problem.Refused || !strings.Contains(p.Msg, "not kept") {
		t.Errorf("it says %v", err)
	}
}

// TestRestoreIntoNoFolder: what stands in the way of a restore is named, and not
// called a store in use.
func TestRestoreIntoNoFolder(t *testing.T) {
	for name, path := range map[string]string{
		"no folder": filepath.Join(t.TempDir(), "sub", "journal.db"),
		"a folder":  t.TempDir(),
	} {
		_, err := backup.Restore(t.Context(), path, filepath.Join(t.TempDir(), "backup.db"), night)
		if p := problem.From(err); err == nil || p.Kind == problem.Internal || p.Hint == "" || strings.Contains(p.Msg, "in use") {
			t.Errorf("%s: it says %v", name, err)
		}
	}
}
