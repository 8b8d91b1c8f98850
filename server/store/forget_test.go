package store_test

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// forgetful is a store in which a lost phone wrote five notes and told of a picture,
// another phone of the crew amended one note, set a name for the lost phone and wrote
// a note of its own.
func forgetful(t *testing.T) (s *store.Store, path, picture, token string) {
	t.Helper()
	s, path, picture = storetest.Filled(t, 0)
	storetest.Join(t, s.Access, storetest.Crew, store.Owner, "boss")
	_, token = storetest.Join(t, s.Access, storetest.Crew, store.Member, "phonel")
	notes := storetest.Events(t, "phonel", 5)
	list := append(notes,
		written(t, "PicOfLostPhone00000001", "phonel", "photo.added", "", fmt.Sprintf(`{"sha256":%q}`, filepath.Base(picture))),
		written(t, "AmendmentByBoss0000001", "boss", "amend", "", fmt.Sprintf(`{"of":%q,"set":{"text":"secret of lost"}}`, notes[2].Event.ID)),
		written(t, "SettingAboutLost000001", "boss", "setting.set", "phonel", `{"name":"phone of nobody"}`),
		written(t, "NoteOfBoss000000000001", "boss", "note.added", "", `{"text":"stays"}`),
		written(t, "AmendmentOfOwn00000001", "boss", "amend", "", `{"of":"NoteOfBoss000000000001","set":{"text":"stays too"}}`),
		written(t, "EscapedDevice000000001", `ph\u006fnel`, "note.added", "", `{"text":"hidden"}`))
	if _, err := s.Append(t.Context(), store.Batch{Crew: storetest.Crew, Now: storetest.Now, Events: list}); err != nil {
		t.Fatal(err)
	}
	return s, path, picture, token
}

// ofLost is how many of these entries go with the phone.
const ofLost = 9

func written(t *testing.T, id, device, kind, about, body string) exchange.Push {
	t.Helper()
	if about != "" {
		about = `,"about":"` + about + `"`
	}
	raw := fmt.Appendf(nil, `{"id":%q,"t":"0199f3c0b4000000","device":"%s","kind":%q,"v":1%s,"body":%s}`, id, device, kind, about, body)
	e, err := event.Decode(raw)
	if err != nil {
		t.Fatal(err)
	}
	return exchange.Push{Event: e, O: e.T, Sum: event.SumOf(raw)}
}

