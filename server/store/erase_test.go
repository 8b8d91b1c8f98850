package store_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// rowAt returns arrival n as the store hands it out.
func rowAt(t *testing.T, s *store.Store, n int64) store.Row {
	t.Helper()
	rows, err := s.After(t.Context(), storetest.Crew, n-1, 1, 1<<20)
	if err != nil || len(rows) != 1 {
		t.Fatalf("arrival %d: %v, %v", n, rows, err)
	}
	return rows[0]
}

// TestEraseBesideTheServer: what another process erases is handed out as its stub
// at the next look, keeps its place in the chain, is not damage, does not come
// back by a push, and stands nowhere in the database's file.
func TestEraseBesideTheServer(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yard.db")
	s := storetest.Open(t, path)
	events := storetest.Batch(t, "phonea", 5)
	if _, err := s.Append(t.Context(), events); err != nil {
		t.Fatal(err)
	}
	was := rowAt(t, s, 3)
	beside, err := store.OpenAccess(path)
	if err != nil {
		t.Fatal(err)
	}
	defer beside.Close()
	if _, err := beside.Erase(t.Context(), storetest.Crew, "nobody", "", "", 1); problem.KindOf(err) != problem.NotFound {
		t.Errorf("erasing what is not there: %v", err)
	}
	if done, err := beside.Erase(t.Context(), storetest.Crew, was.ID, "", "wrong", 1); err != nil || done.Entries != 1 {
		t.Fatalf("erase: %+v, %v", done, err)
	}
	if err := s.NoteErasures(t.Context()); err != nil {
		t.Fatal(err)
	}
	check := func(when string) {
		t.Helper()
		row := rowAt(t, s, 3)
		if e, err := event.Decode(row.Raw); err != nil || e.Kind != event.ErasedKind || !row.Erased || row.Sum != was.Sum || row.O != was.O || row.Chain != was.Chain {
			t.Errorf("%s: %s, %+v, %v", when, row.Raw, row, err)
		}
		if bad := s.Damaged(storetest.Crew); len(bad) > 0 {
			t.Errorf("%s: %v count as damaged", when, bad)
		}
	}
	check("after the erasure")
	acks, err := s.Append(t.Context(), events)
	if err != nil || acks[2].Conflict || acks[2].N != 3 {
		t.Errorf("the bytes again: %+v, %v", acks, err)
	}
	check("after the bytes came again")
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := beside.Close(); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(path)
	if err != nil || bytes.Contains(file, was.Raw) {
		t.Errorf("the database's file holds the bytes, %v", err)
	}
}
