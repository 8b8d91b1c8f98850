package store_test

import (
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// contents reads every row of every table by SQLite alone: table → column → its
// values in the order of the rows. Ids of events are told as they were written.
func contents(t *testing.T, path string) map[string]map[string][]string {
	t.Helper()
	db := storetest.Raw(t, path)
	defer db.Close()
	all := map[string]map[string][]string{}
	for _, table := range strs(t, db, `SELECT name FROM sqlite_schema WHERE type = 'table'`) {
		all[table] = map[string][]string{}
		for _, column := range strs(t, db, `SELECT name FROM pragma_table_info(?)`, table) {
			key := `quote("` + column + `")`
			if table == "event" && column == "id" {
				key = `CAST(raw AS TEXT) ->> '$.id'`
			}
			all[table][column] = strs(t, db, `SELECT `+key+` FROM "`+table+`" ORDER BY `+strings.Join(strs(t, db, `SELECT name FROM pragma_table_info(?) WHERE pk > 0 ORDER BY pk`, table), ", "))
		}
	}
	all["user_version"] = map[string][]string{"": strs(t, db, `PRAGMA user_version`)}
	if verdict := strs(t, db, `PRAGMA integrity_check`); len(verdict) != 1 || verdict[0] != "ok" {
		t.Errorf("integrity_check of %s: %q", filepath.Base(path), verdict)
	}
	return all
}

func strs(t *testing.T, db *sql.DB, query string, args ...any) []string {
	t.Helper()
	rows, err := db.Query(query, args...)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	var list []string
	for rows.Next() {
		var s string
		if err := rows.Scan(&s); err != nil {
			t.Fatal(err)
		}
		list = append(list, s)
	}
	return list
}

// lost says what of before is not in after.
func lost(before, after map[string]map[string][]string) (all []string) {
	for table, columns := range before {
		for column, values := range columns {
			if table != "user_version" && !slices.Equal(values, after[table][column]) {
				all = append(all, fmt.Sprintf("%s.%s: %q, was %q", table, column, after[table][column], values))
			}
		}
	}
	return all
}

// TestReleased opens the database of each form with this program: all that it held
// is there, event by event with chain and sum, crew, phone, invitation and audit;
// what it was is kept beside it, whole; and a second start changes nothing more.
func TestReleased(t *testing.T) {
	released := storetest.AllReleased(t, "../..")
	newest := filepath.Join(t.TempDir(), "new.db")
	storetest.Open(t, newest).Close()
	want := contents(t, newest)
	if form := want["user_version"][""][0]; form != fmt.Sprint(len(released)) {
		t.Errorf("this program's form is %s, and %d databases are kept: make the next, see testdata/journal/stores/README.md", form, len(released))
	}
	for _, r := range released {
		t.Run(fmt.Sprint("form-", r.Form), func(t *testing.T) {
			path := r.Unpack(t, t.TempDir())
			before := contents(t, path)
			if before["user_version"][""][0] != fmt.Sprint(r.Form) || len(before["event"]["n"]) < 50 || r.Form > 1 && len(before["device"]["id"]) != 1 {
				t.Fatalf("it is of form %v with %d events", before["user_version"][""], len(before["event"]["n"]))
			}
			for range 2 {
				s, err := store.Open(path, store.Options{})
				if err != nil {
					t.Fatal(err)
				}
				rows, err := s.After(t.Context(), s.Crew(), 0, 1<<30, 1<<30)
				if err != nil {
					t.Fatal(err)
				}
				for i, row := range rows {
					if row.ID != before["event"]["id"][i] || fmt.Sprintf("X'%X'", row.Raw) != before["event"]["raw"][i] || fmt.Sprintf("X'%X'", row.Chain[:]) != before["event"]["chain"][i] {
						t.Fatalf("arrival %d is %s %s, was %s", row.N, row.ID, row.Raw, before["event"]["id"][i])
					}
				}
				if state, _ := s.State(s.Crew()); int(state.Max) != len(rows) || len(rows) != len(before["event"]["n"]) {
					t.Errorf("%d events are handed out up to %d, %d were there", len(rows), state.Max, len(before["event"]["n"]))
				}
				if err := s.Close(); err != nil {
					t.Fatal(err)
				}
			}
			after := contents(t, path)
			for _, what := range lost(before, after) {
				t.Error("lost: ", what)
			}
			for table, columns := range want {
				if len(columns) != len(after[table]) {
					t.Errorf("table %s has %d columns, in a new store %d", table, len(after[table]), len(columns))
				}
			}
			former := store.Former(path)
			if r.Form == len(released) {
				if len(former) != 0 {
					t.Errorf("nothing was changed, and it kept %v", former)
				}
				return
			}
			if name := fmt.Sprintf("%s.form-%d", path, r.Form); !slices.Equal(former, []string{name}) {
				t.Fatalf("of the former database it kept %v, want %s", former, name)
			}
			kept := contents(t, former[0])
			if kept["user_version"][""][0] != fmt.Sprint(r.Form) || len(lost(before, kept)) > 0 || len(lost(kept, before)) > 0 {
				t.Errorf("what was kept is of form %v and lacks %v", kept["user_version"][""], lost(before, kept))
			}
			if info, err := os.Stat(former[0]); err != nil || info.Mode().Perm()&0o077 != 0 {
				t.Errorf("others may read what was kept: %v", info.Mode())
			}
		})
	}
}

// Where there is no room for the copy, nothing is migrated, and the words say so.
func TestNotMigratedWithoutCopy(t *testing.T) {
	r := storetest.AllReleased(t, "../..")[3]
	path := r.Unpack(t, t.TempDir())
	before := contents(t, path)
	inTheWay := path + ".form-4.half"
	if err := os.Mkdir(inTheWay, 0o700); err != nil { // so that nothing can be written there
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(inTheWay, "x"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(path, store.Options{})
	if err == nil {
		s.Close()
		t.Fatal("it was migrated without a copy")
	}
	if !strings.Contains(fmt.Sprint(err), "could not be copied to "+path+".form-4") {
		t.Errorf("it says %v", err)
	}
	if after := contents(t, path); after["user_version"][""][0] != "4" || len(lost(before, after))+len(lost(after, before)) > 0 {
		t.Errorf("it was changed: form %v", after["user_version"][""])
	}
	if err := os.RemoveAll(inTheWay); err != nil {
		t.Fatal(err)
	}
	storetest.Open(t, path).Close()
	if after := contents(t, path); after["user_version"][""][0] == "4" {
		t.Error("with room it was not migrated either")
	}
}

// What was kept stays for a week.
func TestDropFormer(t *testing.T) {
	path := storetest.AllReleased(t, "../..")[4].Unpack(t, t.TempDir())
	storetest.Open(t, path).Close()
	for _, c := range []struct {
		after time.Duration
		left  int
	}{{0, 1}, {6 * 24 * time.Hour, 1}, {-time.Hour, 1}, {8 * 24 * time.Hour, 0}, {9 * 24 * time.Hour, 0}} {
		if _, err := store.DropFormer(path, time.Now().Add(c.after)); err != nil {
			t.Error(err)
		}
		if left := store.Former(path); len(left) != c.left {
			t.Errorf("%v after the upgrade there is %v, want %d", c.after, left, c.left)
		}
	}
}

// A database of a newer form is left alone, to the byte.
func TestNewerUntouched(t *testing.T) {
	released := storetest.AllReleased(t, "../..")
	path := released[len(released)-1].Unpack(t, t.TempDir())
	db := storetest.Raw(t, path)
	if _, err := db.Exec(fmt.Sprintf(`PRAGMA user_version = %d`, len(released)+1)); err != nil {
		t.Fatal(err)
	}
	db.Close()
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if s, err := store.Open(path, store.Options{}); err == nil {
		s.Close()
		t.Error("a newer database was opened")
	}
	if after, err := os.ReadFile(path); err != nil || string(after) != string(before) {
		t.Error("a newer database was changed: ", err)
	}
}
