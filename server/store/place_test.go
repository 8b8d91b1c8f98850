package store_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// TestPresentWithoutWrites: it is noticed also while nobody writes.
func TestPresentWithoutWrites(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	s := storetest.Open(t, path)
	if err := s.Present(); err != nil {
		t.Fatal(err)
	}
	must(t, os.Remove(path))
	if err := s.Present(); !errors.Is(err, store.ErrReplaced) || s.Refuses() == "" {
		t.Errorf("says %v, refuses for %q", err, s.Refuses())
	}
}

// TestRemains: an empty store is not begun where parts of another lie, unless
// that is said.
func TestRemains(t *testing.T) {
	for name, lay := range map[string]func(path string) error{
		"log":      func(path string) error { return os.WriteFile(path+"-wal", []byte("x"), 0o600) },
		"erased":   func(path string) error { return os.WriteFile(path+".erased", []byte("{}\n"), 0o600) },
		"pictures": func(path string) error { return os.MkdirAll(path+".photos/crew", 0o700) },
		"backup": func(path string) error {
			return errors.Join(os.Mkdir(path+".backups", 0o700), os.WriteFile(path+".backups/journal-20260101T000000Z.db", nil, 0o600))
		},
		"backup elsewhere": func(path string) error {
			dir := filepath.Join(filepath.Dir(path), "copies")
			return errors.Join(os.Mkdir(dir, 0o700), os.WriteFile(dir+"/journal-20260101T000000Z.db", nil, 0o600))
		},
		"put aside": func(path string) error { return os.WriteFile(path+".before-20260101T000000Z", nil, 0o600) },
		"empty database": func(path string) error {
			return errors.Join(os.WriteFile(path, nil, 0o600), os.WriteFile(path+"-wal", []byte("x"), 0o600))
		},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "journal.db")
			must(t, lay(path))
			o := store.Options{Backups: filepath.Join(filepath.Dir(path), "copies")}
			s, err := store.Open(path, o)
			if err == nil {
				s.Close()
				t.Fatal("it was begun")
			}
			if p := problem.From(err); p.Kind == problem.Internal || !strings.Contains(p.Hint, "kerfside restore") || !strings.Contains(p.Hint, "-begin-anew") {
				t.Errorf("it says %q, %q", p.Msg, p.Hint)
			}
			if info, err := os.Stat(path); err == nil && info.Size() > 0 {
				t.Error("a database was made all the same")
			}
			o.BeginAnew = true
			s, err = store.Open(path, o)
			if err != nil {
				t.Fatal(err)
			}
			must(t, s.Close())
			if s, err = store.Open(path, store.Options{Backups: o.Backups}); err != nil {
				t.Fatalf("once begun it does not open: %v", err)
			}
			must(t, s.Close())
		})
	}
}
