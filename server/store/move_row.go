package store

import (
	"context"
	"fmt"

	"kerfside/calc/journal/event"
)

// What travels of a crew, row by row. Times are ms since 1970 UTC.

// MovedEvent is an arrival. Its place in the chain follows from those before it.
type MovedEvent struct {
	N        int64  `json:"n"`
	O        string `json:"o"`
	ID       string `json:"id"`
	Sum      []byte `json:"sum"`
	Relay    string `json:"relay"`
	Standing int    `json:"standing,omitempty"` // of what an erased event was too
	Raw      []byte `json:"raw"`
}

// MovedDevice is a phone that has joined.
type MovedDevice struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Role    Role   `json:"role"`
	Token   []byte `json:"token"` // its SHA-256
	Since   int64  `json:"since"`
	Seen    int64  `json:"seen"`
	Revoked int64  `json:"revoked"`
	Retry   []byte `json:"retry,omitempty"`
	Used    bool   `json:"used"`
}

// MovedInvite is an open invitation.
type MovedInvite struct {
	ID      string `json:"id"`
	Role    Role   `json:"role"`
	Secret  []byte `json:"secret"`
	Handle  string `json:"handle"`
	Salt    []byte `json:"salt"`
	Code    []byte `json:"code"`
	Expires int64  `json:"expires"`
	Tries   int64  `json:"tries"`
}

// MovedAccess is who may use a crew. What the audit says comes oldest first.
type MovedAccess struct {
	Devices []MovedDevice `json:"devices"`
	Invites []MovedInvite `json:"invites"`
	Audit   []AuditLine   `json:"audit"`
}

// Leaving is a frozen crew as it is read to be packed.
type Leaving struct {
	Name    string
	Max     int64
	Head    event.Chain
	Highest event.Stamp

	a   *Access
	id  string
	key int64
}

// Leave opens a crew that Freeze has frozen.
func (a *Access) Leave(ctx context.Context, crew string) (*Leaving, error) {
	l := &Leaving{a: a, id: crew}
	var state CrewState
	var head []byte
	var highest string
	err := a.read.QueryRowContext(ctx, `SELECT key, name, state, max, head, highest FROM crew WHERE id = ?`, crew).Scan(&l.key, &l.Name, &state, &l.Max, &head, &highest)
	if err == nil && state != CrewFrozen {
		return nil, notSo(crew, state, "be packed")
	}
	if err == nil && len(head) != len(l.Head) {
		err = errSize(head)
	}
	if err == nil {
		l.Head = event.Chain(head)
		l.Highest, err = event.ParseStamp(highest)
	}
	if err != nil {
		return nil, fmt.Errorf("read crew %s: %w", crew, err)
	}
	return l, nil
}

// Events hands out all arrivals by their numbers.
func (l *Leaving) Events(ctx context.Context, each func(MovedEvent) error) error {
	rows, err := l.a.read.QueryContext(ctx, `SELECT n, id, o, sum, relay, raw,
		coalesce((SELECT s.rank FROM standing s WHERE s.crew = e.crew AND s.rank IN (1, 2, 3) AND s.n = e.n), 0)
		FROM event e WHERE crew = ? ORDER BY n`, l.key)
	if err != nil {
		return fmt.Errorf("read arrivals: %w", err)
	}
	defer rows.Close()
	for rows.Next() {
		var e MovedEvent
		if err := rows.Scan(&e.N, &e.ID, &e.O, &e.Sum, &e.Relay, &e.Raw, &e.Standing); err != nil {
			return fmt.Errorf("read arrivals: %w", err)
		}
		e.ID = entryID(e.ID)
		if err := each(e); err != nil {
			return err
		}
	}
	return rows.Err()
}

// Access returns who may use the crew.
func (l *Leaving) Access(ctx context.Context) (m MovedAccess, err error) {
	err = l.rows(ctx, `SELECT id, name, role, token, since, seen, revoked, retry, used FROM device WHERE crew = ? ORDER BY rowid`, func(scan func(...any) error) error {
		var d MovedDevice
		err := scan(&d.ID, &d.Name, &d.Role, &d.Token, &d.Since, &d.Seen, &d.Revoked, &d.Retry, &d.Used)
		m.Devices = append(m.Devices, d)
		return err
	})
	if err != nil {
		return m, fmt.Errorf("read devices: %w", err)
	}
	err = l.rows(ctx, `SELECT id, role, secret, handle, salt, code, expires, tries FROM invite WHERE crew = ? ORDER BY rowid`, func(scan func(...any) error) error {
		var v MovedInvite
		err := scan(&v.ID, &v.Role, &v.Secret, &v.Handle, &v.Salt, &v.Code, &v.Expires, &v.Tries)
		m.Invites = append(m.Invites, v)
		return err
	})
	if err != nil {
		return m, fmt.Errorf("read invitations: %w", err)
	}
	err = l.rows(ctx, `SELECT at, what, who, about, more FROM audit WHERE crew = ? ORDER BY key`, func(scan func(...any) error) error {
		var line AuditLine
		err := scan(&line.At, &line.What, &line.Who, &line.About, &line.More)
		m.Audit = append(m.Audit, line)
		return err
	})
	if err != nil {
		return m, fmt.Errorf("read audit: %w", err)
	}
	return m, nil
}

// rows reads what a query finds of the crew.
func (l *Leaving) rows(ctx context.Context, query string, each func(scan func(...any) error) error) error {
	rows, err := l.a.read.QueryContext(ctx, query, l.key)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		if err := each(rows.Scan); err != nil {
			return err
		}
	}
	return rows.Err()
}

// Erased returns the lines of the crew in the list of erasures, each with its end.
func (l *Leaving) Erased() ([]byte, error) { return l.a.gone.linesOf(l.id) }

// Pictures is the folder in which pictures of all crews lie, see PictureFile.
func (a *Access) Pictures() string { return a.pictures }
