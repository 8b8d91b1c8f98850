package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

// TestMistyped: a word or a flag that a command does not know is named, with
// those that there are, and nothing is done.
func TestMistyped(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range []struct{ line, names, offers string }{
		{"sreve", `"sreve"`, ""},
		{"-verbose serve", `"-verbose"`, ""},
		{"serve -bd x.db", "-bd", "-db"},
		{"serve x.db", `"x.db"`, "-db"},
		{"serve -photos many", `"many"`, "-photos"},
		{"serve -db", "-db", "kerfside.db"},
		{"backup -to x", "-to", "-dir"},
		{"restore -file x", "-file", "-db"},
		{"erase -db=x.db -yes ID", "-yes", "-why"},
		{"lan -name x", "-name", "-host"},
		{"demo -fill", "-fill", "-db"},
		{"demo x.db", `"x.db"`, "-db"},
		{"crew owner -role x", "-role", "-crew"},
		{"crew onwer", `"onwer"`, ""},
		{"crew revoke one two", "crew revoke", "DEVICE"},
		{"restore one.db two.db", `"two.db"`, "FILE"},
		{"restore", "backup", "FILE"},
		{"erase one two", `"two"`, "ID"},
		{"serve -addr localhost:99999", "localhost:99999", "-addr"},
		{"serve -addr localhost:nosuchport", "port", "-addr"},
		{"crew -onwer", "-onwer", "-crew"},
		{"crew -db x.db", "kerfside crew", "crew list"},
		{"crew -db x.db onwer", `"onwer"`, ""},
		{"serve -photos 1.5", `"1.5"`, "pictures"},
		{"serve -photos 99999999999999999999", "-photos", "2000"},
		{"serve -photos 9999999999999", "9999999999999", "1000000000"},
		{"serve -day-mb 18446744073710", "18446744073710", "1000000000"},
		{"serve -day-mb -5", "-5", "At least 1"},
		{"serve -day-entries 0", "0", "At least 1"},
		{"serve -dev=perhaps", `"perhaps"`, "-dev"},
		{"serve -day-entries", "-day-entries", "20000"},
		{"serve -backups", "-backups", "FOLDER"},
		{"crew owner -url", "-url", "ADDRESS"},
		{"lan -host", "-host", "private address"},
		{"serve --=x", "--=x", "-db"},
		{"serve -db file:x.db", `"file:x.db"`, "-db kerfside.db"},
		{"serve -db :memory:", `":memory:"`, "-db kerfside.db"},
		{"crew list -db=", `""`, "-db kerfside.db"},
		{"backup -db file:/x?vfs=memdb", "file:", "-db kerfside.db"},
	} {
		var out bytes.Buffer
		err := run(strings.Fields(c.line), &out)
		if kind := problem.KindOf(err); err == nil || kind == problem.Internal {
			t.Errorf("%s: %v", c.line, err)
			continue
		}
		p := problem.From(err)
		if !strings.Contains(p.Msg, c.names) || !strings.Contains(p.Hint, c.offers) || p.Hint == "" {
			t.Errorf("%s says %q, %q", c.line, p.Msg, p.Hint)
		}
		if all := p.Msg + p.Hint; strings.Contains(all, "argument") || strings.Contains(all, "parse") || strings.Contains(all, "syntax") || strings.Contains(all, "STRING") {
			t.Errorf("%s is not told in plain words: %q, %q", c.line, p.Msg, p.Hint)
		}
	}
	if left, err := os.ReadDir("."); err != nil || len(left) > 0 {
		t.Errorf("they left %v, %v", left, err)
	}
}

// TestBeginsTwice: a second server is told whether the port or the database is
// taken, and what to do.
func TestBeginsTwice(t *testing.T) {
	app := openApp(t, t.TempDir())
	defer app.Close()
	for line, says := range map[string]string{
		"serve -addr " + app.Addr + " -db " + filepath.Join(t.TempDir(), "b.db"): "another program listens",
		"serve -addr localhost:0 -db " + app.DB:                                  "in use by another kerfside",
		"demo -db " + app.DB:                                                     "in use by another kerfside",
		"restore x.db -db " + app.DB:                                             "in use",
	} {
		p := problem.From(run(strings.Fields(line), &bytes.Buffer{}))
		if p == nil || p.Kind != problem.Busy || !strings.Contains(p.Msg, says) || !strings.Contains(strings.ToLower(p.Hint), "stop") {
			t.Errorf("%s: %v", line, p)
		}
	}
}

// TestHelp: each command explains itself and ends well.
func TestHelp(t *testing.T) {
	for _, c := range commands {
		var out bytes.Buffer
		if err := run([]string{c.name, "-h"}, &out); err != nil || out.Len() == 0 {
			t.Errorf("kerfside %s -h prints %q, %v", c.name, out.String(), err)
		}
	}
}

// TestFlagsAnywhere: flags may stand behind the words.
func TestFlagsAnywhere(t *testing.T) {
	db := filepath.Join(t.TempDir(), "a.db")
	err := run([]string{"restore", "missing.db", "-db", db}, &bytes.Buffer{})
	if err == nil || !strings.Contains(err.Error(), "missing.db") {
		t.Errorf("it says %v", err)
	}
}
