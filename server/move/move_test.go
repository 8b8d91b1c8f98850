package move

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/journaltest"
	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// drawn is a journal drawn from a seed.
func drawn(seed int) []event.Event {
	return rapid.Custom(func(t *rapid.T) []event.Event { return journaltest.Journal(t) }).Example(seed)
}

// seeds is how many journals are drawn.
func seeds() int {
	if os.Getenv("KERFSIDE_LONG") != "" {
		return 30
	}
	return 6
}

// live lets a crew live on a host: entries, phones that came and went, invitations,
// pictures, erasures, and a row that went bad on the disk.
func live(t *testing.T, h *host, seed int) {
	t.Helper()
	ctx := context.Background()
	storetest.Join(t, h.Access, crew, store.Owner, "owner")
	storetest.Join(t, h.Access, crew, store.Member, "leaver")
	storetest.Join(t, h.Access, crew, store.Member, "forgotten")
	storetest.Invite(t, h.Access, crew, store.Member)
	if err := h.RenameCrew(crew, "Osier Ford Repair", storetest.Now); err != nil {
		t.Fatal(err)
	}
	acks := h.push(crew, append(storetest.Events(t, "opener", 2), pushes(drawn(seed))...)...)
	h.push(crew, storetest.Events(t, "forgotten", 2)...)
	h.push(crew, storetest.Events(t, "phonea", 5)...)
	h.picture(crew, "a picture of Osier Ford")
	h.picture(h.staying, "a picture of Weir Lane")
	if err := h.Revoke(crew, "leaver", "owner", storetest.Now); err != nil {
		t.Fatal(err)
	}
	if _, err := h.Erase(ctx, crew, acks[seed%len(acks)].ID, "owner", "a wrong <one> & \u2028", storetest.Now); err != nil && problem.KindOf(err) != problem.Conflict {
		t.Fatal(err)
	}
	if _, left, err := h.Forget(ctx, crew, "forgotten", "owner", storetest.Now, 100); err != nil || left != 0 {
		t.Fatal(left, err)
	}
	db := storetest.Raw(t, h.path)
	if _, err := db.Exec(`UPDATE event SET raw = CAST('{' AS BLOB) WHERE n = (SELECT max(n) FROM event WHERE crew = 1) AND crew = 1`); err != nil {
		t.Fatal(err)
	}
	if err := h.Flush(); err != nil {
		t.Fatal(err)
	}
}

// A crew that moves is on the new server what it was on the old one, table by table,
// and what it has of other crews stays. It moves back, with what it wrote meanwhile.
// Each step is done twice.
func TestMoveKeepsEverything(t *testing.T) {
	for seed := range seeds() {
		old, fresh := newHost(t, "old", crew), newHost(t, "fresh", "")
		live(t, old, seed)
		want, others, theirs := old.dump(crew), old.dump(old.staying), fresh.dump(fresh.staying)
		before, _ := old.State(crew)
		file := filepath.Join(t.TempDir(), "osier-ford.kerfside")
		c := carry(t, old, fresh, file)
		compare(t, "moved", fresh.dump(crew), want)
		compare(t, "a crew of the old server", old.dump(old.staying), others)
		compare(t, "a crew of the new server", fresh.dump(fresh.staying), theirs)
		if after, ok := fresh.State(crew); !ok || after.Max != before.Max || after.Head != before.Head || after.Highest != before.Highest || c.Events != before.Max {
			t.Errorf("seed %d: the journal stands at %+v and stood at %+v", seed, after, before)
		}
		if fresh.ErasuresDigest(crew) == "" {
			if err := fresh.NoteErasures(t.Context()); err != nil || fresh.ErasuresDigest(crew) != old.ErasuresDigest(crew) {
				t.Errorf("seed %d: the list of erasures is named %q, %v", seed, fresh.ErasuresDigest(crew), err)
			}
		}
		if !fresh.served() || old.served() {
			t.Fatal("the crew is not served by the new server alone")
		}
		fresh.push(crew, storetest.Events(t, "laters", 3)...)
		want = fresh.dump(crew)
		carry(t, fresh, old, file)
		compare(t, "moved back", old.dump(crew), want)
		if !old.served() {
			t.Fatal("the crew is not served where it came back to")
		}
		rows, err := old.After(t.Context(), crew, c.Events, 100, 1<<20)
		if err != nil || len(rows) != 4 { // three, and the probe
			t.Errorf("seed %d: %d rows after %d, %v: what the server remembered is of another time", seed, len(rows), c.Events, err)
		}
	}
}

