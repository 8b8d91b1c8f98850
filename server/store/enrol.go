package store

import (
	"context"
	"crypto/sha256"
	"crypto/subtle"
	"database/sql"
	"encoding/base64"
	"errors"
	"fmt"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// Enrolment is a phone that asks to join.
type Enrolment struct {
	Secret string // of a link, or
	Code   string // as ReadCode returns it
	Name   string // what to call the phone
	Device string // its own id, "" if it has none
	Token  string // the token that it has now, "" if none
	Retry  string // a long secret of its own, "" if none: see again
	Now    int64
}

// retryLife is how long a phone may ask again for an answer that it has not had,
// ms: it may be in the field by then. The first use of its token ends that.
const retryLife = 24 * 3600 * 1000

// errNotGood is the problem of an invitation that is wrong, used, expired or
// unknown: whoever guesses learns nothing.
var errNotGood = problem.New(problem.NotFound, "code", "this invitation is not good, or not good any more",
	"It works once, for ten minutes. Ask an owner for a new one.")

// Enrol lets a phone join the crew of its invitation and returns it with its new
// token, which is not kept. The invitation is used up by it; a phone whose answer
// was lost shows its Retry once more and is given another token.
//
// A phone keeps its id unless another phone of the crew has it. One that shows a
// token of the crew is that phone again: its old token is dead from then on, and
// an owner stays one.
func (a *Access) Enrol(e Enrolment) (Device, string, error) {
	name, err := readName("name", e.Name)
	if err != nil {
		return Device{}, "", err
	}
	if e.Device != "" && !event.IsName(e.Device) {
		return Device{}, "", problem.New(problem.Malformed, "device", "that is no id of a phone", "It has 1 to 64 letters, digits, dots, dashes or underscores.")
	}
	if e.Retry != "" && len(e.Retry) < minRetry {
		return Device{}, "", problem.New(problem.Malformed, "retry", "that is no secret to ask again with", "Load the app again.")
	}
	secret, err := a.secret(32)
	if err != nil {
		return Device{}, "", err
	}
	token := base64.RawURLEncoding.EncodeToString(secret)
	if e.Retry != "" {
		if d, err := a.again(e, token); err == nil || !errors.Is(err, sql.ErrNoRows) {
			return d, token, err
		}
	}
	taken, err := a.match(e)
	if err != nil {
		return Device{}, "", err
	}
	fresh, err := a.id()
	if err != nil {
		return Device{}, "", err
	}
	d := Device{ID: e.Device, Name: name, Since: e.Now, Seen: e.Now}
	err = a.change(func(ctx context.Context, tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, `DELETE FROM invite WHERE crew = ? AND id = ? AND expires > ? RETURNING role`,
			taken.crew, taken.id, e.Now).Scan(&d.Role)
		if errors.Is(err, sql.ErrNoRows) {
			return errNotGood // another phone was faster
		}
		if err != nil {
			return fmt.Errorf("take the invitation: %w", err)
		}
		if err := tx.QueryRowContext(ctx, `SELECT id FROM crew WHERE key = ?`, taken.crew).Scan(&d.Crew); err != nil {
			return fmt.Errorf("find the crew: %w", err)
		}
		if err := joining(ctx, tx, d.Crew); err != nil {
			return err // and the invitation is not used up
		}
		if err := enter(ctx, tx, taken.crew, &d, e.Token, token, fresh); err != nil {
			return err
		}
		if e.Retry == "" {
			return nil
		}
		// Of two that ask with one secret, a phone and its copy, the last may ask again.
		if _, err := tx.ExecContext(ctx, `UPDATE device SET retry = NULL WHERE retry = ?`, sum(e.Retry)); err != nil {
			return fmt.Errorf("take the secret to ask again with: %w", err)
		}
		if _, err := tx.ExecContext(ctx, `UPDATE device SET retry = ? WHERE crew = ? AND id = ?`, sum(e.Retry), taken.crew, d.ID); err != nil {
			return fmt.Errorf("keep the secret to ask again with: %w", err)
		}
		return nil
	})
	if err != nil {
		return Device{}, "", err
	}
	return d, token, nil
}

// minRetry is the length of the shortest secret to ask again with: 128 bits.
const minRetry = 22

