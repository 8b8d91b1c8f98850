package store_test

import (
	"path/filepath"
	"slices"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

const now = storetest.Now

func kindOf(err error) problem.Kind { return problem.KindOf(err) }

// TestRevokeBesideTheServer: another Access of the same file, as the command
// line has, revokes; the store that is open knows at once.
func TestRevokeBesideTheServer(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	s := storetest.Open(t, path)
	d, token := storetest.Join(t, s.Access, storetest.Crew, store.Member, "phone-a")
	beside, err := store.OpenAccess(path)
	if err != nil {
		t.Fatal(err)
	}
	defer beside.Close()
	if err := beside.Revoke(d.Crew, d.ID, "", now); err != nil {
		t.Fatal(err)
	}
	if _, err := s.DeviceOf(t.Context(), token); kindOf(err) != problem.Revoked {
		t.Errorf("DeviceOf after the revocation: %v, want revoked", err)
	}
	crew, err := beside.AddCrew("The other truck", now)
	if err != nil {
		t.Fatal(err)
	}
	b := storetest.Batch(t, "phoneb", 3)
	b.Crew = crew
	if acks, err := s.Append(t.Context(), b); err != nil || acks[2].N != 3 {
		t.Errorf("append to a crew added beside: %+v, %v", acks, err)
	}
	if rows, err := s.After(t.Context(), storetest.Crew, 0, 10, 1<<20); err != nil || len(rows) != 0 {
		t.Errorf("the first crew sees %d of them, %v", len(rows), err)
	}
}

// TestOpenAccessMakesAStore: the command line may come before the first start.
func TestOpenAccessMakesAStore(t *testing.T) {
	a, err := store.OpenAccess(filepath.Join(t.TempDir(), "journal.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	if crews, err := a.Crews(t.Context()); err != nil || len(crews) != 1 {
		t.Errorf("crews = %+v, %v, want one", crews, err)
	}
}

func TestLastOwner(t *testing.T) {
	a := onDisk(t).Access
	first, _ := storetest.Join(t, a, storetest.Crew, store.Owner, "phone-a")
	if err := a.ChangeDevice(first.Crew, first.ID, store.Change{Role: store.Member}, first.ID, now); kindOf(err) != problem.Refused {
		t.Errorf("the last owner as a member: %v, want refused", err)
	}
	if err := a.Revoke(first.Crew, first.ID, first.ID, now); kindOf(err) != problem.Refused {
		t.Errorf("the last owner revoked: %v, want refused", err)
	}
	second, _ := storetest.Join(t, a, storetest.Crew, store.Member, "phone-b")
	if err := a.ChangeDevice(second.Crew, second.ID, store.Change{Role: store.Owner}, first.ID, now); err != nil {
		t.Fatal(err)
	}
	if err := a.Revoke(first.Crew, first.ID, second.ID, now); err != nil {
		t.Errorf("one owner of two: %v", err)
	}
	if err := a.Revoke(second.Crew, second.ID, "", now); err != nil {
		t.Errorf("the last owner, by the command line: %v", err)
	}
}

// TestAccessOfAnotherCrew: what one crew asks of the ids of another finds nothing.
func TestAccessOfAnotherCrew(t *testing.T) {
	a := onDisk(t).Access
	theirs, token := storetest.Join(t, a, storetest.Crew, store.Member, "phone-a")
	v := storetest.Invite(t, a, storetest.Crew, store.Member)
	crew, err := a.AddCrew("Others", now)
	if err != nil {
		t.Fatal(err)
	}
	for name, err := range map[string]error{
		"rename": a.ChangeDevice(crew, theirs.ID, store.Change{Name: "x"}, "", now),
		"role":   a.ChangeDevice(crew, theirs.ID, store.Change{Role: store.Owner}, "", now),
		"revoke": a.Revoke(crew, theirs.ID, "", now),
	} {
		if kindOf(err) != problem.NotFound {
			t.Errorf("%s: %v, want not-found", name, err)
		}
	}
	if err := a.Withdraw(crew, v.ID, "", now); err != nil {
		t.Error(err)
	}
	if _, _, err := a.Enrol(store.Enrolment{Secret: v.Secret, Name: "b", Now: now}); err != nil {
		t.Errorf("another crew withdrew the invitation: %v", err)
	}
	mine, _ := storetest.Join(t, a, crew, store.Owner, theirs.ID)
	if mine.ID != theirs.ID {
		t.Error("ids of one crew tell of those of another")
	}
	if d, err := a.DeviceOf(t.Context(), token); err != nil || d.Crew != storetest.Crew {
		t.Errorf("their phone: %+v, %v", d, err)
	}
	list, err := a.Devices(t.Context(), crew)
	if err != nil || len(list) != 1 || list[0] != mine {
		t.Errorf("devices = %+v, %v, want only %+v", list, err, mine)
	}
}

func TestAudit(t *testing.T) {
	a := onDisk(t).Access
	v := storetest.Invite(t, a, storetest.Crew, store.Member)
	d, _, err := a.Enrol(store.Enrolment{Code: v.Code, Name: "Truck 1", Device: "phone-a", Now: now + 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, err := range []error{
		a.ChangeDevice(d.Crew, d.ID, store.Change{Role: store.Owner}, "boss", now+2),
		a.Revoke(d.Crew, d.ID, "", now+3),
		a.Audit(d.Crew, store.AuditLine{At: now + 4, What: store.Exported, More: "12"}),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	got, err := a.AuditLines(t.Context(), d.Crew, 9)
	want := []store.AuditLine{
		{At: now + 4, What: "exported", More: "12"},
		{At: now + 3, What: "revoked", About: d.ID},
		{At: now + 2, What: "role-set", Who: "boss", About: d.ID, More: "owner"},
		{At: now + 1, What: "enrolled", Who: d.ID, About: d.ID, More: "member"},
		{At: now, What: "invited", About: v.ID, More: "member"},
	}
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("audit = %+v, %v\nwant %+v", got, err, want)
	}
}

func TestSeen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	s := storetest.Open(t, path)
	d, _ := storetest.Join(t, s.Access, storetest.Crew, store.Member, "phone-a")
	s.See(d, now+70_000)
	if list, err := s.Devices(t.Context(), d.Crew); err != nil || list[0].Seen != now+70_000 {
		t.Errorf("before it is written: %+v, %v", list, err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if got, err := storetest.Open(t, path).DeviceByID(t.Context(), d.Crew, d.ID); err != nil || got.Seen != now+70_000 {
		t.Errorf("after a restart: %+v, %v", got, err)
	}
}

func BenchmarkDeviceOf(b *testing.B) {
	s := storetest.Open(b, filepath.Join(b.TempDir(), "journal.db"))
	_, token := storetest.Join(b, s.Access, storetest.Crew, store.Member, "phone-a")
	for b.Loop() {
		if _, err := s.DeviceOf(b.Context(), token); err != nil {
			b.Fatal(err)
		}
	}
}
