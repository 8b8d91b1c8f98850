package backup_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/backup"
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
		storetest.Open(t, other).Close()
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
			if _, err := s.Append(t.Context(), storetest.Batch(t, "phonea", 7)); err != nil {
				t.Fatal(err)
			}
			take(t, path)
			if acks, err := s.Append(t.Context(), storetest.Batch(t, "phoneb", 1)); err == nil {
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
			if _, err := backup.Restore(t.Context(), path, path+".held", night); err != nil {
				t.Fatal(err)
			}
			again := storetest.Open(t, path)
			if state, ok := again.State(storetest.Crew); !ok || state.Max < 7 {
				t.Errorf("back are %d, %t", state.Max, ok)
			}
		})
	}
}