// again gives a phone whose answer was lost a token in place of the one that it
// never got; sql.ErrNoRows if no phone joined with e's secret within the day, or if
// its token was used since and e does not show that. The phone forgets the secret
// once it is in.
func (a *Access) again(e Enrolment, token string) (Device, error) {
	const mayAsk = selectDevice + ` WHERE retry = ? AND revoked = 0 AND since > ? AND (used = 0 OR token = ?)`
	which := []any{sum(e.Retry), e.Now - retryLife, sum(e.Token)}
	// Whoever guesses is not to keep others from writing, so it is read first.
	d, err := scanDevice(a.read.QueryRow(mayAsk, which...).Scan)
	if err != nil {
		return d, err
	}
	err = a.change(func(ctx context.Context, tx *sql.Tx) (err error) {
		d, err = scanDevice(tx.QueryRowContext(ctx, mayAsk, which...).Scan)
		if err != nil {
			return err
		}
		if err := joining(ctx, tx, d.Crew); err != nil {
			return err
		}
		var crew int64
		if err := tx.QueryRowContext(ctx, `UPDATE device SET token = ?, used = 0 WHERE retry = ? RETURNING crew`, sum(token), sum(e.Retry)).Scan(&crew); err != nil {
			return fmt.Errorf("give a token again: %w", err)
		}
		return note(ctx, tx, crew, AuditLine{At: e.Now, What: Enrolled, Who: d.ID, About: d.ID, More: string(d.Role)})
	})
	return d, err
}

// joining returns why no phone can join a crew now. Of an invitation that has moved on
// with its crew this server knows no more than of any other: a proxy asks the next.
func joining(ctx context.Context, tx *sql.Tx, crew string) error {
	var state CrewState
	if err := tx.QueryRowContext(ctx, `SELECT state FROM crew WHERE id = ?`, crew).Scan(&state); err != nil {
		return fmt.Errorf("find the crew: %w", err)
	}
	if state == CrewMoved || state == CrewGone {
		return errNotGood
	}
	return state.away()
}

// enter adds d, or makes it anew if the phone shows its old token.
func enter(ctx context.Context, tx *sql.Tx, crew int64, d *Device, old, token, fresh string) error {
	before, err := scanDevice(tx.QueryRowContext(ctx, selectDevice+` WHERE device.crew = ? AND token = ?`, crew, sum(old)).Scan)
	if err != nil && !errors.Is(err, sql.ErrNoRows) {
		return fmt.Errorf("find the phone: %w", err)
	}
	known := err == nil
	if known && before.Revoked == 0 && before.Role == Owner {
		d.Role = Owner
	}
	if known && d.ID == "" {
		d.ID = before.ID
	}
	var others int
	if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM device WHERE crew = ? AND id = ? AND token <> ?`, crew, d.ID, sum(old)).Scan(&others); err != nil {
		return fmt.Errorf("look for the id: %w", err)
	}
	if d.ID == "" || others > 0 {
		d.ID = fresh
	}
	if known && before.ID != d.ID {
		if _, err := tx.ExecContext(ctx, `UPDATE device SET revoked = ? WHERE crew = ? AND id = ? AND revoked = 0`, d.Since, crew, before.ID); err != nil {
			return fmt.Errorf("end the old token: %w", err)
		}
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO device (crew, id, name, role, token, since, seen) VALUES (?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (crew, id) DO UPDATE SET name = excluded.name, role = excluded.role, token = excluded.token,
			since = excluded.since, seen = excluded.seen, revoked = 0, retry = NULL, used = 0`,
		crew, d.ID, d.Name, d.Role, sum(token), d.Since, d.Seen)
	if err != nil {
		return fmt.Errorf("add device: %w", err)
	}
	return note(ctx, tx, crew, AuditLine{At: d.Since, What: Enrolled, Who: d.ID, About: d.ID, More: string(d.Role)})
}

// match finds the invitation that e's secret or code belongs to.
func (a *Access) match(e Enrolment) (taken struct {
	crew int64
	id   string
}, err error) {
	ctx := context.Background()
	if e.Code == "" { // whoever guesses at the code does not keep out who has the link
		err := a.read.QueryRowContext(ctx, `SELECT crew, id FROM invite WHERE secret = ? AND expires > ?`,
			sum(e.Secret), e.Now).Scan(&taken.crew, &taken.id)
		if errors.Is(err, sql.ErrNoRows) {
			return taken, errNotGood
		}
		return taken, err
	}
	salt, want := make([]byte, 16), make([]byte, sha256.Size)
	err = a.change(func(ctx context.Context, tx *sql.Tx) error { // the try counts before its answer is known
		err := tx.QueryRowContext(ctx, `UPDATE invite SET tries = tries + 1 WHERE handle = ? AND tries < ? AND expires > ? RETURNING crew, id, salt, code`,
			e.Code[:handleLength], MaxTries, e.Now).Scan(&taken.crew, &taken.id, &salt, &want)
		if errors.Is(err, sql.ErrNoRows) {
			return nil
		}
		return err
	})
	if err != nil {
		return taken, err
	}
	got, err := hashCode(e.Code, salt) // for an unknown one as well, so that it takes as long
	if err != nil {
		return taken, err
	}
	if subtle.ConstantTimeCompare(got, want) != 1 || taken.id == "" {
		return taken, errNotGood
	}
	return taken, nil
}

// sum is what is kept of a token or a long secret.
func sum(secret string) []byte {
	s := sha256.Sum256([]byte(secret))
	return s[:]
}
