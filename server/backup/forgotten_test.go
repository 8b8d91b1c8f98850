package backup_test

import (
	"path/filepath"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/backup"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestRestoreBringsNobodyBack: a backup from before a phone was forgotten brings back
// neither its entries nor its place in the crew, also on a machine that knows of it
// from the folder of the backups alone.
func TestRestoreBringsNobodyBack(t *testing.T) {
	s, path, _ := storetest.Filled(t, 6)
	storetest.Join(t, s.Access, storetest.Crew, store.Owner, "boss")
	_, token := storetest.Join(t, s.Access, storetest.Crew, store.Member, "phonea")
	dir := filepath.Join(t.TempDir(), "copies")
	b, err := backup.Make(t.Context(), path, dir, night)
	if err != nil {
		t.Fatal(err)
	}
	if _, left, err := s.Forget(t.Context(), storetest.Crew, "phonea", "boss", storetest.Now+1, 100); err != nil || left != 0 {
		t.Fatalf("%d left, %v", left, err)
	}
	if _, err := backup.Make(t.Context(), path, dir, night.AddDate(0, 0, 1)); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	for _, to := range []string{path, filepath.Join(t.TempDir(), "yard.db")} {
		if _, err := backup.Restore(t.Context(), to, b.File, night.AddDate(0, 0, 2)); err != nil {
			t.Fatal(err)
		}
		again := storetest.Open(t, to)
		if _, err := again.DeviceOf(t.Context(), token); problem.KindOf(err) != problem.NoToken {
			t.Errorf("%s: its token: %v", to, err)
		}
		rows, err := again.After(t.Context(), storetest.Crew, 0, 100, 1<<20)
		if err != nil || len(rows) != 6 {
			t.Fatalf("%d rows, %v", len(rows), err)
		}
		for _, r := range rows {
			if !r.Erased {
				t.Errorf("%s: arrival %d is %s", to, r.N, r.Raw)
			}
		}
	}
}
