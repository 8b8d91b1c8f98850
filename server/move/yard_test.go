package move

import (
	"bytes"
	"context"
	"crypto/sha256"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	_ "github.com/mattn/go-sqlite3"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// host is a server's store with what lies beside it, and another crew that has nothing
// to do with any move.
type host struct {
	testing.TB
	*store.Store
	path    string
	staying string
}

const crew = storetest.Crew

// newHost opens a store with the crew that moves, or with one of its own.
func newHost(t testing.TB, name, first string) *host {
	t.Helper()
	path := filepath.Join(t.TempDir(), name+".db")
	s, err := store.Open(path, store.Options{Crew: first})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	h := &host{TB: t, Store: s, path: path}
	if h.staying, err = s.AddCrew("Weir Lane "+name, storetest.Now); err != nil {
		t.Fatal(err)
	}
	storetest.Join(t, s.Access, h.staying, store.Owner, "stays")
	h.push(h.staying, storetest.Events(t, "staying", 3)...)
	return h
}

// beside opens the store as a command does while the server runs.
func (h *host) beside() *store.Access {
	h.Helper()
	a, err := store.OpenAccess(h.path)
	if err != nil {
		h.Fatal(err)
	}
	h.Cleanup(func() { a.Close() })
	return a
}

// push appends events.
func (h *host) push(crew string, list ...exchange.Push) []exchange.Ack {
	h.Helper()
	var all []exchange.Ack
	for part := range slices.Chunk(list, 200) {
		acks, err := h.Append(context.Background(), store.Batch{Crew: crew, Relay: "relay", Now: storetest.Now, Events: part})
		if err != nil {
			h.Fatal(err)
		}
		all = append(all, acks...)
	}
	return all
}

// pushes makes events fit to be appended; two of one id are one.
func pushes(list []event.Event) (fit []exchange.Push) {
	for _, e := range list {
		fit = append(fit, exchange.Push{Event: e, O: e.T, Sum: event.SumOf(e.Raw)})
	}
	return fit
}

// picture puts a picture in place as the server does.
func (h *host) picture(crew, text string) string {
	h.Helper()
	name := fmt.Sprintf("%x", sha256.Sum256([]byte(text)))
	file := filepath.Join(h.Pictures(), store.PictureFile(crew, name))
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		h.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		h.Fatal(err)
	}
	return name
}

// served reports whether phones of the crew are answered and their entries taken.
func (h *host) served() bool {
	h.Helper()
	reads := h.IsHere(context.Background(), crew) == nil
	_, err := h.Append(context.Background(), store.Batch{Crew: crew, Now: storetest.Now, Events: storetest.Events(h, "prober", 1)})
	if reads != (err == nil) {
		h.Fatalf("phones read: %v, and write: %v", reads, err)
	}
	return reads
}

// tables are what a store holds by crew, as queries of what a move has to keep. A
// stretch is only how ids are looked for, and a move is of one server alone.
var tables = map[string]string{
	"crew":     `SELECT id, name, max, hex(head), highest FROM crew c WHERE c.id = ?`,
	"event":    `SELECT n, substr(e.id, -22), o, hex(sum), hex(chain), relay, hex(raw) FROM event e JOIN crew c ON c.key = e.crew WHERE c.id = ? ORDER BY n`,
	"standing": `SELECT rank, n FROM standing s JOIN crew c ON c.key = s.crew WHERE c.id = ? ORDER BY rank, n`,
	"device":   `SELECT d.id, d.name, role, hex(token), since, seen, revoked, hex(retry), used FROM device d JOIN crew c ON c.key = d.crew WHERE c.id = ? ORDER BY d.rowid`,
	"invite":   `SELECT i.id, role, hex(secret), handle, hex(salt), hex(code), expires, tries FROM invite i JOIN crew c ON c.key = i.crew WHERE c.id = ? ORDER BY i.rowid`,
	"audit":    `SELECT at, what, who, about, more FROM audit a JOIN crew c ON c.key = a.crew WHERE c.id = ? AND what NOT IN ('packed', 'handed-over', 'taken-up', 'kept') ORDER BY a.key`,
	"stretch":  ``,
	"move":     ``,
}

