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

// TestUncleanStop: a store that was not closed says so until a check has passed;
// opening and closing it for a moment does not make it clean.
func TestUncleanStop(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yard.db")
	unclean := func(want bool, check bool) {
		t.Helper()
		s, err := store.Open(path, store.Options{Crew: storetest.Crew})
		if err != nil {
			t.Fatal(err)
		}
		if s.Unclean() != want {
			t.Errorf("unclean = %t, want %t", s.Unclean(), want)
		}
		if check {
			if err := s.Check(t.Context()); err != nil || s.Unclean() {
				t.Errorf("check = %v, unclean afterwards: %t", err, s.Unclean())
			}
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	unclean(false, false)
	unclean(false, false)
	if err := killed(path, 0, 20, map[string]string{}); err != nil {
		t.Fatal(err)
	}
	unclean(true, false)
	access, err := store.OpenAccess(path)
	if err != nil {
		t.Fatal(err)
	}
	access.Close()
	unclean(true, true)
	unclean(false, false)
}

// TestCheckNotices turns over the first byte of each page, which names its kind
// or its next: the store does not open or the check finds it. From then on
// everything new is refused with what to do, what can be read is handed out, it
// is said once, and the next start checks again.
func TestCheckNotices(t *testing.T) {
	s, path, _ := storetest.Filled(t, 150)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	sound, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	const page = 4096
	opened, whole := 0, 0
	for at := page; at < len(sound); at += page {
		flipped := append([]byte(nil), sound...)
		flipped[at] ^= 0xFF
		hurt := filepath.Join(t.TempDir(), "yard.db")
		if err := os.WriteFile(hurt, flipped, 0o600); err != nil {
			t.Fatal(err)
		}
		said := 0
		s, err := store.Open(hurt, store.Options{OnDamage: func(error) { said++ }})
		if problem.KindOf(err) == problem.Refused {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		opened++
		for range 2 {
			if err := s.Check(t.Context()); !errors.Is(err, store.ErrUnsound) {
				t.Errorf("page %d: check = %v", at/page+1, err)
			}
		}
		_, err = s.Append(t.Context(), storetest.Batch(t, "afterw", 2))
		if p := problem.From(err); p == nil || p.Kind != problem.DiskFull || !strings.Contains(p.Hint, "kerfside restore") || p.Retry == 0 {
			t.Errorf("page %d: append = %+v", at/page+1, p)
		}
		if err := s.Serve("http://localhost:8480"); !errors.Is(err, store.ErrUnsound) {
			t.Errorf("page %d: another write = %v", at/page+1, err)
		}
		if s.Refuses() != "damaged" || said != 1 {
			t.Errorf("page %d: refuses %q, said %d times", at/page+1, s.Refuses(), said)
		}
		if rows, err := s.After(t.Context(), s.Crew(), 0, 1<<30, 1<<30); err == nil && len(rows) == 150 {
			whole++
		}
		if err := s.Close(); err != nil {
			t.Error(err)
		}
		again, err := store.Open(hurt, store.Options{})
		if err != nil || !again.Unclean() {
			t.Fatalf("page %d: opened again: %v", at/page+1, err)
		}
		again.Close()
	}
	if opened == 0 || whole == 0 {
		t.Errorf("%d damaged stores opened, %d of them handed out everything; want some of each", opened, whole)
	}
	t.Logf("tally: %d damaged pages found by a check", opened)
}

// TestDamageMet: SQLite meets the damage as it writes or reads, before any check.
func TestDamageMet(t *testing.T) {
	s, path, _ := storetest.Filled(t, 150)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	sound, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	written, read := 0, 0
	for at := 4096; at < len(sound); at += 4096 {
		flipped := append([]byte(nil), sound...)
		flipped[at] ^= 0xFF
		hurt := filepath.Join(t.TempDir(), "yard.db")
		if err := os.WriteFile(hurt, flipped, 0o600); err != nil {
			t.Fatal(err)
		}
		fatal := func(err error) { t.Errorf("a damaged page stopped the store: %v", err) }
		s, err := store.Open(hurt, store.Options{OnFatal: fatal})
		if err != nil {
			continue // TestCheckNotices looks at these
		}
		if _, err := s.After(t.Context(), s.Crew(), 0, 1<<30, 1<<30); store.IsDamage(err) {
			read++
		}
		if _, err := s.Append(t.Context(), storetest.Batch(t, "afterw", 20)); err != nil {
			written++
			if !errors.Is(err, store.ErrUnsound) || s.Refuses() != "damaged" {
				t.Errorf("page %d: append = %v, refuses %q", at/4096+1, err, s.Refuses())
			}
		}
		s.Close()
	}
	if written == 0 || read == 0 {
		t.Errorf("damage was met by %d writes and %d reads; want some of each", written, read)
	}
	if state, _ := storetest.Open(t, path).State(storetest.Crew); state.Max != 150 {
		t.Errorf("the sound store has %d entries", state.Max)
	}
}
