package main

import (
	"flag"
	"io"
	"strings"
	"testing"
)

// TestServeDemoRefuses: invented data mix with no real ones, and are shown under no name
// of a real server.
func TestServeDemoRefuses(t *testing.T) {
	for line, names := range map[string]string{
		"-demo -db real.db":                                           "-db",
		"-db kerfside.db -demo":                                       "-db",
		"-demo -backups there":                                        "-backups",
		"-demo -begin-anew":                                           "-begin-anew",
		"-demo -cert c -key k -host shop.example":                     "-cert",
		"-demo -acme -host shop.example.com":                          "-acme",
		"-demo -behind-proxy -host shop.example":                      "-behind-proxy",
		"-demo -lan":                                                  "-lan",
		"-demo -addr :8480":                                           ":8480",
		"-demo -addr 192.168.1.20:8480":                               "192.168.1.20",
		"-demo -plain-http :8480":                                     "-plain-http",
		"-demo -plain-http :8480 -host shop.lan -on-backup-failure x": "-on-backup-failure",
	} {
		a, err := serveOf(t, line)
		if err == nil {
			err = a.check(a.Addr)
		}
		if err == nil || !strings.Contains(err.Error(), names) {
			t.Errorf("serve %s: %v", line, err)
		}
	}
	for line, addr := range map[string]string{
		"-demo":                      "localhost:0",
		"-demo -addr localhost:9000": "localhost:9000",
		"-demo -plain-http :8481 -host 192.0.2.7": ":8481",
		"": "localhost:8480",
	} {
		a, err := serveOf(t, line)
		if err == nil {
			err = a.check(a.Addr)
		}
		if err != nil || a.Addr != addr || a.Demo != strings.Contains(line, "-demo") || (a.Backups == "") != a.Demo {
			t.Errorf("serve %s: at %s, demo %v, backups in %q, %v", line, a.Addr, a.Demo, a.Backups, err)
		}
	}
}

// serveOf reads the flags of "kerfside serve".
func serveOf(t *testing.T, line string) (*serveRun, error) {
	t.Helper()
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	a := declareServe(flags)
	if err := flags.Parse(strings.Fields(line)); err != nil {
		t.Fatal(err)
	}
	return a, a.settle()
}

// TestOnlyDemoIsFilled: a server that shows no demo begins empty.
func TestOnlyDemoIsFilled(t *testing.T) {
	for _, shown := range []bool{false, true} {
		app := shippedApp(t.TempDir())
		app.Addr, app.Demo = "localhost:0", shown
		if err := app.Open(); err != nil {
			t.Fatal(err)
		}
		state, _ := app.store.State(app.store.Crew())
		if err := app.Close(); err != nil || (state.Max > 0) != shown {
			t.Errorf("demo %v: %d entries, %v", shown, state.Max, err)
		}
		if err := app.Open(); err != nil { // what is there stays as it is
			t.Fatal(err)
		}
		again, _ := app.store.State(app.store.Crew())
		if err := app.Close(); err != nil || again.Max != state.Max {
			t.Errorf("demo %v: %d entries, opened again %d, %v", shown, state.Max, again.Max, err)
		}
	}
}
