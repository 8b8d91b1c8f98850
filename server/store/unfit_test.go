package store_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestUnfit: whoever starts a server on a database that cannot be opened is told
// what is wrong and what to do, never that something went wrong inside.
func TestUnfit(t *testing.T) {
	root := os.Geteuid() == 0 // who may write everywhere
	for name, c := range map[string]struct {
		spoil func(t *testing.T, path string)
		says  string
		skip  bool
	}{
		"in use":        {spoil: func(t *testing.T, path string) { storetest.Open(t, path) }, says: "in use by another kerfside"},
		"no folder":     {spoil: func(t *testing.T, path string) { os.Remove(filepath.Dir(path)) }, says: "no folder"},
		"a folder":      {spoil: func(t *testing.T, path string) { os.Mkdir(path, 0o700) }, says: "is a folder"},
		"no database":   {spoil: func(t *testing.T, path string) { os.WriteFile(path, []byte(strings.Repeat("shop notes ", 400)), 0o600) }, says: "damaged"},
		"locked folder": {spoil: func(t *testing.T, path string) { os.Chmod(filepath.Dir(path), 0o500) }, says: "cannot be written", skip: root},
		"locked file": {spoil: func(t *testing.T, path string) {
			storetest.Open(t, path).Close()
			os.Mkdir(path+"-wal", 0o700) // SQLite cannot open its log, whoever asks
			os.WriteFile(filepath.Join(path+"-wal", "x"), nil, 0o600)
		}, says: "cannot be written"},
		"newer": {spoil: func(t *testing.T, path string) {
			storetest.Open(t, path).Close()
			if _, err := storetest.Raw(t, path).Exec(`PRAGMA user_version = 999`); err != nil {
				t.Error(err)
			}
		}, says: "newer kerfside"},
	} {
		t.Run(name, func(t *testing.T) {
			if c.skip {
				t.Skip("this user may write everywhere")
			}
			path := filepath.Join(t.TempDir(), "sub", "journal.db")
			if err := os.Mkdir(filepath.Dir(path), 0o700); err != nil {
				t.Fatal(err)
			}
			c.spoil(t, path)
			s, err := store.Open(path, store.Options{})
			if err == nil {
				s.Close()
				t.Fatal("it was opened")
			}
			p := problem.From(err)
			if p.Kind == problem.Internal || !strings.Contains(p.Msg, c.says) || p.Hint == "" {
				t.Errorf("it says %q, %q; want %q", p.Msg, p.Hint, c.says)
			}
		})
	}
}

// TestReadOnlyDisk: of a disk that is mounted read-only the words speak.
func TestReadOnlyDisk(t *testing.T) {
	const sys = "/proc/sys" // writable for nobody who would make files there
	if _, err := os.Stat(sys); err != nil {
		t.Skip("there is no such folder here")
	}
	_, err := store.Open(filepath.Join(sys, "journal.db"), store.Options{})
	if p := problem.From(err); err == nil || p.Kind == problem.Internal || p.Hint == "" {
		t.Errorf("it says %v", err)
	}
}

// TestCommandsOnAFullDisk: a command beside the server says that the disk is full.
func TestCommandsOnAFullDisk(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	s := storetest.Open(t, path)
	d, _ := storetest.Join(t, s.Access, storetest.Crew, store.Owner, "phone-a")
	a, err := store.OpenAccess(path)
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	if err := store.LimitPagesOf(a, 1); err != nil {
		t.Fatal(err)
	}
	long := strings.Repeat("x", 40)
	var refused error
	for range 500 {
		if _, refused = a.AddCrew(long, now); refused != nil {
			break
		}
	}
	for what, err := range map[string]error{
		"new crew": refused,
		"audit": func() (err error) {
			for i := 0; i < 500 && err == nil; i++ {
				err = a.Audit(d.Crew, store.AuditLine{At: now, What: store.Exported, More: long})
			}
			return err
		}(),
	} {
		if p := problem.From(err); err == nil || p.Kind != problem.DiskFull || !strings.Contains(p.Msg, "full") || p.Hint == "" {
			t.Errorf("%s: it says %v", what, err)
		}
	}
}
