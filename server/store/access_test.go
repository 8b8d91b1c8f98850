package store_test

import (
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

const now = storetest.Now

// invite makes an invitation, failing the test if it cannot.
func invite(t testing.TB, a *store.Access, crew string, role store.Role) store.Invite {
	t.Helper()
	v, err := a.Invite(crew, role, "", now)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// join lets a phone join by the link of a new invitation.
func join(t testing.TB, a *store.Access, crew string, role store.Role, name string) (store.Device, string) {
	t.Helper()
	d, token, err := a.Enrol(store.Enrolment{Secret: invite(t, a, crew, role).Secret, Name: name, Device: name, Now: now})
	if err != nil {
		t.Fatal(err)
	}
	return d, token
}

func kindOf(err error) problem.Kind { return problem.KindOf(err) }

func TestEnrolBySecretAndByCode(t *testing.T) {
	a := onDisk(t).Access
	v := invite(t, a, storetest.Crew, store.Owner)
	d, token, err := a.Enrol(store.Enrolment{Secret: v.Secret, Name: " Truck 1 ", Device: "phone-a", Now: now})
	want := store.Device{Crew: storetest.Crew, ID: "phone-a", Name: "Truck 1", Role: store.Owner, Since: now, Seen: now}
	if err != nil || d != want || len(token) != 43 {
		t.Fatalf("by secret: %+v, token of %d characters, %v; want %+v and 43", d, len(token), err, want)
	}
	if got, err := a.DeviceOf(t.Context(), token); err != nil || got != want {
		t.Errorf("DeviceOf = %+v, %v, want %+v", got, err, want)
	}
	v = invite(t, a, storetest.Crew, store.Member)
	if d, _, err = a.Enrol(store.Enrolment{Code: v.Code, Name: "Truck 2", Now: now}); err != nil || d.Role != store.Member || len(d.ID) != 22 {
		t.Errorf("by code: %+v, %v, want a member with an id of its own", d, err)
	}
}

// TestInvitationsThatAreNotGood: all get the same answer.
func TestInvitationsThatAreNotGood(t *testing.T) {
	a := onDisk(t).Access
	used, old, wrong := invite(t, a, storetest.Crew, store.Member), invite(t, a, storetest.Crew, store.Member), invite(t, a, storetest.Crew, store.Member)
	if _, _, err := a.Enrol(store.Enrolment{Secret: used.Secret, Name: "a", Now: now}); err != nil {
		t.Fatal(err)
	}
	gone := invite(t, a, storetest.Crew, store.Member)
	if err := a.Withdraw(storetest.Crew, gone.ID, "", now); err != nil {
		t.Fatal(err)
	}
	answers := map[string]bool{}
	for name, e := range map[string]store.Enrolment{
		"used, by secret":      {Secret: used.Secret, Now: now},
		"used, by code":        {Code: used.Code, Now: now},
		"expired, by secret":   {Secret: old.Secret, Now: now + store.InviteLife},
		"expired, by code":     {Code: old.Code, Now: now + store.InviteLife},
		"wrong end of a code":  {Code: wrong.Code[:9] + string(wrong.Code[9]^1), Now: now},
		"unknown code":         {Code: "0000000000", Now: now},
		"unknown secret":       {Secret: strings.Repeat("A", 22), Now: now},
		"withdrawn, by secret": {Secret: gone.Secret, Now: now},
		"no secret":            {Now: now},
	} {
		e.Name = "a"
		_, _, err := a.Enrol(e)
		if kindOf(err) != problem.NotFound {
			t.Errorf("%s: %v, want not-found", name, err)
			continue
		}
		answers[problem.From(err).Error()] = true
	}
	if len(answers) != 1 {
		t.Errorf("they can be told apart: %v", answers)
	}
}

// TestGuessing: the sixth try of a code is refused, though it is the right one.
// Its link, which nobody can guess, still works once.
func TestGuessing(t *testing.T) {
	for _, right := range []int{5, 6} {
		a := onDisk(t).Access
		v := invite(t, a, storetest.Crew, store.Member)
		for i := 1; i < right; i++ {
			guess := v.Code[:3] + "000000" + string("0123456789"[i])
			if _, _, err := a.Enrol(store.Enrolment{Code: guess, Name: "guesser", Now: now}); kindOf(err) != problem.NotFound {
				t.Fatalf("guess %d: %v", i, err)
			}
		}
		_, _, err := a.Enrol(store.Enrolment{Code: v.Code, Name: "a", Now: now})
		if (err == nil) != (right <= store.MaxTries) {
			t.Errorf("the right code at try %d: %v", right, err)
		}
		_, _, err = a.Enrol(store.Enrolment{Secret: v.Secret, Name: "a", Now: now})
		if used := right <= store.MaxTries; used != (kindOf(err) == problem.NotFound) {
			t.Errorf("its link after try %d: %v", right, err)
		}
		if _, _, err := a.Enrol(store.Enrolment{Secret: v.Secret, Name: "b", Now: now}); kindOf(err) != problem.NotFound {
			t.Errorf("its link once more: %v", err)
		}
	}
}

func TestReadCode(t *testing.T) {
	for text, want := range map[string]string{
		"7K3Q9-M2XWD": "7K3Q9M2XWD", "7k3q9 m2xwd": "7K3Q9M2XWD", "oO0iIlL1ab": "00011111AB", " 7-K-3Q9M2XWD": "7K3Q9M2XWD",
	} {
		if got, err := store.ReadCode(text); err != nil || got != want {
			t.Errorf("ReadCode(%q) = %q, %v, want %q", text, got, err, want)
		}
	}
	for text, why := range map[string]string{
		"": "empty", "7K3Q9-M2XW": "nine", "7K3Q9-M2XWDD": "eleven", "7K3Q9-M2XWU": "U is not in the alphabet", "7K3Q9\x00M2XWD": "NUL", "7K3Q9M2XWÉ": "not ASCII",
	} {
		if got, err := store.ReadCode(text); kindOf(err) != problem.Malformed {
			t.Errorf("ReadCode(%q) = %q, %v, want malformed: %s", text, got, err, why)
		}
	}
}

// TestEnrolTwice: a phone that shows its token gets a new one and the old is
// dead; one that shows none cannot take over the id of another.
func TestEnrolTwice(t *testing.T) {
	a := onDisk(t).Access
	d, first := join(t, a, storetest.Crew, store.Owner, "phone-a")
	again, second, err := a.Enrol(store.Enrolment{Secret: invite(t, a, storetest.Crew, store.Member).Secret, Name: "new name", Device: d.ID, Token: first, Now: now + 5})
	if err != nil || again.ID != d.ID || again.Role != store.Owner || second == first {
		t.Errorf("again: %+v, %v, want the same id, still an owner, another token", again, err)
	}
	if _, err := a.DeviceOf(t.Context(), first); kindOf(err) != problem.NoToken {
		t.Errorf("old token: %v, want no-token", err)
	}
	other, _ := join(t, a, storetest.Crew, store.Member, d.ID)
	if other.ID == d.ID {
		t.Error("a phone without token took the id of another")
	}
	moved, third, err := a.Enrol(store.Enrolment{Secret: invite(t, a, storetest.Crew, store.Member).Secret, Name: "a", Device: "another-id", Token: second, Now: now + 9})
	if err != nil || moved.ID != "another-id" || moved.Role != store.Owner {
		t.Errorf("with another id: %+v, %v", moved, err)
	}
	if _, err := a.DeviceOf(t.Context(), second); kindOf(err) != problem.Revoked {
		t.Errorf("token before: %v, want revoked", err)
	}
	if err := a.Revoke(storetest.Crew, moved.ID, "", now); err != nil {
		t.Fatal(err)
	}
	back, _, err := a.Enrol(store.Enrolment{Secret: invite(t, a, storetest.Crew, store.Member).Secret, Name: "a", Device: moved.ID, Token: third, Now: now + 9})
	if err != nil || back.ID != moved.ID || back.Role != store.Member || back.Revoked != 0 {
		t.Errorf("revoked and invited anew: %+v, %v, want the same id as a member", back, err)
	}
}

// TestEnrolAgainWithoutAnAnswer: the secret of the phone itself opens the crew
// again for a day, under the same id and role, and for nobody else.
func TestEnrolAgainWithoutAnAnswer(t *testing.T) {
	a := onDisk(t).Access
	const retry = "Zx0D1w2aRtY7uIo9PqLm3g"
	asked := store.Enrolment{Secret: invite(t, a, storetest.Crew, store.Owner).Secret, Name: "Truck 1", Device: "phone-a", Retry: retry, Now: now}
	d, first, err := a.Enrol(asked)
	if err != nil {
		t.Fatal(err)
	}
	later := asked
	later.Now += 3600_000
	again, second, err := a.Enrol(later)
	if err != nil || again.ID != d.ID || again.Role != store.Owner || second == first {
		t.Errorf("again: %+v, %v, want the same phone with another token", again, err)
	}
	if _, err := a.DeviceOf(t.Context(), first); kindOf(err) != problem.NoToken {
		t.Errorf("the token that was lost: %v, want no-token", err)
	}
	if got, err := a.DeviceOf(t.Context(), second); err != nil || got.ID != d.ID {
		t.Errorf("the token given again: %+v, %v", got, err)
	}
	for name, spoil := range map[string]func(*store.Enrolment){
		"another secret": func(e *store.Enrolment) { e.Retry = "Zx0D1w2aRtY7uIo9PqLm3G" },
		"none":           func(e *store.Enrolment) { e.Retry = "" },
		"after a day":    func(e *store.Enrolment) { e.Now = now + 24*3600_000 },
	} {
		other := asked
		spoil(&other)
		if _, _, err := a.Enrol(other); kindOf(err) != problem.NotFound {
			t.Errorf("%s: %v, want not-found", name, err)
		}
	}
	short := asked
	short.Retry = "guess"
	if _, _, err := a.Enrol(short); kindOf(err) != problem.Malformed {
		t.Errorf("a short secret: %v, want malformed", err)
	}
	boss, _ := join(t, a, storetest.Crew, store.Owner, "boss")
	if err := a.Revoke(storetest.Crew, d.ID, boss.ID, now); err != nil {
		t.Fatal(err)
	}
	if _, _, err := a.Enrol(later); kindOf(err) != problem.NotFound {
		t.Errorf("after it was taken off: %v, want not-found", err)
	}
}

// TestEnrolAgainEndsWithTheFirstUse: once its token was used, what a phone asked
// to join with is worth nothing to whoever kept it; the phone itself, which shows
// the token, may still ask.
func TestEnrolAgainEndsWithTheFirstUse(t *testing.T) {
	a := onDisk(t).Access
	asked := store.Enrolment{Secret: invite(t, a, storetest.Crew, store.Owner).Secret, Name: "Truck 1", Device: "phone-a", Retry: "Zx0D1w2aRtY7uIo9PqLm3g", Now: now}
	_, token, err := a.Enrol(asked)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := a.DeviceOf(t.Context(), token); err != nil {
		t.Fatal(err)
	}
	asked.Now++
	if _, _, err := a.Enrol(asked); kindOf(err) != problem.NotFound {
		t.Errorf("replayed: %v, want not-found", err)
	}
	if _, err := a.DeviceOf(t.Context(), token); err != nil {
		t.Errorf("after the replay the phone's token: %v", err)
	}
	asked.Token = token
	d, token, err := a.Enrol(asked)
	if err != nil || d.ID != "phone-a" {
		t.Errorf("with its token: %+v, %v", d, err)
	}
	asked.Token = "" // and that answer was lost
	if _, token, err = a.Enrol(asked); err != nil {
		t.Errorf("asked once more: %v", err)
	}
	if d, err := a.DeviceOf(t.Context(), token); err != nil || d.ID != "phone-a" {
		t.Errorf("at last: %+v, %v", d, err)
	}
}

// TestRevokeBesideTheServer: another Access of the same file, as the command
// line has, revokes; the store that is open knows at once.
func TestRevokeBesideTheServer(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	s := open(t, path)
	d, token := join(t, s.Access, storetest.Crew, store.Member, "phone-a")
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
	b := batch(t, "phoneb", 3)
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
	first, _ := join(t, a, storetest.Crew, store.Owner, "phone-a")
	if err := a.ChangeDevice(first.Crew, first.ID, store.Change{Role: store.Member}, first.ID, now); kindOf(err) != problem.Refused {
		t.Errorf("the last owner as a member: %v, want refused", err)
	}
	if err := a.Revoke(first.Crew, first.ID, first.ID, now); kindOf(err) != problem.Refused {
		t.Errorf("the last owner revoked: %v, want refused", err)
	}
	second, _ := join(t, a, storetest.Crew, store.Member, "phone-b")
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
	theirs, token := join(t, a, storetest.Crew, store.Member, "phone-a")
	v := invite(t, a, storetest.Crew, store.Member)
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
	mine, _ := join(t, a, crew, store.Owner, theirs.ID)
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
	v := invite(t, a, storetest.Crew, store.Member)
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
	s := open(t, path)
	d, _ := join(t, s.Access, storetest.Crew, store.Member, "phone-a")
	s.See(d, now+70_000)
	if list, err := s.Devices(t.Context(), d.Crew); err != nil || list[0].Seen != now+70_000 {
		t.Errorf("before it is written: %+v, %v", list, err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if got, err := open(t, path).DeviceByID(t.Context(), d.Crew, d.ID); err != nil || got.Seen != now+70_000 {
		t.Errorf("after a restart: %+v, %v", got, err)
	}
}

func BenchmarkDeviceOf(b *testing.B) {
	s := open(b, filepath.Join(b.TempDir(), "journal.db"))
	_, token := join(b, s.Access, storetest.Crew, store.Member, "phone-a")
	for b.Loop() {
		if _, err := s.DeviceOf(b.Context(), token); err != nil {
			b.Fatal(err)
		}
	}
}

// TestOneSecretManyPhones: of phones that race for an invitation one gets in.
func TestOneSecretManyPhones(t *testing.T) {
	a := onDisk(t).Access
	v := invite(t, a, storetest.Crew, store.Member)
	var wait sync.WaitGroup
	var in atomic.Int32
	for i := range 8 {
		wait.Go(func() {
			e := store.Enrolment{Secret: v.Secret, Name: "a", Now: now}
			if i%2 == 1 {
				e.Secret, e.Code = "", v.Code
			}
			switch _, _, err := a.Enrol(e); {
			case err == nil:
				in.Add(1)
			case kindOf(err) != problem.NotFound:
				t.Error(err)
			}
		})
	}
	wait.Wait()
	if devices, err := a.Devices(t.Context(), storetest.Crew); err != nil || in.Load() != 1 || len(devices) != 1 {
		t.Errorf("%d got in, the crew has %d phones, %v", in.Load(), len(devices), err)
	}
}

// TestManyOpenInvitations: a crew has 20 at most, and old ones do not count.
func TestManyOpenInvitations(t *testing.T) {
	a := onDisk(t).Access
	for range 20 {
		invite(t, a, storetest.Crew, store.Member)
	}
	if _, err := a.Invite(storetest.Crew, store.Member, "", now+1); kindOf(err) != problem.Refused {
		t.Errorf("number 21: %v, want refused", err)
	}
	if _, err := a.Invite(storetest.Crew, store.Member, "", now+store.InviteLife); err != nil {
		t.Errorf("ten minutes later: %v", err)
	}
}
