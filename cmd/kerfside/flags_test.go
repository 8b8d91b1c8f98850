package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/cmd/internal/command"
)

// TestMistyped: a word or a flag that a command does not know is named, with
// those that there are, and nothing is done.
func TestMistyped(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range []struct{ line, names, offers string }{
		{line: "sreve", names: `"sreve"`},
		{line: "-verbose serve", names: `"-verbose"`},
		{line: "serve -bd x.db", names: "-bd", offers: "-db"},
		{line: "serve x.db", names: `"x.db"`, offers: "-db"},
		{line: "serve -photos many", names: `"many"`, offers: "-photos"},
		{line: "serve -db", names: "-db", offers: "kerfside.db"},
		{line: "backup -to x", names: "-to", offers: "-dir"},
		{line: "restore -file x", names: "-file", offers: "-db"},
		{line: "erase -db=x.db -yes ID", names: "-yes", offers: "-why"},
		{line: "lan -name x", names: "-name", offers: "-host"},
		{line: "demo -fill", names: "-fill", offers: "-db"},
		{line: "demo x.db", names: `"x.db"`, offers: "-db"},
		{line: "crew owner -role x", names: "-role", offers: "-crew"},
		{line: "crew onwer", names: `"onwer"`},
		{line: "crew revoke one two", names: "crew revoke", offers: "DEVICE"},
		{line: "restore one.db two.db", names: `"two.db"`, offers: "FILE"},
		{line: "restore", names: "backup", offers: "FILE"},
		{line: "erase one two", names: `"two"`, offers: "ID"},
		{line: "serve -addr localhost:99999", names: "localhost:99999", offers: "-addr"},
		{line: "serve -addr localhost:nosuchport", names: "port", offers: "-addr"},
		{line: "crew -onwer", names: "-onwer", offers: "-crew"},
		{line: "crew -db x.db", names: "kerfside crew", offers: "crew owner"},
		{line: "crew -db x.db onwer", names: `"onwer"`},
		{line: "serve -photos 1.5", names: `"1.5"`, offers: "pictures"},
		{line: "serve -photos 99999999999999999999", names: "-photos", offers: "2000"},
		{line: "serve -photos 9999999999999", names: "9999999999999", offers: "1000000000"},
		{line: "serve -day-mb 18446744073710", names: "18446744073710", offers: "1000000000"},
		{line: "serve -day-mb -5", names: "-5", offers: "At least 1"},
		{line: "serve -day-entries 0", names: "0", offers: "At least 1"},
		{line: "serve -dev=perhaps", names: `"perhaps"`, offers: "-dev"},
		{line: "serve -day-entries", names: "-day-entries", offers: "20000"},
		{line: "serve -backups", names: "-backups", offers: "FOLDER"},
		{line: "crew owner -url", names: "-url", offers: "ADDRESS"},
		{line: "lan -host", names: "-host", offers: "private address"},
		{line: "serve --=x", names: "--=x", offers: "-db"},
		{line: "serve -db file:x.db", names: `"file:x.db"`, offers: "-db kerfside.db"},
		{line: "serve -db :memory:", names: `":memory:"`, offers: "-db kerfside.db"},
		{line: "crew list -db=", names: `""`, offers: "-db kerfside.db"},
		{line: "backup -db file:/x?vfs=memdb", names: "file:", offers: "-db kerfside.db"},
	} {
		var out bytes.Buffer
		err := program.Run(strings.Fields(c.line), &out)
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
		p := problem.From(program.Run(strings.Fields(line), &bytes.Buffer{}))
		if p == nil || p.Kind != problem.Busy || !strings.Contains(p.Msg, says) || !strings.Contains(strings.ToLower(p.Hint), "stop") {
			t.Errorf("%s: %v", line, p)
		}
	}
}

// TestNoAddress: an address that is not there may come with the network, so a
// service tries again; one that cannot be is refused for good.
func TestNoAddress(t *testing.T) {
	for addr, want := range map[string]int{
		"192.0.2.1:0":       command.Failed, // for documents alone, by RFC 5737
		"nowhere.invalid:0": command.Failed, // never a name, by RFC 6761
		"localhost:99999":   command.Usage,
	} {
		err := program.Run([]string{"serve", "-plain-http", addr, "-host", "shop.example", "-db", filepath.Join(t.TempDir(), "a.db")}, &bytes.Buffer{})
		if got := command.StatusOf(err); got != want {
			t.Errorf("-plain-http %s ends with %d, want %d: %v", addr, got, want, err)
		}
	}
}

// TestHelp: each command explains itself and ends well.
func TestHelp(t *testing.T) {
	for _, c := range program.Verbs {
		var out bytes.Buffer
		if err := program.Run([]string{c.Name, "-h"}, &out); err != nil || out.Len() == 0 {
			t.Errorf("kerfside %s -h prints %q, %v", c.Name, out.String(), err)
		}
	}
}

// TestFlagsAnywhere: flags may stand behind the words.
func TestFlagsAnywhere(t *testing.T) {
	db := filepath.Join(t.TempDir(), "a.db")
	err := program.Run([]string{"restore", "missing.db", "-db", db}, &bytes.Buffer{})
	if err == nil || !strings.Contains(err.Error(), "missing.db") {
		t.Errorf("it says %v", err)
	}
}
