package backup_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/backup"
	"kerfside/server/store/storetest"
)

// night is when these backups are made.
var night = time.Date(2026, 3, 14, 2, 30, 0, 0, time.UTC)

// TestBackupAndRestore: a copy made beside a running server brings every entry
// back to the byte, the picture too, and what was there is kept aside.
func TestBackupAndRestore(t *testing.T) {
	s, path, picture := storetest.Filled(t, 250)
	want, err := s.After(t.Context(), storetest.Crew, 0, 1<<30, 1<<30)
	if err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(t.TempDir(), "copies")
	b, err := backup.Make(t.Context(), path, dir, night)
	if err != nil || b.Events != 250 || b.Pictures != 1 || len(b.Damaged) != 0 || !b.SameDisk {
		t.Fatalf("backup = %+v, %v", b, err)
	}
	if info, err := os.Stat(b.File); err != nil || info.Mode().Perm() != 0o600 || filepath.Base(b.File) != "yard-20260314T023000Z.db" {
		t.Errorf("%s: %v, %v", b.File, info, err)
	}
	if err := s.NoteBackups(t.Context()); err != nil {
		t.Fatal(err)
	}
	if state, _ := s.State(storetest.Crew); state.BackedUp != 0 || state.SameDisk != 250 {
		t.Errorf("a copy on the same disk counts up to %d, and as one up to %d", state.BackedUp, state.SameDisk)
	}
	if _, err := s.Append(t.Context(), storetest.Batch(t, "phoneb", 7)); err != nil {
		t.Fatal(err)
	}
	if _, err := backup.Restore(t.Context(), path, b.File, night); problem.KindOf(err) != problem.Busy {
		t.Errorf("restored under a running server: %v", err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(path + ".photos"); err != nil {
		t.Fatal(err)
	}
	r, err := backup.Restore(t.Context(), path, b.File, night.Add(time.Hour))
	if err != nil || r.Events != 250 || r.Pictures != 1 {
		t.Fatalf("restore = %+v, %v", r, err)
	}
	if file, err := os.ReadFile(filepath.Join(path+".photos", picture)); err != nil || string(file) != "a picture" {
		t.Errorf("the picture is %q, %v", file, err)
	}
	again := storetest.Open(t, path)
	got, err := again.After(t.Context(), storetest.Crew, 0, 1<<30, 1<<30)
	if err != nil || len(got) != len(want) {
		t.Fatalf("%d rows, %v, want %d", len(got), err, len(want))
	}
	for i := range want {
		if !bytes.Equal(got[i].Raw, want[i].Raw) || got[i].Chain != want[i].Chain {
			t.Fatalf("row %d is %+v, want %+v", i+1, got[i], want[i])
		}
	}
	former := storetest.Open(t, r.Aside)
	if state, _ := former.State(storetest.Crew); state.Max != 257 {
		t.Errorf("kept aside: %d entries, want 257", state.Max)
	}
}

// TestBackupElsewhere: a copy on another file system counts for phones.
func TestBackupElsewhere(t *testing.T) {
	s, path, _ := storetest.Filled(t, 30)
	dir, err := os.MkdirTemp("/dev/shm", "kerfside-backup-")
	if err == nil {
		t.Cleanup(func() { os.RemoveAll(dir) })
	}
	if err != nil {
		dir = t.TempDir()
	}
	b, err := backup.Make(t.Context(), path, dir, night)
	if err != nil {
		t.Fatal(err)
	}
	if b.SameDisk {
		if os.Getenv("CI") == "true" {
			t.Fatal("no second file system to test with")
		}
		t.Skip("NOT TESTED: /dev/shm is no file system of its own here")
	}
	if err := s.NoteBackups(t.Context()); err != nil {
		t.Fatal(err)
	}
	if state, _ := s.State(storetest.Crew); state.BackedUp != 30 {
		t.Errorf("backed up to %d, want 30", state.BackedUp)
	}
}

// TestBackupOfDamage: an entry whose bytes went bad is told, and the rest is
// kept all the same.
func TestBackupOfDamage(t *testing.T) {
	_, path, _ := storetest.Filled(t, 10)
	if _, err := storetest.Raw(t, path).Exec(`UPDATE event SET raw = CAST(replace(CAST(raw AS TEXT), 'note', 'nope') AS BLOB) WHERE n = 6`); err != nil {
		t.Fatal(err)
	}
	b, err := backup.Make(t.Context(), path, t.TempDir(), night)
	if err != nil || b.Events != 10 || len(b.Damaged) != 1 {
		t.Errorf("backup = %+v, %v", b, err)
	}
}

// TestBackupOfABrokenHistory: a copy whose numbers do not add up is not kept.
func TestBackupOfABrokenHistory(t *testing.T) {
	for name, damage := range map[string]string{
		"missing row": `DELETE FROM event WHERE n = 4`,
		"other stamp": `UPDATE event SET o = '0000000000000001' WHERE n = 4`,
		"wrong count": `UPDATE crew SET max = 9`,
	} {
		_, path, _ := storetest.Filled(t, 10)
		if _, err := storetest.Raw(t, path).Exec(damage); err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		if b, err := backup.Make(t.Context(), path, dir, night); problem.KindOf(err) != problem.Refused {
			t.Errorf("%s: %+v, %v", name, b, err)
		}
		if left, err := os.ReadDir(dir); err != nil || len(left) != 0 {
			t.Errorf("%s left %v, %v", name, left, err)
		}
	}
}

// TestRestoreRefuses what is no backup, and changes nothing.
func TestRestoreRefuses(t *testing.T) {
	s, path, _ := storetest.Filled(t, 5)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	torn := filepath.Join(t.TempDir(), "torn.db")
	if err := os.WriteFile(torn, before[:len(before)/2], 0o600); err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{torn, filepath.Join(t.TempDir(), "not-there.db")} {
		if _, err := backup.Restore(t.Context(), path, file, night); problem.KindOf(err) != problem.Refused {
			t.Errorf("%s: %v", file, err)
		}
	}
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(after, before) {
		t.Errorf("the database changed, %v", err)
	}
	if left, _ := filepath.Glob(path + ".*"); strings.Contains(strings.Join(left, " "), "restoring") {
		t.Errorf("left behind: %v", left)
	}
}

// TestKept counts by hand: one backup each night for two years leaves the last 7
// nights, the last of 5 weeks and the last of 12 months.
func TestKept(t *testing.T) {
	var nights []time.Time
	for i := range 730 {
		nights = append(nights, night.AddDate(0, 0, -i))
	}
	keep := backup.Kept(nights)
	// 14 March 2026 is a Saturday: nights 8 to 14; then Sundays 1 March, 22 and
	// 15 February (8 March is among the nights, the week of the 14th too); then the
	// last of each month from February 2026 back to April 2025.
	want := map[string]bool{}
	for _, day := range strings.Fields(`2026-03-14 2026-03-13 2026-03-12 2026-03-11 2026-03-10 2026-03-09 2026-03-08
		2026-03-01 2026-02-22 2026-02-15
		2026-02-28 2026-01-31 2025-12-31 2025-11-30 2025-10-31 2025-09-30 2025-08-31 2025-07-31 2025-06-30 2025-05-31 2025-04-30`) {
		want[day] = true
	}
	for at := range keep {
		if day := at.Format(time.DateOnly); !want[day] {
			t.Errorf("%s is kept", day)
		}
	}
	if len(keep) != len(want) {
		t.Errorf("%d are kept, want %d", len(keep), len(want))
	}
}

// TestHalfBackupsAreSwept: what a backup left that was killed an hour ago or
// more goes with the next one; a younger one, another store's and what is no
// backup stay.
func TestHalfBackupsAreSwept(t *testing.T) {
	_, path, _ := storetest.Filled(t, 3)
	dir := t.TempDir()
	stay := []string{"yard-20260314T013001Z.db.half", "mill-20260313T023000Z.db.half", "yard-notes.db.half", "yard-20260313T023000Z.db.halfway"}
	for _, name := range append([]string{"yard-20260314T013000Z.db.half", "yard-20260313T023000Z.db.half-wal"}, stay...) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("half"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	b, err := backup.Make(t.Context(), path, dir, night)
	if err != nil {
		t.Fatal(err)
	}
	files, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range files {
		got = append(got, f.Name())
	}
	want := append([]string{filepath.Base(b.File), "photos"}, stay...)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("left are %v, want %v", got, want)
	}
}
