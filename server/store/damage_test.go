package store_test

import (
	"os"
	"path/filepath"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestDamagedFile: a database that SQLite cannot read is refused with what to
// do, and doing it helps.
func TestDamagedFile(t *testing.T) {
	s, path, _ := filled(t, 300)
	b, err := store.MakeBackup(t.Context(), path, filepath.Join(t.TempDir(), "copies"), night)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	sound, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for name, at := range map[string]int{"first letter of the header": 0, "kind of the first page": 100} {
		flipped := append([]byte(nil), sound...)
		flipped[at] ^= 0xFF
		if err := os.WriteFile(path, flipped, 0o600); err != nil {
			t.Fatal(err)
		}
		if s, err := store.Open(path, store.Options{}); problem.KindOf(err) != problem.Refused {
			t.Errorf("%s: open = %v, %v", name, s, err)
		}
	}
	if r, err := store.Restore(t.Context(), path, b.File, night); err != nil || r.Events != 300 {
		t.Fatalf("restore = %+v, %v", r, err)
	}
	if state, _ := open(t, path).State(storetest.Crew); state.Max != 300 {
		t.Errorf("%d entries are back, want 300", state.Max)
	}
}
