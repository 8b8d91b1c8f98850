package backup_test

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/server/backup"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestRestoreIsCleansed: a backup from before an erasure, put back, is handed out
// without the entry, also where only the folder of the backups knows the list;
// and a picture with it stays away.
func TestRestoreIsCleansed(t *testing.T) {
	s, path, picture := storetest.Filled(t, 4)
	sha := filepath.Base(picture)
	e := tellOfPicture(t, s, "Qk3vZ0mJ8cW1xT5rLb2hYA", sha)
	dir := filepath.Join(t.TempDir(), "copies")
	b, err := backup.Make(t.Context(), path, dir, night)
	if err != nil {
		t.Fatal(err)
	}
	if done, err := s.Erase(t.Context(), storetest.Crew, e.ID, "", "", 1); err != nil || done.Picture != picture {
		t.Fatalf("erase: %+v, %v", done, err)
	}
	erased, err := s.IsErasedPicture(t.Context(), storetest.Crew, sha)
	if _, there := os.Stat(filepath.Join(path+".photos", picture)); !errors.Is(there, fs.ErrNotExist) || !erased || err != nil {
		t.Errorf("the picture after the erasure: %v, erased %v, %v", there, erased, err)
	}
	later, err := backup.Make(t.Context(), path, dir, night.AddDate(0, 0, 1))
	if err != nil || len(later.Damaged) > 0 {
		t.Fatalf("a backup afterwards: %+v, %v", later, err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	elsewhere := filepath.Join(t.TempDir(), "yard.db")
	for _, to := range []string{path, elsewhere} {
		if _, err := backup.Restore(t.Context(), to, b.File, night.AddDate(0, 0, 2)); err != nil {
			t.Fatal(err)
		}
		again := storetest.Open(t, to)
		if row := rowAt(t, again, 5); !row.Erased || bytes.Contains(row.Raw, []byte(sha)) {
			t.Errorf("restored to %s: %s", to, row.Raw)
		}
		if _, err := os.Stat(filepath.Join(to+".photos", picture)); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("the picture restored to %s: %v", to, err)
		}
	}
}

// tellOfPicture stores an entry that names a picture.
func tellOfPicture(t *testing.T, s *store.Store, id, sha string) event.Event {
	t.Helper()
	raw := []byte(`{"id":"` + id + `","t":"0199f3c0b4000000","device":"phonea","kind":"photo.added","v":1,"body":{"sha256":"` + sha + `"}}`)
	e, err := event.Decode(raw)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Append(t.Context(), store.Batch{Crew: storetest.Crew, Now: storetest.Now, Events: []exchange.Push{{Event: e, O: e.T, Sum: event.SumOf(raw)}}}); err != nil {
		t.Fatal(err)
	}
	return e
}

// TestPictureOfTwoEntries: a picture goes with the last entry that names it,
// whichever is erased first, also after a restore from before the erasures; and
// one that went is welcome again once an entry of another phone names it.
func TestPictureOfTwoEntries(t *testing.T) {
	ids := []string{"Qk3vZ0mJ8cW1xT5rLb2hYA", "Zk3vZ0mJ8cW1xT5rLb2hYA"}
	for _, order := range [][]string{{ids[0], ids[1]}, {ids[1], ids[0]}} {
		s, path, picture := storetest.Filled(t, 4)
		sha := filepath.Base(picture)
		for _, id := range ids {
			tellOfPicture(t, s, id, sha)
		}
		dir := filepath.Join(t.TempDir(), "copies")
		b, err := backup.Make(t.Context(), path, dir, night)
		if err != nil {
			t.Fatal(err)
		}
		look := func(when string, s *store.Store, path string, want bool) {
			t.Helper()
			erased, err := s.IsErasedPicture(t.Context(), storetest.Crew, sha)
			_, missing := os.Stat(filepath.Join(path+".photos", picture))
			if err != nil || erased == want || want != (missing == nil) {
				t.Errorf("%s first, %s: erased %v, %v, %v", order[0], when, erased, err, missing)
			}
		}
		restored := func(when string, want bool) {
			t.Helper()
			to := filepath.Join(t.TempDir(), "yard.db")
			if _, err := backup.Restore(t.Context(), to, b.File, night.AddDate(0, 0, 2)); err != nil {
				t.Fatal(err)
			}
			look("restored after "+when, storetest.Open(t, to), to, want)
		}
		for i, id := range order {
			want := ""
			if i == 1 {
				want = picture
			}
			if done, err := s.Erase(t.Context(), storetest.Crew, id, "", "", 1); err != nil || done.Picture != want {
				t.Errorf("erase %s: %+v, %v, want the picture %q", id, done, err, want)
			}
			look("after "+id, s, path, i == 0)
			if _, err := backup.Make(t.Context(), path, dir, night.AddDate(0, 0, i+3)); err != nil { // tells the folder what was erased
				t.Fatal(err)
			}
			restored(id, i == 0)
		}
		tellOfPicture(t, s, "Bk3vZ0mJ8cW1xT5rLb2hYA", sha)
		if erased, err := s.IsErasedPicture(t.Context(), storetest.Crew, sha); erased || err != nil {
			t.Errorf("named by a third entry: erased %v, %v", erased, err)
		}
	}
}

// rowAt returns arrival n as the store hands it out.
func rowAt(t *testing.T, s *store.Store, n int64) store.Row {
	t.Helper()
	rows, err := s.After(t.Context(), storetest.Crew, n-1, 1, 1<<20)
	if err != nil || len(rows) != 1 {
		t.Fatalf("arrival %d: %v, %v", n, rows, err)
	}
	return rows[0]
}
