package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/base64"
	"errors"
	"fmt"

	"kerfside/calc/problem"
)

// Limits of an invitation.
const (
	InviteLife = 10 * 60 * 1000 // ms
	MaxTries   = 5              // codes that begin like it; of the 35 bits behind them each finds 1 in 34 thousand million
	maxInvites = 20             // open ones of a crew
)

// Invite is an invitation just made. Secret and Code are told once and not kept.
type Invite struct {
	Crew, ID string
	Role     Role
	Secret   string // 128 bits, for the link
	Code     string // 50 bits, to be typed
	Expires  int64  // ms since 1970 UTC
}

// Invite makes an invitation, which costs as much as checking a code.
func (a *Access) Invite(crew string, role Role, by string, now int64) (Invite, error) {
	v := Invite{Crew: crew, Role: role, Expires: now + InviteLife}
	var err error
	if v.ID, err = a.id(); err != nil {
		return Invite{}, err
	}
	secret, err := a.secret(16)
	if err != nil {
		return Invite{}, err
	}
	v.Secret = base64.RawURLEncoding.EncodeToString(secret)
	sum := sha256.Sum256([]byte(v.Secret))
	salt, err := a.secret(16)
	if err != nil {
		return Invite{}, err
	}
	if v.Code, err = a.newCode(); err != nil {
		return Invite{}, err
	}
	hash, err := hashCode(v.Code, salt)
	if err != nil {
		return Invite{}, err
	}
	err = a.changeCrew(crew, func(ctx context.Context, tx *sql.Tx, key int64) error {
		if _, err := tx.ExecContext(ctx, `DELETE FROM invite WHERE crew = ? AND expires <= ?`, key, now); err != nil {
			return fmt.Errorf("clear invitations: %w", err)
		}
		var open int
		if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM invite WHERE crew = ?`, key).Scan(&open); err != nil {
			return fmt.Errorf("count invitations: %w", err)
		}
		if open >= maxInvites {
			return problem.Newf(problem.Refused, "", "the crew has %d open invitations", open).WithHint("Use one of them, or wait ten minutes.")
		}
		if _, err := tx.ExecContext(ctx, `INSERT INTO invite (crew, id, role, secret, handle, salt, code, expires) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
			key, v.ID, role, sum[:], v.Code[:handleLength], salt, hash, v.Expires); err != nil {
			return fmt.Errorf("add invitation: %w", err)
		}
		return note(ctx, tx, key, AuditLine{At: now, What: Invited, Who: by, About: v.ID, More: string(role)})
	})
	if err != nil {
		return Invite{}, err
	}
	return v, nil
}

// newCode draws a code whose beginning no other invitation has.
func (a *Access) newCode() (string, error) {
	for range 100 {
		random, err := a.secret(codeLength)
		if err != nil {
			return "", err
		}
		code := codeOf(random)
		var taken int
		if err := a.read.QueryRow(`SELECT count(*) FROM invite WHERE handle = ?`, code[:handleLength]).Scan(&taken); err != nil {
			return "", fmt.Errorf("look up a handle: %w", err)
		}
		if taken == 0 {
			return code, nil
		}
	}
	return "", errors.New("no code is free; far too many invitations are open")
}

// Withdraw takes an open invitation back. One that is gone already is no error.
func (a *Access) Withdraw(crew, id, by string, now int64) error {
	return a.changeCrew(crew, func(ctx context.Context, tx *sql.Tx, key int64) error {
		result, err := tx.ExecContext(ctx, `DELETE FROM invite WHERE crew = ? AND id = ?`, key, id)
		if err != nil {
			return fmt.Errorf("withdraw invitation: %w", err)
		}
		if n, err := result.RowsAffected(); err != nil || n == 0 {
			return err
		}
		return note(ctx, tx, key, AuditLine{At: now, What: Withdrawn, Who: by, About: id})
	})
}
