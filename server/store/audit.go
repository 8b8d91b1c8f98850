package store

import (
	"context"
	"database/sql"
	"fmt"
)

// What an audit line tells of.
const (
	CrewAdded = "crew-added"
	Invited   = "invited"
	Withdrawn = "withdrawn" // an invitation
	Enrolled  = "enrolled"
	Revoked   = "revoked"
	Renamed   = "renamed"
	RoleSet   = "role-set"
	Exported  = "exported"
	Restored  = "restored"
	Erased    = "erased"
	Forgotten = "forgotten" // a device; the line does not say which

	Packed     = "packed"      // the crew, to move to another server
	Kept       = "kept"        // that was called off
	HandedOver = "handed-over" // the crew, by the old server
	TakenUp    = "taken-up"    // the crew, by the new one
)

// AuditLine is a line of the audit. It never holds a token, a code or an entry.
type AuditLine struct {
	At    int64  // ms since 1970 UTC
	What  string // a word of the list above
	Who   string // device, "" for the command line
	About string // device or invitation, "" for the crew as a whole
	More  string // a role, a count
}

// Audit adds a line for what was done to a crew's data as a whole; what is done
// by the other methods is noted by them.
func (a *Access) Audit(crew string, l AuditLine) error {
	return a.changeCrew(crew, func(ctx context.Context, tx *sql.Tx, key int64) error { return note(ctx, tx, key, l) })
}

// note adds a line in the transaction of what it tells of.
func note(ctx context.Context, tx *sql.Tx, crew int64, l AuditLine) error {
	_, err := tx.ExecContext(ctx, `INSERT INTO audit (crew, at, what, who, about, more) VALUES (?, ?, ?, ?, ?, ?)`,
		crew, l.At, l.What, l.Who, l.About, l.More)
	if err != nil {
		return fmt.Errorf("note in the audit: %w", err)
	}
	return nil
}

// AuditLines returns the newest lines of a crew, newest first.
func (a *Access) AuditLines(ctx context.Context, crew string, limit int) ([]AuditLine, error) {
	rows, err := a.read.QueryContext(ctx, `SELECT at, what, who, about, more FROM audit
		WHERE crew = (SELECT key FROM crew WHERE id = ?) ORDER BY key DESC LIMIT ?`, crew, limit)
	if err != nil {
		return nil, fmt.Errorf("read audit: %w", err)
	}
	defer rows.Close()
	var list []AuditLine
	for rows.Next() {
		var l AuditLine
		if err := rows.Scan(&l.At, &l.What, &l.Who, &l.About, &l.More); err != nil {
			return nil, fmt.Errorf("read audit: %w", err)
		}
		list = append(list, l)
	}
	return list, rows.Err()
}
