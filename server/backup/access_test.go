package backup_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/backup"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestRestoreKeepsAccess: a restore brings entries back, not who might use them
// when the backup was made; also after a kill, when the newest of that is in the
// log alone.
func TestRestoreKeepsAccess(t *testing.T) {
	t.Run("closed", func(t *testing.T) { restoreKeepsAccess(t, false) })
	t.Run("killed", func(t *testing.T) { restoreKeepsAccess(t, true) })
}

func restoreKeepsAccess(t *testing.T, killed bool) {
	s, path, _ := storetest.Filled(t, 30)
	a := s.Access
	boss, bossToken := storetest.Join(t, a, storetest.Crew, store.Owner, "boss")
	lost, lostToken := storetest.Join(t, a, storetest.Crew, store.Member, "lost-phone")
	used := storetest.Invite(t, a, storetest.Crew, store.Owner)
	b, err := backup.Make(t.Context(), path, filepath.Join(t.TempDir(), "copies"), night)
	if err != nil {
		t.Fatal(err)
	}
	at := night.UnixMilli()
	if err := a.Revoke(storetest.Crew, lost.ID, boss.ID, at); err != nil {
		t.Fatal(err)
	}
	if err := a.Withdraw(storetest.Crew, used.ID, boss.ID, at); err != nil {
		t.Fatal(err)
	}
	_, newToken := storetest.Join(t, a, storetest.Crew, store.Member, "new-phone")
	young, err := a.AddCrew("Weir Lane", at)
	if err != nil {
		t.Fatal(err)
	}
	_, youngToken := storetest.Join(t, a, young, store.Owner, "third-truck")
	if _, err := a.AddCrew("Nobody yet", at); err != nil {
		t.Fatal(err)
	}
	lines, err := a.AuditLines(t.Context(), storetest.Crew, 100)
	if err != nil {
		t.Fatal(err)
	}
	if killed { // what a kill leaves is what lies there now
		left := filepath.Join(t.TempDir(), "yard.db")
		for _, end := range []string{"", "-wal"} {
			data, err := os.ReadFile(path + end)
			if err == nil {
				err = os.WriteFile(left+end, data, 0o600)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		path = left
	} else if err := s.Close(); err != nil {
		t.Fatal(err)
	}

	r, err := backup.Restore(t.Context(), path, b.File, night)
	if err != nil || !r.Access || r.Events != 30 {
		t.Fatalf("restore = %+v, %v", r, err)
	}
	a = storetest.Open(t, path).Access
	for name, token := range map[string]string{"boss": bossToken, "new-phone": newToken, "third-truck": youngToken} {
		if d, err := a.DeviceOf(t.Context(), token); err != nil || d.Name != name {
			t.Errorf("%s is %q, %v", name, d.Name, err)
		}
	}
	if _, err := a.DeviceOf(t.Context(), lostToken); problem.KindOf(err) != problem.Revoked {
		t.Errorf("the phone taken off since the backup: %v, want revoked", err)
	}
	if _, _, err := a.Enrol(store.Enrolment{Secret: used.Secret, Name: "thief", Device: "thief", Now: at}); problem.KindOf(err) != problem.NotFound {
		t.Errorf("an invitation withdrawn since the backup: %v, want not-found", err)
	}
	crews, err := a.Crews(t.Context())
	if err != nil || len(crews) != 2 || crews[1].ID != young {
		t.Errorf("crews are %+v, %v; want the old one and %s", crews, err, young)
	}
	if got, err := a.AuditLines(t.Context(), storetest.Crew, 100); err != nil || len(got) != len(lines) || got[0] != lines[0] {
		t.Errorf("the audit has %d lines, newest %+v, want %d and %+v; %v", len(got), got[0], len(lines), lines[0], err)
	}
}

// TestRestoreOverDamage: where the former store cannot be read, access is that of
// the backup, and the restore says so.
func TestRestoreOverDamage(t *testing.T) {
	s, path, _ := storetest.Filled(t, 30)
	_, token := storetest.Join(t, s.Access, storetest.Crew, store.Owner, "boss")
	b, err := backup.Make(t.Context(), path, filepath.Join(t.TempDir(), "copies"), night)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	for i, spoil := range []func() error{
		func() error { return os.WriteFile(path, []byte("no database at all"), 0o600) },
		func() error { return os.Truncate(path, 4096) },
		func() error { return os.Remove(path) },
	} {
		if err := spoil(); err != nil {
			t.Fatal(err)
		}
		r, err := backup.Restore(t.Context(), path, b.File, night.Add(time.Duration(i)*time.Minute))
		if err != nil || r.Access || r.Events != 30 {
			t.Fatalf("restore = %+v, %v", r, err)
		}
		s := storetest.Open(t, path)
		if d, err := s.DeviceOf(t.Context(), token); err != nil || d.Name != "boss" {
			t.Errorf("the owner of the backup is %q, %v", d.Name, err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