// TestForget: what a phone wrote becomes stubs, bit by bit and over a restart, with
// the numbers and the chain as they were; nothing else does, and nothing of the phone
// is left in the file.
func TestForget(t *testing.T) {
	s, path, picture, token := forgetful(t)
	before, err := s.After(t.Context(), storetest.Crew, 0, 1<<30, 1<<30)
	if err != nil {
		t.Fatal(err)
	}
	if w, err := s.WrittenBy(t.Context(), storetest.Crew, "phonel"); err != nil || w != (store.Written{Entries: ofLost, Pictures: 1}) {
		t.Errorf("the journal holds %+v of it, %v", w, err)
	}
	if _, _, err := s.Forget(t.Context(), storetest.Crew, "boss", "boss", 5, 100); problem.KindOf(err) != problem.Refused {
		t.Errorf("a phone forgets itself: %v", err)
	}
	if _, _, err := s.Forget(t.Context(), storetest.Crew, "nobody", "boss", 5, 100); problem.KindOf(err) != problem.NotFound {
		t.Errorf("a phone that is not there: %v", err)
	}
	done, left, err := s.Forget(t.Context(), storetest.Crew, "phonel", "boss", storetest.Now+1, 4)
	if err != nil || done != 4 || left != ofLost-4 {
		t.Fatalf("first %d, %d left, %v", done, left, err)
	}
	if _, err := s.DeviceOf(t.Context(), token); problem.KindOf(err) != problem.Revoked {
		t.Errorf("its token: %v", err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	s = storetest.Open(t, path)
	for left > 0 {
		if _, left, err = s.Forget(t.Context(), storetest.Crew, "phonel", "boss", storetest.Now+2, 4); err != nil {
			t.Fatal(err)
		}
	}
	after, err := s.After(t.Context(), storetest.Crew, 0, 1<<30, 1<<30)
	if err != nil || len(after) != len(before) {
		t.Fatalf("%d rows of %d, %v", len(after), len(before), err)
	}
	for i, was := range before {
		is := after[i]
		stays := strings.HasPrefix(is.ID, "NoteOfBoss") || strings.HasPrefix(is.ID, "AmendmentOfOwn")
		if is.N != was.N || is.O != was.O || is.Sum != was.Sum || is.Chain != was.Chain || is.Erased == stays || stays != bytes.Equal(is.Raw, was.Raw) {
			t.Errorf("arrival %d is %+v, was %+v", was.N, is, was)
		}
	}
	if _, err := s.DeviceOf(t.Context(), token); problem.KindOf(err) != problem.NoToken {
		t.Errorf("its token afterwards: %v", err)
	}
	lines, err := s.AuditLines(t.Context(), storetest.Crew, 100)
	if err != nil || lines[0].What != store.Forgotten || lines[0].Who != "boss" || strings.Contains(fmt.Sprint(lines), "phonel") {
		t.Errorf("the audit says %v, %v", lines, err)
	}
	if _, err := os.Stat(filepath.Join(path+".photos", picture)); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("its picture: %v", err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(path)
	for _, word := range []string{"secret of lost", "phone of nobody", "hidden", filepath.Base(picture), `"text":"<`} {
		if err != nil || bytes.Contains(file, []byte(word)) {
			t.Errorf("the file holds %q, %v", word, err)
		}
	}
}

// TestForgetIsFinished: a device whose row outlived a crash, or came back with an old
// file, goes when the store opens; one that joined again later stays.
func TestForgetIsFinished(t *testing.T) {
	s, path, _, _ := forgetful(t)
	if _, left, err := s.Forget(t.Context(), storetest.Crew, "phonel", "boss", storetest.Now+1, 100); err != nil || left != 0 {
		t.Fatalf("%d left, %v", left, err)
	}
	for since, want := range map[int64]int{storetest.Now: 1, storetest.Now + 2: 2} {
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		if _, err := storetest.Raw(t, path).Exec(`INSERT INTO device (crew, id, name, role, token, since, seen) SELECT crew, 'phonel', 'Lost', 'member', zeroblob(32), ?, 0 FROM device LIMIT 1`, since); err != nil {
			t.Fatal(err)
		}
		s = storetest.Open(t, path)
		if list, err := s.Devices(t.Context(), storetest.Crew); err != nil || len(list) != want {
			t.Errorf("joined %d ms after: the crew has %v, %v", since-storetest.Now-1, list, err)
		}
		if _, err := storetest.Raw(t, path).Exec(`DELETE FROM device WHERE id = 'phonel'`); err != nil {
			t.Fatal(err)
		}
	}
}

// TestForgetWaitsForDamage: bytes that went bad have no sum to erase them by, so the
// phone stays on the list until they were brought again.
func TestForgetWaitsForDamage(t *testing.T) {
	s, path, _, _ := forgetful(t)
	if _, err := storetest.Raw(t, path).Exec(`UPDATE event SET raw = CAST(replace(CAST(raw AS TEXT), 'note', 'nope') AS BLOB) WHERE n = 2`); err != nil {
		t.Fatal(err)
	}
	_, left, err := s.Forget(t.Context(), storetest.Crew, "phonel", "boss", storetest.Now+1, 100)
	if problem.KindOf(err) != problem.Busy || left != 1 {
		t.Errorf("%d left, %v", left, err)
	}
	if _, err := s.After(t.Context(), storetest.Crew, 0, 1<<30, 1<<30); err != nil { // meets the damage
		t.Fatal(err)
	}
	if _, err := s.Append(t.Context(), storetest.Batch(t, "phonel", 5)); err != nil {
		t.Fatal(err)
	}
	if done, left, err := s.Forget(t.Context(), storetest.Crew, "phonel", "boss", storetest.Now+2, 100); done != 1 || left != 0 || err != nil {
		t.Errorf("mended: %d, %d left, %v", done, left, err)
	}
}
