package main

import (
	"io"
	"log/slog"
	"strings"
	"testing"

	"kerfside/cmd/internal/command"
	"kerfside/server/store/storetest"
)

// TestStatuses runs the built command into each exit status that it has. What went
// wrong is on standard error alone, in two lines if it is a mistake.
func TestStatuses(t *testing.T) {
	app := openApp(t, t.TempDir())
	defer app.Close()
	torn := &App{DB: t.TempDir() + "/torn.db", Log: slog.New(slog.DiscardHandler)}
	if err := demo(torn.DB, io.Discard); err != nil {
		t.Fatal(err)
	}
	if _, err := storetest.Raw(t, torn.DB).Exec(`UPDATE event SET raw = CAST(replace(CAST(raw AS TEXT), 'wall', 'wail') AS BLOB) WHERE n = 6`); err != nil {
		t.Fatal(err)
	}
	met := map[int]bool{}
	for _, c := range []struct {
		line   string
		status int
		says   string // on standard error
	}{
		{line: "version", status: command.Done},
		{line: "serve -h", status: command.Done},
		{line: "", status: command.Done},
		{line: "calc unit-pressure pressure=6bar", status: command.Usage, says: "no calculator"},
		{line: "backup -db none.db", status: command.Failed, says: "no database"},
		{line: "crew devices -db " + app.DB + " -crew nobody", status: command.Failed, says: "no crew"},
		{line: "sreve", status: command.Usage, says: "kerfside serve"},
		{line: "serve -bd x.db", status: command.Usage, says: "-db"},
		{line: "serve x.db", status: command.Usage, says: "x.db"},
		{line: "serve -photos 0", status: command.Usage, says: "From 1"},
		{line: "serve -addr :8480", status: command.Failed, says: "-lan"},
		{line: "crew onwer", status: command.Usage, says: "kerfside crew owner"},
		{line: "calc air-tank volume=much", status: command.Usage, says: "volume"},
		{line: "demo -db " + app.DB, status: command.InUse, says: "Stop"},
		{line: "serve -addr " + app.Addr + " -db other.db", status: command.InUse, says: "-addr"},
		{line: "backup -db " + torn.DB, status: command.NotAll},
	} {
		got := runBuilt(t, t.TempDir(), strings.Fields(c.line)...)
		if got.status != c.status || !strings.Contains(got.err, c.says) || (c.says == "") != (got.err == "") {
			t.Errorf("kerfside %s: status %d, %q, %q; want %d, %q", c.line, got.status, got.out, got.err, c.status, c.says)
		}
		if n := len(lines(got.err)); c.status == command.Usage && n != 2 {
			t.Errorf("kerfside %s is told in %d lines: %q", c.line, n, got.err)
		}
		met[got.status] = true
	}
	for _, s := range command.Statuses {
		if !met[s.Code] {
			t.Errorf("no line ends in %d: %s", s.Code, s.Means)
		}
	}
}