// dump returns all that a host holds of a crew, table by table, and files.
func (h *host) dump(crew string) map[string]string {
	h.Helper()
	db := storetest.Raw(h, h.path)
	defer db.Close()
	h.knowsAllTables(db)
	all := map[string]string{"pictures": h.pictures(crew), "erased": h.erased(crew)}
	for table, query := range tables {
		if query != "" {
			all[table] = rowsOf(h, db, query, crew)
		}
	}
	return all
}

// knowsAllTables fails if a migration has made a table that no query above is for.
func (h *host) knowsAllTables(db *sql.DB) {
	h.Helper()
	schema := rowsOf(h, db, `SELECT name, sql FROM sqlite_schema WHERE type = 'table' AND ? <> ''`, "x")
	for _, table := range strings.Split(strings.TrimSpace(schema), "\x1e") {
		name, text, _ := strings.Cut(table, "\x1f")
		_, known := tables[strings.TrimSpace(name)]
		if regexp.MustCompile(`(?m)^\s*crew\s`).MatchString(text) && !known {
			h.Errorf("the table %s holds something by crew, and no move takes it along", name)
		}
	}
}

func rowsOf(t testing.TB, db *sql.DB, query string, arg string) string {
	t.Helper()
	rows, err := db.Query(query, arg)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	columns, err := rows.Columns()
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	for rows.Next() {
		values := make([]sql.NullString, len(columns))
		to := make([]any, len(columns))
		for i := range values {
			to[i] = &values[i]
		}
		if err := rows.Scan(to...); err != nil {
			t.Fatal(err)
		}
		for i, v := range values {
			if i > 0 {
				out.WriteByte('\x1f')
			}
			out.WriteString(v.String)
		}
		out.WriteByte('\x1e')
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// pictures lists the pictures of a crew with their bytes.
func (h *host) pictures(crew string) string {
	var list []string
	files, _ := filepath.Glob(filepath.Join(h.Pictures(), crew, "??", "*"))
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			h.Fatal(err)
		}
		list = append(list, filepath.Base(file)+" "+string(data))
	}
	return strings.Join(list, "\n")
}

// erased returns the crew's lines of the list of erasures.
func (h *host) erased(crew string) string {
	text, err := os.ReadFile(store.ListOfErasures(h.path))
	if err != nil {
		return ""
	}
	var lines []byte
	for line := range bytes.Lines(text) {
		if bytes.Contains(line, []byte(crew)) && !bytes.Contains(line, []byte(`"moved":`)) { // which is the server's own
			lines = append(lines, line...)
		}
	}
	return string(lines)
}

// compare tells which table differs.
func compare(t testing.TB, what string, got, want map[string]string) {
	t.Helper()
	for table, text := range want {
		if got[table] != text {
			t.Errorf("%s: %s differs\n got %.600q\nwant %.600q", what, table, got[table], text)
		}
	}
}

// carry moves the crew from one host to another, with everything done twice.
func carry(t testing.TB, from, to *host, file string) Contents {
	t.Helper()
	ctx := context.Background()
	a, b := from.beside(), to.beside()
	for range 2 {
		if _, err := Pack(ctx, a, crew, file, storetest.Now); err != nil {
			t.Fatal(err)
		}
	}
	receipt, c, err := Unpack(ctx, b, file)
	if err != nil {
		t.Fatal(err)
	}
	if again, _, err := Unpack(ctx, b, file); err != nil || again.String() != receipt.String() {
		t.Fatalf("unpacked twice: %v, %v; the first time %v", again, err, receipt)
	}
	if from.served() || to.served() {
		t.Fatal("a server serves the crew before it was taken up")
	}
	key, err := a.HandOver(receipt, storetest.Now)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := a.HandOver(receipt, storetest.Now); err != nil || again != key {
		t.Fatalf("handed over twice: %v, %v", again, err)
	}
	for range 2 {
		if _, err := b.TakeUp(key, storetest.Now); err != nil {
			t.Fatal(err)
		}
	}
	return c
}

func hexOf(sum [32]byte) string { return fmt.Sprintf("%x", sum) }
