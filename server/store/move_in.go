package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"github.com/mattn/go-sqlite3"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// Package is what arrives of a crew, as far as its store is concerned. Whoever unpacks
// it has read the whole file before, and found that it fits its sums.
type Package struct {
	Crew, Name string
	Number     int64  // of the move
	Public     []byte // key with which the hand-over is known
	Sum        [32]byte
	Max        int64
	Head       event.Chain
	Access     MovedAccess
	Erased     []byte // lines of the list of erasures
}

// Incoming is a crew that is being unpacked. Its journal grows in portions, and other
// crews go on in between. One that broke off is begun again.
type Incoming struct {
	a     *Access
	p     Package
	key   int64
	at    State
	ids   *stretches
	ready *Receipt
}

// Receive begins to unpack a crew. If this very package was unpacked before, Ready
// tells its receipt.
//
// A crew that is served here or packed to go is never overwritten, nor one that has
// moved further than the package: that is an old one.
func (a *Access) Receive(ctx context.Context, p Package) (*Incoming, error) {
	if a.gone.path == "" {
		return nil, problem.New(problem.Refused, "db", "a store in memory cannot take up a package", "Give the file of a database.")
	}
	in := &Incoming{a: a, p: p}
	if err := in.begin(ctx); err != nil || in.ready != nil {
		return in, err
	}
	if err := a.empty(ctx, in.key); err != nil {
		return in, err
	}
	if err := in.arrive(ctx); err != nil {
		return in, clash(err)
	}
	return in, a.gone.addLines(p.Erased)
}

// Ready returns the receipt of a package that is here whole.
func (in *Incoming) Ready() (Receipt, bool) {
	if in.ready == nil {
		return Receipt{}, false
	}
	return *in.ready, true
}

// begin finds the crew's row and makes sure that nothing is lost with what is in it.
func (in *Incoming) begin(ctx context.Context) error {
	return in.a.change(func(ctx context.Context, tx *sql.Tx) error {
		var state CrewState
		var moves int64
		err := tx.QueryRowContext(ctx, `SELECT key, state, moves FROM crew WHERE id = ?`, in.p.Crew).Scan(&in.key, &state, &moves)
		if errors.Is(err, sql.ErrNoRows) {
			result, err := tx.ExecContext(ctx, `INSERT INTO crew (id, name, state) VALUES (?, ?, ?)`, in.p.Crew, in.p.Name, CrewArriving)
			if err == nil {
				in.key, err = result.LastInsertId()
			}
			return err
		}
		if err != nil {
			return fmt.Errorf("find crew: %w", err)
		}
		if state == CrewHere || state == CrewFrozen {
			return problem.Newf(problem.Conflict, "crew", "the crew %s is on this server already", in.p.Crew).
				WithHint("Nothing was changed. Unpack the file on the server that the crew is to move to.")
		}
		if in.p.Number <= moves {
			return problem.Newf(problem.Conflict, "crew", "the package is an old one: the crew %s has moved on since", in.p.Crew).
				WithHint("Nothing was changed. Pack the crew where it is now, and unpack that.")
		}
		if state == CrewHeld {
			r := Receipt{Crew: in.p.Crew}
			err := tx.QueryRowContext(ctx, `SELECT nonce FROM move WHERE crew = ? AND package = ? AND nonce IS NOT NULL`, in.key, in.p.Sum[:]).Scan(&r.Nonce)
			if err == nil {
				r.Package = in.p.Sum[:]
				in.ready = &r
				return nil
			}
			if !errors.Is(err, sql.ErrNoRows) {
				return err
			}
		}
		if state == CrewMoved {
			return setState(ctx, tx, in.key, CrewGone)
		}
		return setState(ctx, tx, in.key, CrewArriving)
	})
}

// arrive gives the emptied row another key, so that no server that had the crew before
// takes what it remembers for what is here now, and lets the phones in, which are told
// to wait.
func (in *Incoming) arrive(ctx context.Context) error {
	return in.a.change(func(ctx context.Context, tx *sql.Tx) error {
		var key int64
		if err := tx.QueryRowContext(ctx, `SELECT max(key) + 1 FROM crew`).Scan(&key); err != nil {
			return err
		}
		for _, statement := range []string{`DELETE FROM device WHERE crew = ?`, `DELETE FROM invite WHERE crew = ?`, `DELETE FROM audit WHERE crew = ?`, `DELETE FROM move WHERE crew = ?`} {
			if _, err := tx.ExecContext(ctx, statement, in.key); err != nil {
				return err
			}
		}
		if _, err := tx.ExecContext(ctx, `UPDATE crew SET key = ?, name = ?, state = ?, backed_up = 0, same_disk = 0 WHERE key = ?`, key, in.p.Name, CrewArriving, in.key); err != nil {
			return fmt.Errorf("enter the crew: %w", err)
		}
		in.key, in.at = key, State{key: key}
		in.ids = nil
		return in.enter(ctx, tx)
	})
}

