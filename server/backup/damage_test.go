package backup_test

import (
	"bytes"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/backup"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestDamagedFile: a database that SQLite cannot read is refused with what to
// do, and doing it helps.
func TestDamagedFile(t *testing.T) {
	s, path, _ := storetest.Filled(t, 300)
	b, err := backup.Make(t.Context(), path, filepath.Join(t.TempDir(), "copies"), night)
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
	if r, err := backup.Restore(t.Context(), path, b.File, night); err != nil || r.Events != 300 {
		t.Fatalf("restore = %+v, %v", r, err)
	}
	if state, _ := storetest.Open(t, path).State(storetest.Crew); state.Max != 300 {
		t.Errorf("%d entries are back, want 300", state.Max)
	}
}

// TestOneFlippedByte turns over one byte anywhere in the file, again and again.
// Whatever is handed out has the bytes that were acknowledged under that number,
// and if anything is missing, somebody says so: the store as it opens or reads,
// its list of damaged entries, or the check of the nightly backup.
func TestOneFlippedByte(t *testing.T) {
	cases := 100
	if os.Getenv("KERFSIDE_LONG") != "" {
		cases = 500
	}
	s, path, _ := storetest.Filled(t, 150)
	want, err := s.After(t.Context(), storetest.Crew, 0, 1<<30, 1<<30)
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
	chance := rand.New(rand.NewPCG(3, 4))
	said, harmless := map[string]int{}, 0
	for i := range cases {
		flipped := append([]byte(nil), sound...)
		at := chance.IntN(len(flipped))
		flipped[at] ^= byte(1 << chance.IntN(8))
		hurt := filepath.Join(t.TempDir(), "yard.db")
		if err := os.WriteFile(hurt, flipped, 0o600); err != nil {
			t.Fatal(err)
		}
		who, missing := lookAt(t, hurt, want)
		switch {
		case who != "":
			said[who]++
		case missing:
			t.Errorf("case %d, byte %d: entries are missing and nobody says so", i, at)
		default:
			harmless++
		}
	}
	if len(said) == 0 {
		t.Error("no flipped byte was ever noticed")
	}
	t.Logf("tally: %d flipped bytes: %d without effect, noticed by %v", cases, harmless, said)
}

// lookAt opens a store with a flipped byte and returns who noticed, if anybody,
// and whether something is not handed out.
func lookAt(t *testing.T, path string, want []store.Row) (who string, missing bool) {
	t.Helper()
	s, err := store.Open(path, store.Options{})
	if err != nil {
		return "opening", true
	}
	defer s.Close()
	rows, err := s.After(t.Context(), s.Crew(), 0, 1<<30, 1<<30)
	for i, r := range rows {
		if i >= len(want) || r.N != want[i].N || !bytes.Equal(r.Raw, want[i].Raw) {
			t.Errorf("%s hands out %+v", path, r.Arrival)
		}
	}
	missing = len(rows) < len(want)
	switch b, backupErr := backup.Make(t.Context(), path, path+".copies", night); {
	case err != nil:
		who = "reading"
	case len(s.Damaged(s.Crew())) > 0:
		who = "sums"
	case backupErr != nil || len(b.Damaged) > 0:
		who = "backup"
	}
	return who, missing
}
