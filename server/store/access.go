package store

import (
	"context"
	"crypto/rand"
	"database/sql"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"sync"

	"kerfside/calc/problem"
)

// Access is who may use the journal: crews, devices, invitations and the audit.
// A Store has one; OpenAccess opens one beside a server that is running.
//
// Nothing of it is cached: a token is looked up in the database for each
// request, which takes some 20 µs, and so a revocation counts from its commit
// on, whichever process made it.
//
// Every statement names its crew but for three, which find out the crew from a
// secret: by the token, by the secret of a link, by the handle of a code.
type Access struct {
	write, read *sql.DB
	random      io.Reader
	explain     func(error) error         // says what a failed write means
	writable    func() error              // an error once the disk has failed
	present     func() error              // an error once the database is not in its place any more
	findToken   func() (*sql.Stmt, error) // prepared once, when the table is there
	ring        func(crew string)         // wakes those who wait to hear of a crew
	gone        *erasedList
	pictures    string // folder of the pictures, "" if there is none

	mu       sync.Mutex
	seen     map[deviceKey]int64 // since the last flush
	cleansed map[string]string   // crew → name of its list of erasures as far as it was followed
}

// deviceKey names a row of the table device.
type deviceKey struct{ crew, id string }

func newAccess(path string, write, read *sql.DB, random io.Reader) *Access {
	a := &Access{gone: newErasedList(ListOfErasures(path)), write: write, read: read, random: random, seen: map[deviceKey]int64{}, cleansed: map[string]string{},
		explain: func(err error) error { return err }, writable: func() error { return nil }, present: func() error { return nil }, ring: func(string) {},
		findToken: sync.OnceValues(func() (*sql.Stmt, error) { return read.Prepare(selectToken) })}
	if a.gone.path != "" {
		a.pictures = path + ".photos"
	}
	return a
}

// OpenAccess opens the access tables of the store at path, whether or not a
// server has the store open; a store that is not there is made. Close it.
func OpenAccess(path string) (*Access, error) {
	path, err := RealPath(path)
	if err != nil {
		return nil, err
	}
	s, err := Open(path, Options{})
	if err == nil {
		err = s.Close() // now it is there, in its newest form
	} else if errors.Is(err, ErrInUse) {
		err = checkSchema(path)
	}
	if err != nil {
		return nil, err
	}
	a := newAccess(path, connect(path, writing), connect(path, reading), rand.Reader)
	a.explain = func(err error) error { return Unfit(path, err) }
	return a, nil
}

// checkSchema refuses a store whose server speaks another version of it.
func checkSchema(path string) error {
	db := connect(path, reading)
	defer db.Close()
	var done int
	if err := db.QueryRow(`PRAGMA user_version`).Scan(&done); err != nil {
		return fmt.Errorf("read the schema's version of %s: %w", path, err)
	}
	names, err := migrations.ReadDir("migrations")
	if err == nil && done != len(names) {
		return problem.Newf(problem.Conflict, "db", "a server of another version has %s open", path).
			WithHint("Start that server again with this version of the program, or use its own kerfside.")
	}
	return err
}

// Close ends an Access that OpenAccess opened.
func (a *Access) Close() error { return errors.Join(a.read.Close(), a.write.Close()) }

// change runs f in a transaction. f's errors are problems, or faults of the
// database that are told as they are.
func (a *Access) change(f func(context.Context, *sql.Tx) error) error {
	ctx := context.Background() // whoever hangs up does not undo it by halves
	if err := a.writable(); err != nil {
		return err
	}
	tx, err := a.write.BeginTx(ctx, nil)
	if err != nil {
		return a.explain(fmt.Errorf("begin: %w", err))
	}
	defer tx.Rollback()
	if err := f(ctx, tx); trouble(err) != broken {
		return a.explain(err)
	} else if err != nil {
		return err
	}
	if err := tx.Commit(); err != nil {
		return a.explain(fmt.Errorf("commit: %w", err))
	}
	return a.present()
}

// secret returns so many random bytes.
func (a *Access) secret(bytes int) ([]byte, error) {
	b := make([]byte, bytes)
	if _, err := io.ReadFull(a.random, b); err != nil {
		return nil, fmt.Errorf("read random bytes: %w", err)
	}
	return b, nil
}

// id returns a new random id of 22 characters.
func (a *Access) id() (string, error) {
	b, err := a.secret(16)
	return base64.RawURLEncoding.EncodeToString(b), err
}

// Serve notes under which origin the server can be reached.
func (a *Access) Serve(origin string) error {
	return a.change(func(ctx context.Context, tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO served (one, origin) VALUES (1, ?) ON CONFLICT (one) DO UPDATE SET origin = excluded.origin`, origin)
		return err
	})
}

// Origin returns where the server was last to be found, "" before it ever was.
func (a *Access) Origin(ctx context.Context) (string, error) {
	var origin string
	err := a.read.QueryRowContext(ctx, `SELECT origin FROM served WHERE one = 1`).Scan(&origin)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return origin, err
}
