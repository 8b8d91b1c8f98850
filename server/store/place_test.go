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

// takeAway are the ways to lose a database under a running server.
var takeAway = map[string]func(t *testing.T, path string){
	"removed": func(t *testing.T, path string) { must(t, os.Remove(path)) },
	"all removed": func(t *testing.T, path string) {
		must(t, os.Remove(path), os.Remove(path+"-wal"), os.Remove(path+"-shm"))
	},
	"log removed": func(t *testing.T, path string) { must(t, os.Remove(path+"-wal")) },
	"moved":       func(t *testing.T, path string) { must(t, os.Rename(path, path+".moved")) },
	"moved behind a link": func(t *testing.T, path string) {
		must(t, os.Rename(path, path+".moved"), os.Symlink(path+".moved", path))
	},
	"a folder there": func(t *testing.T, path string) { must(t, os.Rename(path, path+".moved"), os.Mkdir(path, 0o700)) },
	"emptied":        func(t *testing.T, path string) { must(t, os.Truncate(path, 0)) },
	"a copy of itself": func(t *testing.T, path string) {
		data, err := os.ReadFile(path)
		must(t, err, os.WriteFile(path+".copy", data, 0o600), os.Rename(path+".copy", path))
	},
	"replaced": func(t *testing.T, path string) {
		other := filepath.Join(t.TempDir(), "other.db")
		open(t, other).Close()
		must(t, os.Rename(other, path))
	},
}

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// TestTakenAway: a store whose files are not in their place acknowledges nothing
// more, says so, and what it held can be brought back.
func TestTakenAway(t *testing.T) {
	for name, take := range takeAway {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "journal.db")
			told := make(chan error, 2)
			s, err := store.Open(path, store.Options{Crew: storetest.Crew, OnFatal: func(err error) { told <- err }})
			must(t, err)
			if _, err := s.Append(t.Context(), batch(t, "phonea", 7)); err != nil {
				t.Fatal(err)
			}
			take(t, path)
			if acks, err := s.Append(t.Context(), batch(t, "phoneb", 1)); err == nil {
				t.Errorf("acknowledged %v", acks)
			}
			if _, err := s.Invite(storetest.Crew, store.Member, "", storetest.Now); err == nil {
				t.Error("an invitation was made")
			}
			if s.Refuses() != "disk" {
				t.Fatalf("it refuses %q, want all, as without its disk", s.Refuses())
			}
			if err := <-told; !errors.Is(err, store.ErrReplaced) {
				t.Errorf("told %v", err)
			}
			lies, _ := os.ReadFile(path)
			err = s.Close()
			if p := problem.From(err); err == nil || !strings.Contains(p.Hint, path+".held") {
				t.Errorf("closing says %v", err)
			}
			if now, _ := os.ReadFile(path); name == "replaced" && string(now) != string(lies) {
				t.Error("the other database was changed")
			}
			if name == "removed" {
				if again, err := store.Open(path, store.Options{}); err == nil {
					again.Close()
					t.Error("an empty store was begun beside what the server held")
				}
			}
			if name == "a folder there" { // which a restore does not touch
				must(t, os.Remove(path))
			}
			if _, err := store.Restore(t.Context(), path, path+".held", night); err != nil {
				t.Fatal(err)
			}
			again := open(t, path)
			if state, ok := again.State(storetest.Crew); !ok || state.Max < 7 {
				t.Errorf("back are %d, %t", state.Max, ok)
			}
		})
	}
}

// TestPresentWithoutWrites: it is noticed also while nobody writes.
func TestPresentWithoutWrites(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	s := open(t, path)
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
