package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"kerfside/calc/problem"
)

// Role is what a device may do in its crew.
type Role string

const (
	Owner  Role = "owner"  // invites, renames, revokes
	Member Role = "member" // reads and writes the journal
)

// ReadRole reads a role.
func ReadRole(text string) (Role, error) {
	if r := Role(text); r == Owner || r == Member {
		return r, nil
	}
	return "", problem.New(problem.Unknown, "role", "there is no such role", "A phone is an owner or a member.")
}

// Device is a phone that has joined a crew.
type Device struct {
	Crew, ID, Name string
	Role           Role
	Since, Seen    int64 // ms since 1970 UTC
	Revoked        int64 // when, or 0

	fresh bool // it may still ask for its answer again, see Enrol
}

const (
	deviceColumns = `crew.id, device.id, device.name, role, since, seen, revoked, retry IS NOT NULL AND used = 0`
	fromDevice    = ` FROM device JOIN crew ON crew.key = device.crew`
	selectDevice  = `SELECT ` + deviceColumns + fromDevice
)

func scanDevice(scan func(...any) error) (d Device, err error) {
	err = scan(&d.Crew, &d.ID, &d.Name, &d.Role, &d.Since, &d.Seen, &d.Revoked, &d.fresh)
	return d, err
}

// DeviceOf returns the device that a token belongs to; a problem if there is none or
// if it was revoked. With the problem of a crew that is not served here the device is
// returned too: it may be told where to ask.
func (a *Access) DeviceOf(ctx context.Context, token string) (Device, error) {
	d, _, err := a.deviceOf(ctx, token)
	return d, err
}

// selectToken finds a device, and the key and state of its crew, by its token.
const selectToken = `SELECT ` + deviceColumns + `, crew.key, crew.state` + fromDevice + ` WHERE token = ?`

// deviceOf returns with the device the key of its crew.
func (a *Access) deviceOf(ctx context.Context, token string) (d Device, key int64, err error) {
	find, err := a.findToken()
	if err != nil {
		return d, 0, fmt.Errorf("look up a token: %w", err)
	}
	var state CrewState
	d, err = scanDevice(func(to ...any) error {
		return find.QueryRowContext(ctx, sum(token)).Scan(append(to, &key, &state)...)
	})
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return d, 0, ErrNoToken
	case err != nil:
		return d, 0, fmt.Errorf("look up a token: %w", err)
	case state != CrewHere:
		return d, key, state.away()
	case d.Revoked != 0:
		return d, key, errRevoked
	}
	if d.fresh {
		d, err = a.settle(d)
	}
	return d, key, err
}

// settle notes that the token of d was used, so that whoever kept what the phone
// asked to join with cannot take its place. While nothing can be written that
// cannot either.
func (a *Access) settle(d Device) (Device, error) {
	d.fresh = false
	if a.writable() != nil {
		return d, nil
	}
	return d, a.changeCrew(d.Crew, func(ctx context.Context, tx *sql.Tx, key int64) error {
		_, err := tx.ExecContext(ctx, `UPDATE device SET used = 1 WHERE crew = ? AND id = ?`, key, d.ID)
		return err
	})
}

// ErrNoToken is the problem of a phone that has not joined.
var ErrNoToken = problem.New(problem.NoToken, "", "this phone has not joined the crew",
	"What you enter stays on this phone. Ask an owner for an invitation.")

var errRevoked = problem.New(problem.Revoked, "", "this phone was taken out of the crew",
	"What you enter stays on this phone. Export it, or ask an owner for an invitation.")

// Devices lists the devices of a crew in the order in which they joined, the
// revoked among them.
func (a *Access) Devices(ctx context.Context, crew string) ([]Device, error) {
	rows, err := a.read.QueryContext(ctx, selectDevice+` WHERE crew.id = ? ORDER BY since, device.rowid`, crew)
	if err != nil {
		return nil, fmt.Errorf("read devices: %w", err)
	}
	defer rows.Close()
	var list []Device
	for rows.Next() {
		d, err := scanDevice(rows.Scan)
		if err != nil {
			return nil, fmt.Errorf("read devices: %w", err)
		}
		list = append(list, a.freshen(d))
	}
	return list, rows.Err()
}