// enter adds who may use the crew.
func (in *Incoming) enter(ctx context.Context, tx *sql.Tx) error {
	for _, d := range in.p.Access.Devices {
		_, err := tx.ExecContext(ctx, `INSERT INTO device (crew, id, name, role, token, since, seen, revoked, retry, used) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
			in.key, d.ID, d.Name, d.Role, d.Token, d.Since, d.Seen, d.Revoked, nilIfNone(d.Retry), d.Used)
		if err != nil {
			return fmt.Errorf("enter phone %s: %w", d.ID, err)
		}
	}
	for _, v := range in.p.Access.Invites {
		// Another crew's open invitation may begin with the same letters. It lives for
		// ten minutes, and an owner makes another.
		_, err := tx.ExecContext(ctx, `INSERT INTO invite (crew, id, role, secret, handle, salt, code, expires, tries) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)
			ON CONFLICT (handle) DO NOTHING`, in.key, v.ID, v.Role, v.Secret, v.Handle, v.Salt, v.Code, v.Expires, v.Tries)
		if err != nil {
			return fmt.Errorf("enter invitation %s: %w", v.ID, err)
		}
	}
	for _, l := range in.p.Access.Audit {
		if err := note(ctx, tx, in.key, l); err != nil {
			return err
		}
	}
	return nil
}

// clash says what it means when a package holds what another crew of this server has,
// or the same twice.
func clash(err error) error {
	var e sqlite3.Error
	if !errors.As(err, &e) || e.Code != sqlite3.ErrConstraint {
		return err
	}
	return problem.New(problem.Refused, "file", "the package holds what does not go together, or not with the other crews here", "Nothing of it is served. Pack the crew anew on its server.").WithCause(err)
}

func nilIfNone(b []byte) any {
	if len(b) == 0 {
		return nil
	}
	return b
}

// Events stores the next arrivals. They have to join on to those before.
func (in *Incoming) Events(ctx context.Context, list []MovedEvent) error {
	next := in.at
	err := in.a.change(func(ctx context.Context, tx *sql.Tx) (err error) {
		if in.ids == nil {
			if in.ids, err = loadStretches(ctx, tx, in.key, stretchSize); err != nil {
				return err
			}
		}
		for _, e := range list {
			if err := in.event(ctx, tx, &next, e); err != nil {
				return fmt.Errorf("arrival %d: %w", e.N, err)
			}
		}
		_, err = tx.ExecContext(ctx, updateCrew, next.Max, next.Head[:], next.Highest.String(), in.key)
		return err
	})
	if err != nil {
		in.ids = nil // it may have gone ahead of what is on the disk
		return clash(err)
	}
	in.at = next
	return nil
}

func (in *Incoming) event(ctx context.Context, tx *sql.Tx, at *State, e MovedEvent) error {
	o, err := event.ParseStamp(e.O)
	if err != nil || len(e.Sum) != len(event.Sum{}) || e.N != at.Max+1 {
		return errors.Join(errors.New("it does not join on"), err)
	}
	at.Max, at.Head, at.Highest = e.N, at.Head.Next(e.ID, o, event.Sum(e.Sum)), max(at.Highest, o)
	if _, err := tx.ExecContext(ctx, `INSERT INTO event (crew, n, id, o, sum, chain, relay, raw) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
		in.key, e.N, in.ids.prefix+e.ID, e.O, e.Sum, at.Head[:], e.Relay, e.Raw); err != nil {
		return err
	}
	if e.Standing != 0 {
		if _, err := tx.ExecContext(ctx, `INSERT INTO standing (crew, rank, n) VALUES (?, ?, ?)`, in.key, e.Standing, e.N); err != nil {
			return err
		}
	}
	return in.ids.added(ctx, tx, hashOf(e.ID))
}

// Hold ends the unpacking, if all came, and returns the receipt.
func (in *Incoming) Hold(ctx context.Context) (Receipt, error) {
	if in.at.Max != in.p.Max || in.at.Head != in.p.Head {
		return Receipt{}, fmt.Errorf("%d arrivals came of %d, or others", in.at.Max, in.p.Max)
	}
	nonce, err := in.a.secret(nonceSize)
	if err != nil {
		return Receipt{}, err
	}
	return Receipt{Crew: in.p.Crew, Nonce: nonce, Package: in.p.Sum[:]}, in.a.change(func(ctx context.Context, tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, `INSERT INTO move (crew, number, public, nonce, package) VALUES (?, ?, ?, ?, ?)`,
			in.key, in.p.Number, in.p.Public, nonce, in.p.Sum[:]); err != nil {
			return fmt.Errorf("note the move: %w", err)
		}
		return setState(ctx, tx, in.key, CrewHeld)
	})
}
