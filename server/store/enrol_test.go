package store_test

import (
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

func TestEnrolBySecretAndByCode(t *testing.T) {
	a := onDisk(t).Access
	v := storetest.Invite(t, a, storetest.Crew, store.Owner)
	d, token, err := a.Enrol(store.Enrolment{Secret: v.Secret, Name: " Truck 1 ", Device: "phone-a", Now: now})
	want := store.Device{Crew: storetest.Crew, ID: "phone-a", Name: "Truck 1", Role: store.Owner, Since: now, Seen: now}
	if err != nil || d != want || len(token) != 43 {
		t.Fatalf("by secret: %+v, token of %d characters, %v; want %+v and 43", d, len(token), err, want)
	}
	if got, err := a.DeviceOf(t.Context(), token); err != nil || got != want {
		t.Errorf("DeviceOf = %+v, %v, want %+v", got, err, want)
	}
	v = storetest.Invite(t, a, storetest.Crew, store.Member)
	if d, _, err = a.Enrol(store.Enrolment{Code: v.Code, Name: "Truck 2", Now: now}); err != nil || d.Role != store.Member || len(d.ID) != 22 {
		t.Errorf("by code: %+v, %v, want a member with an id of its own", d, err)
	}
}

// TestInvitationsThatAreNotGood: all get the same answer.
func TestInvitationsThatAreNotGood(t *testing.T) {
	a := onDisk(t).Access
	used, old, wrong := storetest.Invite(t, a, storetest.Crew, store.Member), storetest.Invite(t, a, storetest.Crew, store.Member), storetest.Invite(t, a, storetest.Crew, store.Member)
	if _, _, err := a.Enrol(store.Enrolment{Secret: used.Secret, Name: "a", Now: now}); err != nil {
		t.Fatal(err)
	}
	gone := storetest.Invite(t, a, storetest.Crew, store.Member)
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
		v := storetest.Invite(t, a, storetest.Crew, store.Member)
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
	d, first := storetest.Join(t, a, storetest.Crew, store.Owner, "phone-a")
	again, second, err := a.Enrol(store.Enrolment{Secret: storetest.Invite(t, a, storetest.Crew, store.Member).Secret, Name: "new name", Device: d.ID, Token: first, Now: now + 5})
	if err != nil || again.ID != d.ID || again.Role != store.Owner || second == first {
		t.Errorf("again: %+v, %v, want the same id, still an owner, another token", again, err)
	}
	if _, err := a.DeviceOf(t.Context(), first); kindOf(err) != problem.NoToken {
		t.Errorf("old token: %v, want no-token", err)
	}
	other, _ := storetest.Join(t, a, storetest.Crew, store.Member, d.ID)
	if other.ID == d.ID {
		t.Error("a phone without token took the id of another")
	}
	moved, third, err := a.Enrol(store.Enrolment{Secret: storetest.Invite(t, a, storetest.Crew, store.Member).Secret, Name: "a", Device: "another-id", Token: second, Now: now + 9})
	if err != nil || moved.ID != "another-id" || moved.Role != store.Owner {
		t.Errorf("with another id: %+v, %v", moved, err)
	}
	if _, err := a.DeviceOf(t.Context(), second); kindOf(err) != problem.Revoked {
		t.Errorf("token before: %v, want revoked", err)
	}
	if err := a.Revoke(storetest.Crew, moved.ID, "", now); err != nil {
		t.Fatal(err)
	}
	back, _, err := a.Enrol(store.Enrolment{Secret: storetest.Invite(t, a, storetest.Crew, store.Member).Secret, Name: "a", Device: moved.ID, Token: third, Now: now + 9})
	if err != nil || back.ID != moved.ID || back.Role != store.Member || back.Revoked != 0 {
		t.Errorf("revoked and invited anew: %+v, %v, want the same id as a member", back, err)
	}
}

// TestEnrolAgainWithoutAnAnswer: the secret of the phone itself opens the crew
// again for a day, under the same id and role, and for nobody else.
func TestEnrolAgainWithoutAnAnswer(t *testing.T) {
	a := onDisk(t).Access
	const retry = "Zx0D1w2aRtY7uIo9PqLm3g"
	asked := store.Enrolment{Secret: storetest.Invite(t, a, storetest.Crew, store.Owner).Secret, Name: "Truck 1", Device: "phone-a", Retry: retry, Now: now}
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
	boss, _ := storetest.Join(t, a, storetest.Crew, store.Owner, "boss")
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
	asked := store.Enrolment{Secret: storetest.Invite(t, a, storetest.Crew, store.Owner).Secret, Name: "Truck 1", Device: "phone-a", Retry: "Zx0D1w2aRtY7uIo9PqLm3g", Now: now}
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
	d, _, err := a.Enrol(asked)
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

// TestOneSecretManyPhones: of phones that race for an invitation one gets in.
func TestOneSecretManyPhones(t *testing.T) {
	a := onDisk(t).Access
	v := storetest.Invite(t, a, storetest.Crew, store.Member)
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
		storetest.Invite(t, a, storetest.Crew, store.Member)
	}
	if _, err := a.Invite(storetest.Crew, store.Member, "", now+1); kindOf(err) != problem.Refused {
		t.Errorf("number 21: %v, want refused", err)
	}
	if _, err := a.Invite(storetest.Crew, store.Member, "", now+store.InviteLife); err != nil {
		t.Errorf("ten minutes later: %v", err)
	}
}

// TestEnrolWithAnothersRetry: two phones that ask with one secret of their own, one a
// copy of the other, get in by an invitation each; only the last may ask again.
func TestEnrolWithAnothersRetry(t *testing.T) {
	a := onDisk(t).Access
	const retry = "Zx0D1w2aRtY7uIo9PqLm3g"
	ask := func(name, secret string) (store.Device, string, error) {
		return a.Enrol(store.Enrolment{Secret: secret, Name: name, Device: name, Retry: retry, Now: now})
	}
	first, token, err := ask("phone-a", storetest.Invite(t, a, storetest.Crew, store.Member).Secret)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := a.DeviceOf(t.Context(), token); err != nil {
		t.Fatal(err)
	}
	second, other, err := ask("phone-b", storetest.Invite(t, a, storetest.Crew, store.Member).Secret)
	if err != nil || second.ID == first.ID {
		t.Fatalf("the other joins as %q, %v", second.ID, err)
	}
	if d, err := a.DeviceOf(t.Context(), token); err != nil || d.ID != first.ID {
		t.Errorf("the first is %q, %v", d.ID, err)
	}
	if d, again, err := ask("phone-b", "used up"); err != nil || d.ID != second.ID || again == other {
		t.Errorf("asking again it is %q, %v", d.ID, err)
	}
}