// DeviceByID returns a device of a crew.
func (a *Access) DeviceByID(ctx context.Context, crew, id string) (Device, error) {
	d, err := scanDevice(a.read.QueryRowContext(ctx, selectDevice+` WHERE crew.id = ? AND device.id = ?`, crew, id).Scan)
	if errors.Is(err, sql.ErrNoRows) {
		return d, errNoDevice
	}
	return a.freshen(d), err
}

var errNoDevice = problem.New(problem.NotFound, "id", "there is no such phone in the crew", "Look at the list of phones again.")

// Change is what may be changed of a device; what is empty stays as it is.
type Change struct {
	Name string
	Role Role
}

// ChangeDevice gives a device another name, another role, or both or neither.
// by is the device that asks, "" the command line.
func (a *Access) ChangeDevice(crew, id string, c Change, by string, now int64) error {
	if c.Name != "" {
		var err error
		if c.Name, err = readName("name", c.Name); err != nil {
			return err
		}
	}
	return a.changeCrew(crew, func(ctx context.Context, tx *sql.Tx, key int64) error {
		if c.Name != "" {
			if err := one(tx.ExecContext(ctx, `UPDATE device SET name = ? WHERE crew = ? AND id = ?`, c.Name, key, id)); err != nil {
				return err
			}
			if err := note(ctx, tx, key, AuditLine{At: now, What: Renamed, Who: by, About: id}); err != nil {
				return err
			}
		}
		if c.Role == "" {
			return nil
		}
		if c.Role == Member {
			if err := keepAnOwner(ctx, tx, key, id); err != nil {
				return err
			}
		}
		if err := one(tx.ExecContext(ctx, `UPDATE device SET role = ? WHERE crew = ? AND id = ? AND revoked = 0`, c.Role, key, id)); err != nil {
			return err
		}
		return note(ctx, tx, key, AuditLine{At: now, What: RoleSet, Who: by, About: id, More: string(c.Role)})
	})
}

// Revoke takes the token of a device away. From its return on no request of
// that device is answered, and one that waits for news ends. Only the command
// line may revoke the last owner: it can make another. One that was revoked before stays as it is.
func (a *Access) Revoke(crew, id, by string, now int64) error {
	defer a.ring(crew)
	return a.changeCrew(crew, func(ctx context.Context, tx *sql.Tx, key int64) error {
		var before int64
		err := tx.QueryRowContext(ctx, `SELECT revoked FROM device WHERE crew = ? AND id = ?`, key, id).Scan(&before)
		switch {
		case errors.Is(err, sql.ErrNoRows):
			return errNoDevice
		case err != nil:
			return fmt.Errorf("find device: %w", err)
		case before != 0:
			return nil
		}
		if by != "" {
			if err := keepAnOwner(ctx, tx, key, id); err != nil {
				return err
			}
		}
		if err := one(tx.ExecContext(ctx, `UPDATE device SET revoked = ? WHERE crew = ? AND id = ?`, now, key, id)); err != nil {
			return err
		}
		return note(ctx, tx, key, AuditLine{At: now, What: Revoked, Who: by, About: id})
	})
}

// keepAnOwner refuses to do without id if it is the only owner.
func keepAnOwner(ctx context.Context, tx *sql.Tx, crew int64, id string) error {
	var is, others int
	err := tx.QueryRowContext(ctx, `SELECT count(*) FILTER (WHERE id = ?), count(*) FILTER (WHERE id <> ?)
		FROM device WHERE crew = ? AND role = 'owner' AND revoked = 0`, id, id, crew).Scan(&is, &others)
	if err != nil {
		return fmt.Errorf("count owners: %w", err)
	}
	if is == 1 && others == 0 {
		return problem.New(problem.Refused, "id", "this phone is the crew's only owner", "Make another phone an owner first.")
	}
	return nil
}

// one says that there is no such device if a statement found none.
func one(result sql.Result, err error) error {
	if err != nil {
		return fmt.Errorf("change device: %w", err)
	}
	if n, err := result.RowsAffected(); err != nil || n == 0 {
		return errors.Join(errNoDevice, err)
	}
	return nil
}