// A general tool finds the same in the file: tar and sha256sum of coreutils.
func TestPackageByOtherTools(t *testing.T) {
	if _, err := exec.LookPath("sha256sum"); err != nil {
		t.Skip("no sha256sum")
	}
	old := newHost(t, "old", crew)
	live(t, old, 1)
	dir := t.TempDir()
	file := filepath.Join(dir, "osier-ford.kerfside")
	c, err := Pack(t.Context(), old.beside(), crew, file, storetest.Now)
	if err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("others may read the package: %v, %v", info.Mode(), err)
	}
	said, err := exec.Command("sh", "-c", `cd "$1" && tar xf "$2" && sha256sum -c SHA256SUMS && sha256sum < SHA256SUMS`, "-", dir, file).CombinedOutput()
	if err != nil || strings.Count(string(said), ": OK\n") != 3+1+c.Pictures {
		t.Errorf("%v\n%s", err, said)
	}
	if !strings.Contains(string(said), hexOf(c.Sum)) {
		t.Errorf("the package is named %s; sha256sum says %s", hexOf(c.Sum), said)
	}
}

// What goes wrong between the two is refused, with nothing changed.
func TestMoveRefuses(t *testing.T) {
	ctx := t.Context()
	old, fresh, third := newHost(t, "old", crew), newHost(t, "fresh", ""), newHost(t, "third", "")
	old.push(crew, storetest.Events(t, "phonea", 5)...)
	a, b, c := old.beside(), fresh.beside(), third.beside()
	file := filepath.Join(t.TempDir(), "one.kerfside")
	if _, err := Pack(ctx, a, crew, old.path, storetest.Now); problem.KindOf(err) != problem.Conflict || !old.served() {
		t.Errorf("packing into a file that is something else: %v", err)
	}
	pack := func() {
		t.Helper()
		if _, err := Pack(ctx, a, crew, file, storetest.Now); err != nil {
			t.Fatal(err)
		}
	}
	unpack := func(to *store.Access) store.Receipt {
		t.Helper()
		r, _, err := Unpack(ctx, to, file)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	refused := func(what string, err error, kinds ...problem.Kind) {
		t.Helper()
		for _, kind := range kinds {
			if problem.KindOf(err) == kind && problem.From(err).Hint != "" {
				return
			}
		}
		t.Errorf("%s: %v", what, err)
	}
	pack()
	_, _, err := Unpack(ctx, a, file)
	refused("unpacking where the crew is", err, problem.Conflict)
	lost := unpack(b)
	refused("dropping a crew that waits", a.Drop(ctx, crew), problem.Refused)
	if err := a.Keep(crew, false, storetest.Now); err != nil || !old.served() {
		t.Fatalf("kept: %v", err)
	}
	_, err = a.HandOver(lost, storetest.Now)
	refused("handing over what is kept", err, problem.Refused)

	pack()
	if _, err := a.HandOver(lost, storetest.Now); problem.KindOf(err) != problem.Conflict {
		t.Errorf("a receipt of a move that was called off: %v", err)
	}
	first, second := unpack(b), unpack(c)
	key, err := a.HandOver(first, storetest.Now)
	if err != nil {
		t.Fatal(err)
	}
	_, err = a.HandOver(second, storetest.Now)
	refused("handing over to a second copy", err, problem.Conflict)
	_, err = c.TakeUp(key, storetest.Now)
	refused("a key of another copy", err, problem.Refused)
	refused("keeping what was handed over", a.Keep(crew, false, storetest.Now), problem.Refused)
	if _, err := b.TakeUp(key, storetest.Now); err != nil || !fresh.served() || old.served() || third.served() {
		t.Fatalf("taken up: %v", err)
	}
	if err := c.Drop(ctx, crew); err != nil {
		t.Fatal(err)
	}
	if got := third.dump(crew); strings.Join([]string{got["crew"], got["event"], got["device"], got["pictures"]}, "") != "" {
		t.Errorf("a copy that was dropped has left %q", got)
	}
	unpack(c)
	_, err = c.TakeUp(key, storetest.Now)
	refused("an old file and its key", err, problem.Refused)

	// Back again: the old file is of no use any more.
	stale := filepath.Join(t.TempDir(), "stale.kerfside")
	if err := os.Rename(file, stale); err != nil {
		t.Fatal(err)
	}
	carry(t, fresh, old, file)
	for name, to := range map[string]*store.Access{"where it is": a, "where it was": b} {
		_, _, err := Unpack(ctx, to, stale)
		refused("an old file "+name, err, problem.Conflict)
	}
	for _, text := range []string{"", "x", crew, crew + ".x", first.String() + "A", "../../etc." + strings.Repeat("A", 64)} {
		_, err := store.ReadReceipt(text)
		refused("a receipt "+text, err, problem.Malformed)
		_, err = b.TakeUp(text, storetest.Now)
		refused("a key "+text, err, problem.Malformed)
	}
}

// What a phone meets at each step, and that it may ask again: a kind that passes.
func TestPhonesMeanwhile(t *testing.T) {
	ctx := t.Context()
	old, fresh := newHost(t, "old", crew), newHost(t, "fresh", "")
	_, token := storetest.Join(t, old.Access, crew, store.Owner, "owner")
	invite := storetest.Invite(t, old.Access, crew, store.Member)
	old.push(crew, storetest.Events(t, "phonea", 5)...)
	ask := func(h *host) error { _, err := h.DeviceOf(ctx, token); return err }
	join := func(h *host) error {
		_, _, err := h.Enrol(store.Enrolment{Secret: invite.Secret, Name: "b", Now: storetest.Now})
		return err
	}
	waits := func(what string, err error) {
		t.Helper()
		p := problem.From(err)
		if !errors.Is(err, store.ErrAway) || p.Kind != problem.Busy || p.Retry == 0 || p.Hint == "" {
			t.Errorf("%s: %v", what, err)
		}
	}
	a, b := old.beside(), fresh.beside()
	file := filepath.Join(t.TempDir(), "one.kerfside")
	if err := errors.Join(ask(old)); err != nil {
		t.Fatal(err)
	}
	if _, err := Pack(ctx, a, crew, file, storetest.Now); err != nil {
		t.Fatal(err)
	}
	waits("frozen, a phone", ask(old))
	waits("frozen, joining", join(old))
	waits("frozen, an invitation", func() error { _, err := old.Invite(crew, store.Member, "", storetest.Now); return err }())
	waits("frozen, a command erases", func() error {
		_, err := a.Erase(ctx, crew, "phonea0000000000000000", "", "", 1)
		return err
	}())
	receipt, _, err := Unpack(ctx, b, file)
	if err != nil {
		t.Fatal(err)
	}
	waits("held, a phone", ask(fresh))
	waits("held, joining", join(fresh))
	key, err := a.HandOver(receipt, storetest.Now)
	if err != nil {
		t.Fatal(err)
	}
	waits("moved, a phone", ask(old))
	if err := join(old); problem.KindOf(err) != problem.NotFound {
		t.Errorf("moved, joining: %v; a proxy would not ask the next server", err)
	}
	if _, err := b.TakeUp(key, storetest.Now); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(ask(fresh), join(fresh)); err != nil {
		t.Errorf("taken up: %v", err)
	}
	if err := a.Drop(ctx, crew); err != nil {
		t.Fatal(err)
	}
	waits("dropped, a phone", ask(old))
	d, err := old.DeviceOf(ctx, token)
	if d.Crew != crew || d.Name != "" {
		t.Errorf("of a phone that comes late is known %+v, %v", d, err)
	}
	if got := old.dump(crew); got["event"]+got["invite"]+got["audit"]+got["pictures"]+got["standing"] != "" {
		t.Errorf("what was dropped is still there: %q", got)
	}
}
