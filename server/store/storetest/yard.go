package storetest

import (
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"os"
	"path/filepath"
	"testing"

	"kerfside/server/store"
)

// Open opens the store at path until the test ends.
func Open(t testing.TB, path string) *store.Store {
	s, err := store.Open(path, store.Options{Crew: Crew})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// Batch is n events of device, ready to be appended.
func Batch(t testing.TB, device string, n int) store.Batch {
	return store.Batch{Crew: Crew, Now: Now, Events: Events(t, device, n)}
}

// Raw opens the file behind the store's back.
func Raw(t testing.TB, path string) *sql.DB {
	db, err := sql.Open("sqlite3", "file:"+path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return db
}

// Invite makes an invitation, failing the test if it cannot.
func Invite(t testing.TB, a *store.Access, crew string, role store.Role) store.Invite {
	t.Helper()
	v, err := a.Invite(crew, role, "", Now)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Join lets a phone join by the link of a new invitation.
func Join(t testing.TB, a *store.Access, crew string, role store.Role, name string) (store.Device, string) {
	t.Helper()
	d, token, err := a.Enrol(store.Enrolment{Secret: Invite(t, a, crew, role).Secret, Name: name, Device: name, Now: Now})
	if err != nil {
		t.Fatal(err)
	}
	return d, token
}

// Filled opens a store with n entries and one picture beside it.
func Filled(t testing.TB, n int) (s *store.Store, path, picture string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "yard.db")
	s = Open(t, path)
	if _, err := s.Append(t.Context(), Batch(t, "phonea", n)); err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256([]byte("a picture"))
	name := hex.EncodeToString(sum[:])
	picture = filepath.Join(Crew, name[:2], name)
	if err := os.MkdirAll(filepath.Dir(filepath.Join(path+".photos", picture)), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(path+".photos", picture), []byte("a picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	return s, path, picture
}
