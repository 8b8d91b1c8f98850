package load

import (
	"context"
	"database/sql"
	"errors"
	"net/url"
	"sync"

	_ "github.com/mattn/go-sqlite3" // the driver "sqlite3"
)

// Raw is what SQLite can do at best with the same bytes, to tell what a server
// around it costs: one table that only grows, no network, and each batch committed
// as safely as our store does, with the driver and the pragmas of server/store.
type Raw struct {
	mu     sync.Mutex // writers stand in line: those that poll for their turn take longer
	db     *sql.DB
	insert *sql.Stmt
}

// NewRaw makes a database in a file that does not exist yet.
func NewRaw(path string) (*Raw, error) {
	options := url.Values{"_busy_timeout": {"5000"}, "_foreign_keys": {"on"}, "_journal_mode": {"WAL"}, "_synchronous": {"FULL"}, "_txlock": {"immediate"}, "_cache_size": {"-4000"}}
	db, err := sql.Open("sqlite3", "file:"+(&url.URL{Path: path}).EscapedPath()+"?"+options.Encode())
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(1)
	if _, err := db.Exec(`PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA wal_autocheckpoint = 4000;
		CREATE TABLE event (n INTEGER PRIMARY KEY, raw BLOB NOT NULL) STRICT`); err != nil {
		db.Close()
		return nil, err
	}
	insert, err := db.Prepare(`INSERT INTO event (raw) VALUES (?)`)
	if err != nil {
		db.Close()
		return nil, err
	}
	return &Raw{db: db, insert: insert}, nil
}

// Close closes the database.
func (r *Raw) Close() error { return errors.Join(r.insert.Close(), r.db.Close()) }

// Device returns one that shares the connection with all others.
func (r *Raw) Device(int, bool) Device { return r }

// Exchange stores a batch in a transaction of its own.
func (r *Raw) Exchange(ctx context.Context, events [][]byte) (int, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	tx, err := r.db.BeginTx(ctx, nil)
	if err != nil {
		return 0, err
	}
	defer tx.Rollback()
	insert := tx.StmtContext(ctx, r.insert)
	for _, raw := range events {
		if _, err := insert.ExecContext(ctx, raw); err != nil {
			return 0, err
		}
	}
	return 0, tx.Commit()
}

// Held counts what the file holds.
func (r *Raw) Held(ctx context.Context) (count int64, err error) {
	err = r.db.QueryRowContext(ctx, `SELECT count(*) FROM event`).Scan(&count)
	return count, err
}

var _ Server = (*Raw)(nil)
