package store

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"slices"
)

// KeepAccess carries who may use the crews over from the store at from, which a
// restore is about to put aside, into the restored copy at to: a phone that was
// taken off since the backup stays off, one that joined since stays in, and an
// invitation that was used since is not good again. What only the backup knows
// stays. It is false, and nothing was carried over, if the former store is not
// there or cannot be read.
func KeepAccess(ctx context.Context, from, to string) (bool, error) {
	if _, err := os.Stat(from); err != nil {
		return false, nil
	}
	db := connect(to, writing)
	defer db.Close()
	if err := migrate(ctx, db, formKept); err != nil {
		return false, err
	}
	if _, err := db.ExecContext(ctx, `ATTACH ? AS former`, "file:"+(&url.URL{Path: from}).EscapedPath()+"?mode=ro"); err != nil {
		return false, nil
	}
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return false, err
	}
	defer tx.Rollback()
	statements := carryOver
	var form int
	if err := tx.QueryRowContext(ctx, `PRAGMA former.user_version`).Scan(&form); err == nil && form >= movesSince {
		statements = append(slices.Clip(statements), carryMoves...)
	}
	for _, statement := range statements {
		if _, err := tx.ExecContext(ctx, statement); err != nil {
			return false, nil // the former store is damaged, or of a program that had no access yet
		}
	}
	if err := tx.Commit(); err != nil {
		return false, fmt.Errorf("keep who may use the crews: %w", err)
	}
	return true, nil
}

// movesSince is the migration that made crews able to move.
const movesSince = 8

// carryMoves keeps a crew that another server has from being served here again because
// a backup is of the time before. A copy that was being unpacked is as the backup has
// it, or is unpacked anew.
var carryMoves = []string{
	`DELETE FROM main.move WHERE crew IN (SELECT c.key FROM main.crew AS c JOIN former.crew AS f ON f.id = c.id WHERE f.state NOT IN ('arriving', 'held'))`,
	`INSERT INTO main.move (crew, number, seed, public, nonce, package)
		SELECT c.key, m.number, m.seed, m.public, m.nonce, m.package
		FROM former.move AS m JOIN former.crew AS f ON f.key = m.crew JOIN main.crew AS c ON c.id = f.id WHERE f.state NOT IN ('arriving', 'held')`,
	`UPDATE main.crew AS c SET moves = max(c.moves, f.moves), state = CASE
			WHEN f.state NOT IN ('arriving', 'held') THEN f.state
			WHEN c.state IN ('here', 'frozen') THEN 'moved'
			ELSE c.state END
		FROM former.crew AS f WHERE f.id = c.id`,
}

// carryOver is what KeepAccess does. Keys are of one database alone, so crews
// are matched by id.
var carryOver = []string{
	// Phones of a crew that is younger than the backup bring its entries.
	`INSERT INTO crew (id, name) SELECT id, name FROM former.crew AS f
		WHERE id NOT IN (SELECT id FROM main.crew) AND EXISTS (SELECT 1 FROM former.device AS d WHERE d.crew = f.key)`,
	`INSERT INTO device (crew, id, name, role, token, since, seen, revoked)
		SELECT c.key, d.id, d.name, d.role, d.token, d.since, d.seen, d.revoked
		FROM former.device AS d JOIN former.crew AS f ON f.key = d.crew JOIN main.crew AS c ON c.id = f.id WHERE true
		ON CONFLICT (crew, id) DO UPDATE SET name = excluded.name, role = excluded.role, token = excluded.token,
			seen = excluded.seen, revoked = excluded.revoked, used = 1`,
	`DELETE FROM main.invite WHERE crew IN (SELECT key FROM main.crew WHERE id IN (SELECT id FROM former.crew))`,
	`INSERT INTO invite (crew, id, role, secret, handle, salt, code, expires, tries)
		SELECT c.key, i.id, i.role, i.secret, i.handle, i.salt, i.code, i.expires, i.tries
		FROM former.invite AS i JOIN former.crew AS f ON f.key = i.crew JOIN main.crew AS c ON c.id = f.id`,
	`INSERT INTO audit (crew, at, what, who, about, more)
		SELECT c.key, a.at, a.what, a.who, a.about, a.more
		FROM former.audit AS a JOIN former.crew AS f ON f.key = a.crew JOIN main.crew AS c ON c.id = f.id
		WHERE NOT EXISTS (SELECT 1 FROM main.audit AS m WHERE m.crew = c.key AND m.at = a.at AND m.what = a.what AND m.who = a.who AND m.about = a.about)
		ORDER BY a.key`,
}
