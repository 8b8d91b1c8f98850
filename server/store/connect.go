package store

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"fmt"
	"net/url"
	"strings"

	"github.com/mattn/go-sqlite3"
)

// oldest is the first SQLite that does not lose committed writes when a WAL is
// reset while another connection checkpoints it: 3.51.3, see the release notes
// of SQLite for that version.
const oldest = 3051003

// SQLite is the version of SQLite in this program.
func SQLite() string {
	version, _, _ := sqlite3.Version()
	return version
}

// checkVersion refuses an SQLite older than that.
func checkVersion() error {
	version, number, _ := sqlite3.Version()
	if number < oldest {
		return fmt.Errorf("this program was built with SQLite %s, which can lose committed entries; build it with 3.51.3 or newer", version)
	}
	return nil
}

// Roles of a connection.
const (
	writing = iota
	reading
)

// connect returns a pool of connections to path. The pragmas stand in the name
// that each connection is opened with, so that none can be without them.
func connect(path string, role int) *sql.DB {
	c := connector{dsn(path, role), common}
	if role == writing {
		c.pragmas += fmt.Sprintf(`PRAGMA wal_autocheckpoint = %d;`, walPages)
	}
	db := sql.OpenDB(c)
	if role == writing {
		db.SetMaxOpenConns(1)
		return db
	}
	db.SetMaxOpenConns(4)
	return db
}

// dsn returns the data source name for path.
func dsn(path string, role int) string {
	options := url.Values{"_busy_timeout": {"5000"}, "_foreign_keys": {"on"}}
	if role == writing {
		options.Set("_journal_mode", "WAL")
		options.Set("_synchronous", "FULL")
		options.Set("_txlock", "immediate")
		options.Set("_cache_size", "-4000") // what a full group of batches touches
	} else {
		options.Set("mode", "ro")
		options.Set("_query_only", "on")
		options.Set("_cache_size", "-1000") // 1 MiB: pages are read once and in order
	}
	if InMemory(path) {
		if strings.Contains(path, "?") {
			return path + "&" + options.Encode()
		}
		return path + "?" + options.Encode()
	}
	return "file:" + (&url.URL{Path: path}).EscapedPath() + "?" + options.Encode()
}

// connector opens connections without registering a driver for the whole program.
type connector struct{ dsn, pragmas string }

const common = `PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON;`

// walPages is how long the log may get, in pages, before it is written into the
// file. Ids are random, so a large journal's index is touched all over, and a
// longer log writes each of its pages less often; 16 MB of it are read again in
// some 20 ms after a kill.
const walPages = 4000

func (c connector) Connect(context.Context) (driver.Conn, error) { return c.Driver().Open(c.dsn) }

// Driver adds the pragmas that have no place in a data source name.
func (c connector) Driver() driver.Driver {
	return &sqlite3.SQLiteDriver{ConnectHook: func(conn *sqlite3.SQLiteConn) error {
		_, err := conn.Exec(c.pragmas, nil)
		return err
	}}
}
